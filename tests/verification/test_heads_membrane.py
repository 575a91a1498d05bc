"""Membrane stresses of heads, first yield, crown strain and edge lengths: exact cases."""

import numpy as np
import pytest
from laws import LAWS

from stretchform.errors import NoSolution
from stretchform.forming.heads import (
    crown_strain,
    edge_lengths,
    ellipsoid_stresses,
    first_yield,
    wrinkling_asks_for_a_look,
)

RADIUS, WALL, YIELD = 0.6, 3e-3, 240e6


def test_a_two_to_one_head_is_compressed_around_at_its_equator():
    along, around = ellipsoid_stresses(1e6, RADIUS, RADIUS / 2.0, WALL, RADIUS)
    unit = 1e6 * RADIUS / WALL
    assert along == pytest.approx(unit / 2.0, rel=1e-12)
    assert around == pytest.approx(-unit, rel=1e-12)


def test_the_crown_of_a_two_to_one_head_carries_p_a_over_t_both_ways():
    along, around = ellipsoid_stresses(1e6, RADIUS, RADIUS / 2.0, WALL, 0.0)
    assert along == pytest.approx(1e6 * RADIUS / WALL, rel=1e-12)
    assert around == pytest.approx(along, rel=1e-12)


def test_membrane_stresses_balance_the_pressure_normal_to_the_wall():
    at = np.linspace(0.05, 1.0, 20) * RADIUS
    a, b = RADIUS, 0.4 * RADIUS
    along, around = ellipsoid_stresses(1e6, a, b, WALL, at)
    second = np.sqrt(a**4 + at**2 * (b**2 - a**2)) / b
    first = second**3 * b**2 / a**4
    assert (along / first + around / second) * WALL == pytest.approx(1e6, rel=1e-12)


def test_first_yield_of_heads_by_their_membranes():
    assert first_yield(RADIUS, RADIUS / 2.0, WALL, YIELD) == pytest.approx(0.90711e6, rel=1e-4)
    assert first_yield(RADIUS, RADIUS, WALL, YIELD) == pytest.approx(2.4e6, rel=1e-9)
    cylinder = 2.0 / np.sqrt(3.0) * YIELD * WALL / RADIUS
    ratio = first_yield(RADIUS, RADIUS / 2.0, WALL, YIELD) / cylinder
    assert ratio == pytest.approx(0.6547, rel=1e-4)  # four digits kept


def test_a_hemisphere_of_the_shells_wall_stays_elastic_at_the_forming_pressure():
    pressure = 2.04895e6  # closed cylinder of law M2 at a growth of 5 %
    stress, _ = ellipsoid_stresses(pressure, RADIUS, RADIUS, WALL, 0.3)
    assert stress == pytest.approx(204.9e6, rel=1e-3)
    assert crown_strain(pressure, RADIUS, WALL, LAWS["M2"]) == 0.0


def test_the_crown_of_a_two_to_one_head_strains_by_a_tenth():
    strain = crown_strain(2.04895e6, 2.0 * RADIUS, WALL, LAWS["M2"])
    assert strain == pytest.approx(0.0966, rel=0.01)  # three digits kept
    assert strain / 2.0 == pytest.approx(0.048, rel=0.01)


def test_a_crown_beyond_its_strength_has_no_answer():
    with pytest.raises(NoSolution, match="carries no"):
        crown_strain(9e6, 2.0 * RADIUS, WALL, LAWS["M2"])


def test_edge_lengths_of_a_cylinder():
    fade, half_wave = edge_lengths(RADIUS, WALL, 0.3)
    assert fade == pytest.approx(33.0e-3, rel=1e-3)  # 0.778 sqrt(r t)
    assert half_wave == pytest.approx(103.7e-3, rel=1e-3)  # 2.44 sqrt(r t)


@pytest.mark.parametrize(
    ("diameter", "hoop", "look"), [(1.2, -1e6, True), (0.25, -1e6, False), (1.2, 1e6, False)]
)
def test_thin_heads_in_hoop_compression_ask_for_a_look(diameter, hoop, look):
    assert wrinkling_asks_for_a_look(diameter, WALL, hoop) is look

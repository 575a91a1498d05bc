"""Slosh against its check values, quadratures of the mode and the energy method for rings."""

import csv
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.special import j1, jvp

from stretchform.plates import slosh
from stretchform.si import STANDARD_GRAVITY

TABLE = Path(__file__).parent / "data/plates-check-values.csv"
LINES = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
ROWS = {row["row"]: float(row["expected"]) for row in csv.DictReader(LINES)}
G = STANDARD_GRAVITY
XI = slosh.FIRST_ROOT


def test_row_20_first_root_of_the_derivative_of_j1():
    assert pytest.approx(ROWS["20"], abs=5e-8) == XI
    assert jvp(1, XI) == pytest.approx(0.0, abs=1e-14)


def test_row_21_small_tank():
    found = slosh.mode(0.35, 0.70, G)
    assert found.frequency == pytest.approx(ROWS["21f"], abs=5e-5)  # four decimals printed
    assert found.mass_ratio == pytest.approx(ROWS["21m"], abs=5e-5)
    assert found.pendulum == pytest.approx(ROWS["21L"], abs=5e-5)


def test_row_22_depth_equal_to_radius():
    assert slosh.frequency(0.5, 0.5, G) == pytest.approx(ROWS["22f"], abs=5e-5)
    assert slosh.mass_ratio(0.5, 0.5) == pytest.approx(ROWS["22m"], abs=5e-5)


def test_row_23_depth_of_the_mass_two_ways():
    assert slosh.frequency(1.0, 1.0, G) == pytest.approx(ROWS["23f"], abs=5e-5)
    assert slosh.mass_depth_wall(1.0, 1.0) == pytest.approx(ROWS["23w"], abs=5e-5)
    assert slosh.mass_depth(1.0, 1.0) == pytest.approx(ROWS["23b"], abs=5e-5)


def test_depth_of_the_mass_balances_the_pressure_of_the_mode():
    # unit mode pressure J1(xi r) cos(t) cosh(xi (z + h)), R = 1, surface at z = 0
    depth = 0.8
    wall = [
        np.pi * j1(XI) * quad(lambda z, k=k: z**k * np.cosh(XI * (z + depth)), -depth, 0)[0]
        for k in (0, 1)
    ]
    bottom = np.pi * quad(lambda r: j1(XI * r) * r**2, 0, 1)[0]
    centre = (wall[1] + bottom) / wall[0]  # moment about the surface over the force
    assert -centre == pytest.approx(slosh.mass_depth(1.0, depth), rel=1e-9)  # quadrature


def test_mass_ratio_follows_from_the_force_of_the_mode():
    # m1/m = (force per tank acceleration of the mode) / liquid: projection on the first mode
    depth = 1.3
    norm = quad(lambda r: j1(XI * r) ** 2 * r, 0, 1)[0]
    load = quad(lambda r: r * j1(XI * r) * r, 0, 1)[0]
    wall = j1(XI) * np.sinh(XI * depth) / XI / np.cosh(XI * depth)
    ratio = load / norm * wall / depth
    assert ratio == pytest.approx(slosh.mass_ratio(1.0, depth), rel=1e-9)


@pytest.mark.parametrize(
    ("row", "radius", "width", "depth", "wave"),
    [("24", 1.0, 0.1, 0.1, 0.1), ("25", 0.35, 0.05, 0.05, 0.035)],
)
def test_rows_24_and_25_ring_damping(row, radius, width, depth, wave):
    ours = slosh.ring_damping(radius, width, depth, wave)
    assert ours == pytest.approx(ROWS[row], abs=5e-6)  # five decimals printed


def test_row_26_energy_method_gives_nearly_the_same_ring_damping():
    """Loss of one cycle over 4 pi times the energy of the wave; unit radius and density.

    Speed at the ring w eta cos(angle) cos(w t), w^2 = a xi; drag 15 / sqrt(U T / (2 width)).
    """
    angle = quad(lambda t: abs(np.cos(t)) ** 2.5, 0, 2 * np.pi)[0]
    swing = quad(lambda t: abs(np.cos(t)) ** 3, 0, 2 * np.pi)[0]
    loss = 0.5 * 15 * XI / np.sqrt(np.pi) * angle * swing  # per a width^1.5 eta^2.5
    energy = np.pi / 4 * (1 - 1 / XI**2)  # per a eta^2
    constant = loss / (4 * np.pi * energy)
    assert constant == pytest.approx(ROWS["26"], abs=6e-4)  # three decimals printed
    ours = slosh.ring_damping(1.0, 1e-6, 1e-12, 1.0) / 1e-9
    assert ours == pytest.approx(8.004, abs=6e-4)
    assert constant / ours == pytest.approx(1.07, abs=0.005)  # so the constant is credible


def test_row_27_growth_lowers_the_frequency():
    ratio = slosh.frequency(0.3675, 0.6349, G) / slosh.frequency(0.35, 0.7, G)
    assert ratio == pytest.approx(ROWS["27"], abs=6e-6)  # five decimals printed


def test_row_40_area_ratio_before_and_after_growth():
    before = slosh.area_ratio(0.35, 0.06, 0.003)
    after = slosh.area_ratio(0.3675, 0.06, 0.0205)
    assert before == pytest.approx(ROWS["40a"], abs=5e-5)
    assert after == pytest.approx(ROWS["40b"], abs=5e-5)


def test_deep_liquid_sloshes_as_if_without_a_bottom():
    assert slosh.stiffness_ratio(0.35, 3.5) == pytest.approx(1.0, abs=1e-12)


def test_smooth_wall_of_a_small_water_tank_damps_a_tenth_of_a_per_cent():
    assert slosh.smooth_damping(0.35, 0.70, G, 1.0e-6) == pytest.approx(0.0010, abs=5e-5)


@pytest.mark.parametrize(
    ("spacing", "damping"), [(0.05, 0.127), (0.10, 0.045), (0.15, 0.020), (0.20, 0.0095)]
)
def test_rings_with_the_top_one_just_dry(spacing, damping):
    depths = spacing * np.arange(0, 8)
    found = slosh.rings(0.35, 0.05, depths[depths < 0.7], 0.035)
    assert found.each[0] == 0.0
    assert found.total == pytest.approx(damping, rel=0.03)  # two or three digits printed


def test_a_gap_after_growth_lowers_ring_damping_to_about_six_tenths():
    drawn = slosh.ring_damping(0.35, 0.06, 0.10, 0.035, 0.003)
    formed = slosh.ring_damping(0.3675, 0.06, 0.10, 0.035, 0.0205)
    assert formed / drawn == pytest.approx(0.6, abs=0.04)  # one digit known


def test_ranges_are_said():
    assert slosh.rings(0.35, 0.05, np.array([0.1]), 0.035).outside == ()
    assert slosh.rings(0.35, 0.10, np.array([0.1]), 0.035).outside == ("wide-ring",)
    assert slosh.rings(0.35, 0.05, np.array([0.02]), 0.035).outside == ("near-surface",)
    assert "large-wave" in slosh.rings(0.35, 0.05, np.array([0.2]), 0.08).outside


def test_widest_spacing_gives_back_its_damping():
    spacing = float(slosh.widest_spacing(0.35, 0.05, 0.035, 0.02))
    assert slosh.ring_damping(0.35, 0.05, spacing, 0.035) == pytest.approx(0.02, rel=1e-9)
    assert slosh.widest_spacing(0.35, 0.005, 0.035, 0.5) == 0.0


def test_pressure_on_a_ring():
    first = slosh.frequency(0.35, 0.7, G)
    found = slosh.ring_pressure(0.35, 0.05, 0.05, 0.05, first, 1000.0)
    assert found == pytest.approx(367.0, abs=4.0)  # its inputs are printed to two digits


def test_growth_lowers_level_frequency_and_damping_of_the_same_liquid():
    heights = np.arange(0.08, 0.70, 0.08)
    after = slosh.level_after(0.70, 0.35, 0.3675)
    assert after == pytest.approx(0.6349, abs=5e-5)  # four decimals printed
    one = slosh.slosh(0.35, 0.70, G, heights, 0.06, 0.003, 0.035)
    two = slosh.slosh(0.3675, float(after), G, heights, 0.06, 0.0205, 0.035)
    assert two.mode.frequency / one.mode.frequency == pytest.approx(ROWS["27"], abs=1e-4)
    assert two.mode.mass_ratio > one.mode.mass_ratio
    assert len(one.rings.each) == len(heights)
    assert one.damping == pytest.approx(one.mode.smooth_damping + one.rings.total)
    ring = slosh.ring_damping(0.3675, 0.06, after - heights[-2], 0.035, 0.0205)
    assert two.rings.each[-2] == pytest.approx(float(ring))
    assert two.rings.each[-1] == 0.0  # the level has fallen below the top ring


def test_full_plates_are_not_evaluated():
    found = slosh.slosh(0.35, 0.70, G, np.array([0.3]), None, 0.003, 0.035)
    assert found.rings is None
    assert found.damping is None
    assert found.mode.frequency == pytest.approx(ROWS["21f"], abs=5e-5)

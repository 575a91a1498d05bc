"""Fibres that yield and the section they make up."""

import numpy as np
import pytest
from scipy.optimize import brentq

from stretchform.plates import fibres
from stretchform.steel.curve import Ludwik

STEEL = Ludwik(230e6, 1256e6, 0.66)  # invented
E = 195e9
FLOW = fibres.tabulate(STEEL, E)


def fresh(shape=(1,)):
    return fibres.Memory(np.zeros(shape), np.zeros(shape))


@pytest.mark.parametrize("strain", [0.002, 0.01, 0.1, 0.4])
def test_yielding_fibre_meets_the_exact_curve(strain):
    plastic = brentq(lambda x: x + float(STEEL.stress(x)) / E - strain, 0.0, strain)
    stress, slope, memory = fibres.respond(np.array([strain]), fresh(), FLOW)
    assert stress[0] == pytest.approx(float(STEEL.stress(plastic)), rel=2e-4)  # 400 lines
    assert memory.strain[0] == pytest.approx(plastic, rel=2e-3)
    tangent = E * STEEL.slope(plastic) / (E + STEEL.slope(plastic))
    assert slope[0] == pytest.approx(tangent, rel=0.03)  # slope of one of the straight lines


def test_fibre_below_yield_is_elastic():
    stress, slope, memory = fibres.respond(np.array([0.001]), fresh(), FLOW)
    assert stress[0] == pytest.approx(E * 0.001, rel=1e-12)
    assert slope[0] == E
    assert memory.accumulated[0] == 0.0


def test_unloading_is_elastic_and_push_yields_at_the_hardened_stress():
    pulled, _, memory = fibres.respond(np.array([0.05]), fresh(), FLOW)
    back, slope, kept = fibres.respond(np.array([0.05 - 0.001]), memory, FLOW)
    assert back[0] == pytest.approx(pulled[0] - E * 0.001, rel=1e-9)
    assert slope[0] == E
    assert kept.accumulated[0] == memory.accumulated[0]
    pushed, _, turned = fibres.respond(np.array([0.0]), memory, FLOW)
    assert pushed[0] < -pulled[0]
    assert turned.accumulated[0] > memory.accumulated[0]
    assert turned.strain[0] < memory.strain[0]


def test_one_move_and_many_small_ones_end_alike():
    once, _, _ = fibres.respond(np.array([0.12]), fresh(), FLOW)
    memory = fresh()
    for strain in np.linspace(0.0, 0.12, 41)[1:]:
        often, _, memory = fibres.respond(np.array([strain]), memory, FLOW)
    assert often[0] == pytest.approx(once[0], rel=1e-9)  # same lines, no path


def test_fibres_stand_for_area_and_inertia():
    heights, widths = fibres.places(0.010, 16)
    assert np.sum(widths) == pytest.approx(0.010, rel=1e-12)
    assert np.sum(widths * heights**2) == pytest.approx(0.010**3 / 12, rel=1e-12)
    assert np.sum(widths * heights) == pytest.approx(0.0, abs=1e-18)


def test_elastic_section_bends_by_its_inertia():
    heights, widths = fibres.places(0.010, 16)
    areas = widths * 0.0015
    shape = (1, 16)
    found = fibres.section(
        np.array([0.0]), np.array([1e-4]), np.zeros((1, 1)), heights, areas, fresh(shape), FLOW
    )
    inertia = 0.0015 * 0.010**3 / 12
    assert found.moment[0] == pytest.approx(E * inertia * 1e-4, rel=1e-6)  # strain 5e-7


def test_derivatives_of_a_yielding_curved_section():
    heights, widths = fibres.places(0.010, 16)
    areas = widths * 0.0015
    memory = fresh((1, 16))
    bow = np.array([[-2.9]])

    def forces(stretch, curvature):
        return fibres.section(
            np.array([stretch]), np.array([curvature]), bow, heights, areas, memory, FLOW
        )

    at, step = forces(0.01, 12.0), 1e-7
    pulled, bent = forces(0.01 + step, 12.0), forces(0.01, 12.0 + 100 * step)
    assert (pulled.tension - at.tension) / step == pytest.approx(at.by_stretch, rel=1e-4)
    assert (pulled.moment - at.moment) / step == pytest.approx(at.by_both, rel=1e-4)
    assert (bent.tension - at.tension) / (100 * step) == pytest.approx(at.by_both, rel=1e-4)
    assert (bent.moment - at.moment) / (100 * step) == pytest.approx(at.by_curvature, rel=1e-4)


def test_outer_strain_of_pure_bending():
    assert fibres.outer_strain(0.0, 10.0, 0.0, 0.010) == pytest.approx(0.05)
    assert fibres.outer_strain(0.0, 2.9, 2.9, 0.010) == pytest.approx(0.0)
    assert fibres.outer_strain(0.02, 10.0, 0.0, 0.010) == pytest.approx(0.07)

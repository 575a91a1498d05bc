"""Against cold-stretching-review-2015: wall, strengthening pressure and stress by EN 13458-2.

Source: cold-stretching-review-2015, where the form s = Da·p/(20·(K/S)·v + p) + c with p in bar,
mm and N/mm², the design stress 273 N/mm² for 304 and the factor 1.5 from design to strengthening
pressure were read (its layout is partly garbled). K = 410 N/mm² itself is from memory; the 273
that was read is 410/1.5, so the chain must close on both.
Counts: the stated inputs (K/S = 273, factor 1.5) must come back as the stress of the wall.
Would fail for: the outside diameter taken for the mid-wall one (the + p in the denominator), a
radius for the diameter, bar for MPa, and the safety factor applied twice.
"""

import numpy as np
import pytest

from stretchform.forming import burst, criterion, membrane
from stretchform.forming.criterion import Shape
from stretchform.steel.curve import Voce

MPA, BAR, MM = 1e6, 1e5, 1e-3
OUTSIDE, DESIGN = 1206.0 * MM, 16.0 * BAR  # our own example; any other must do too


def nominal_hoop(pressure, outside, wall):
    """Hoop stress on the mid-wall diameter of the wall as built."""
    return pressure * (outside - wall) / (2.0 * wall)


def test_wall_is_that_of_the_form_in_bar_and_millimetres():
    stated = 1206.0 * 16.0 / (20.0 * (410.0 / 1.5) * 1.0 + 16.0)
    ours = burst.vessel_wall(OUTSIDE, DESIGN, 410.0 * MPA, 1.5) / MM
    assert ours == pytest.approx(stated, rel=1e-13)  # the same form, other units
    assert ours == pytest.approx(3.5195, abs=6e-5)  # computed by other code, printed to 1e-4


@pytest.mark.parametrize("outside", [0.3, 1.206, 3.0])
@pytest.mark.parametrize("design_bar", [2.0, 16.0, 40.0])
def test_the_stated_design_stress_comes_back_on_the_mid_wall_diameter(outside, design_bar):
    wall = burst.vessel_wall(outside, design_bar * BAR, 410.0 * MPA, 1.5)
    at_design = nominal_hoop(design_bar * BAR, outside, wall) / MPA
    assert at_design == pytest.approx(273.0, abs=0.5)  # stated as a whole number
    mistaken = design_bar * BAR * outside / (2.0 * wall) / MPA  # outside for mid-wall diameter
    assert mistaken - at_design == pytest.approx(design_bar / 20.0, rel=1e-9)


@pytest.mark.parametrize("outside", [0.3, 1.206, 3.0])
@pytest.mark.parametrize("design_bar", [2.0, 16.0, 40.0])
def test_one_and_a_half_times_the_design_pressure_loads_the_wall_to_410(outside, design_bar):
    wall = burst.vessel_wall(outside, design_bar * BAR, 410.0 * MPA, 1.5)
    strengthening = 1.5 * design_bar * BAR
    # exact in the formula, so only rounding: 410 N/mm² is the K that went in
    assert nominal_hoop(strengthening, outside, wall) / MPA == pytest.approx(410.0, rel=1e-12)


def test_our_closed_cylinder_reads_the_same_nominal_stress_at_first_yield():
    """The pressure of a wall that yields at 410 N/mm² hoop stress is the strengthening one."""
    wall = burst.vessel_wall(OUTSIDE, DESIGN, 410.0 * MPA, 1.5)
    radius = (OUTSIDE - wall) / 2.0
    steel = Voce(410.0 * MPA, 700.0 * MPA, 3.0)
    state = criterion.general(Shape.CLOSED, 1.0)  # hoop stress = flow stress
    ours = membrane.pressure(radius, wall, 0.0, steel, state, membrane.RIGID)
    assert ours / BAR == pytest.approx(24.0, rel=1e-12)  # exact chain, rounding only


def test_joint_factor_and_allowance_act_where_the_form_has_them():
    stated = 1206.0 * 16.0 / (20.0 * (410.0 / 1.5) * 0.85 + 16.0) + 0.3
    ours = burst.vessel_wall(OUTSIDE, DESIGN, 410.0 * MPA, 1.5, 0.85, 0.3 * MM) / MM
    assert ours == pytest.approx(stated, rel=1e-13)


def test_walls_of_several_strengths_come_as_an_array():
    walls = burst.vessel_wall(OUTSIDE, DESIGN, np.array([410.0, 470.0]) * MPA, 1.5)
    assert walls.shape == (2,)
    assert walls[1] < walls[0]  # the stronger steel has the thinner wall

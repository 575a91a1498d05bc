"""Travel of the wall and the gaps at the tabs."""

from math import pi

import numpy as np
import pytest

from stretchform.plates import geometry
from stretchform.steel.properties import contraction_304


def test_section_of_the_wall_keeps_its_area_when_the_inside_travels():
    radius, wall, growth = 0.35, 0.02, 0.08
    inside = 0.34 + geometry.inside_travel(radius, wall, growth)
    outside = 0.36 * 1.08
    assert pi * (outside**2 - inside**2) == pytest.approx(pi * (0.36**2 - 0.34**2), rel=1e-12)


def test_inside_of_a_very_thin_wall_travels_by_radius_times_growth():
    moved = geometry.inside_travel(0.35, 1e-9, 0.05)
    assert moved == pytest.approx(0.0175, rel=1e-7)  # the wall of a nanometre remains


def test_inside_travels_more_than_the_outside():
    assert geometry.inside_travel(0.3515, 0.003, 0.05) > geometry.travel(0.353, 0.05)


def test_travel_takes_arrays():
    moved = geometry.inside_travel(0.35, 0.002, np.array([0.0, 0.05]))
    assert moved.shape == (2,)
    assert moved[0] == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize(
    ("tabs", "relieved", "factor"),
    [
        (1, None, 0.0),
        (2, None, 1.32),
        (2, 2, 1.32),
        (2, 1, 2.2),
        (3, None, 1.1),
        (8, None, 1.1),
    ],
)
def test_arm_travel_by_number_of_tabs(tabs, relieved, factor):
    sized = geometry.arm_travel(0.01, tabs, relieved)
    assert sized == pytest.approx(0.01 * factor, abs=1e-15)


@pytest.mark.parametrize(("mismatch", "more"), [(0.05, 0.09), (0.10, 0.18)])
def test_two_unequal_arms_share_the_travel_unequally(mismatch, more):
    share = geometry.two_tab_share(mismatch, 0.28)
    assert share - 1.0 == pytest.approx(more, abs=0.005)  # two digits known
    assert share <= geometry.TWO_TAB_FACTOR


def test_far_side_of_a_plate_with_one_tab_opens_by_twice_the_travel():
    assert geometry.clearance_far_side(0.003, 0.0175) == pytest.approx(0.038)


def test_chilled_wall_takes_about_one_millimetre_of_the_gap():
    cold = geometry.clearance_chilled(0.0205, 0.3675, -contraction_304(77.0))
    assert 0.0205 - cold == pytest.approx(0.00103, abs=5e-6)  # printed to 0.01 mm

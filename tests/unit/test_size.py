"""Sizes of a tank as built, by hand."""

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import size
from stretchform.planning.tank import HeadShape

R = 0.320  # inside radius of the course
FLANGE = 0.025
EXACT = 1e-12  # only rounding: both sides are closed formulas
SHELL = np.pi * R**2 * 3.0
DISHES = {
    HeadShape.HEMISPHERE: (R, 2.0 / 3.0 * np.pi * R**3),
    HeadShape.ELLIPSOID: (R / 2.0, np.pi * R**3 / 3.0),
    HeadShape.TIED: (0.0, 0.0),
}


@pytest.mark.parametrize("shape", list(DISHES))
def test_each_kind_of_head_has_its_depth_and_volume(shape):
    depth, volume = DISHES[shape]
    found = size.dish(jobs.head(shape), R)
    flange = 0.0 if shape is HeadShape.TIED else FLANGE  # a tied end has none
    assert found.depth == pytest.approx(depth + flange, rel=EXACT)
    assert found.volume == pytest.approx(volume + np.pi * R**2 * flange, rel=EXACT)


def test_a_torisphere_takes_its_radii_from_the_job():
    crown, knuckle = 2.0 * R * 0.8, 2.0 * R * 0.154
    head = jobs.head(HeadShape.TORISPHERE, crown_radius=crown, knuckle_radius=knuckle)
    depth = crown - np.sqrt((crown - knuckle) ** 2 - (R - knuckle) ** 2)
    assert size.dish(head, R).depth == pytest.approx(depth + FLANGE, rel=EXACT)
    plain = size.dish(jobs.head(HeadShape.TORISPHERE), R)
    flat = 2.0 * R - np.sqrt((2.0 * R - 0.2 * R) ** 2 - (R - 0.2 * R) ** 2)
    assert plain.depth == pytest.approx(flat + FLANGE, rel=EXACT)  # crown 2 R, knuckle R/5


def test_volume_of_a_known_tank():
    ends = 2.0 * (np.pi * R**3 / 3.0 + np.pi * R**2 * FLANGE)
    assert size.volume(jobs.tank()) == pytest.approx(SHELL + ends, rel=EXACT)


def test_the_dishes_fit_the_courses_that_they_close():
    lower, upper = jobs.course(), jobs.course("upper", radius=0.4)
    bottom, top = size.dishes(jobs.tank([lower, upper]))
    assert (bottom.radius, top.radius) == pytest.approx((R, 0.399))


def test_top_of_a_known_tank_stands_above_the_lower_tangent_line():
    expected = FLANGE + 3.0 + FLANGE + R / 2.0
    assert size.top_height(jobs.tank()) == pytest.approx(expected, rel=EXACT)


def test_metal_of_a_known_tank():
    shell = 2.0 * np.pi * 0.321 * 0.002 * 3.0
    assert size.shell_metal(jobs.tank()) == pytest.approx(shell, rel=EXACT)
    half_sphere = jobs.head(HeadShape.HEMISPHERE)
    ends = 2.0 * (2.0 * np.pi * R**2 + 2.0 * np.pi * R * FLANGE) * 0.0025
    both = jobs.tank(bottom=half_sphere, top=half_sphere)
    assert size.head_metal(both) == pytest.approx(ends, rel=EXACT)


def test_ends_held_from_outside_bring_no_metal():
    tied = jobs.head(HeadShape.TIED)
    assert size.head_metal(jobs.tank(bottom=tied, top=tied)) == 0.0
    one = size.head_metal(jobs.tank(bottom=tied))
    assert one == pytest.approx(0.5 * size.head_metal(jobs.tank()), rel=EXACT)

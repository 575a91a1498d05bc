"""Meridians: sizes against closed forms, and geometry that makes no tank is refused."""

import numpy as np
import pytest

from stretchform.errors import InputError
from stretchform.shape import heads
from stretchform.shape.meridian import (
    Course,
    Form,
    Head,
    area_and_volume,
    depth,
    points,
    tank,
    upper_half,
)

RADIUS, WALL, LENGTH = 0.5, 3e-3, 1.2
SHELL = Course("shell", LENGTH, RADIUS, WALL)
TORISPHERE = Head(Form.TORISPHERE, WALL, 0.0, 1.0, 0.1)
DISHES = {
    Form.HEMISPHERE: (Head(Form.HEMISPHERE, WALL), heads.hemisphere(RADIUS)),
    Form.ELLIPSOID: (Head(Form.ELLIPSOID, WALL), heads.ellipsoid(RADIUS, RADIUS / 2.0)),
    Form.TORISPHERE: (TORISPHERE, heads.torisphere(RADIUS, 1.0, 0.1)),
}


@pytest.mark.parametrize("form", list(DISHES))
def test_area_and_volume_of_a_whole_tank_agree_with_the_closed_forms(form):
    head, dish = DISHES[form]
    area, volume = area_and_volume(tank(head, (SHELL,), head))
    cylinder = 2.0 * np.pi * RADIUS * LENGTH, np.pi * RADIUS**2 * LENGTH
    assert area == pytest.approx(cylinder[0] + 2.0 * dish.area, rel=1e-9)  # Gauss rule
    assert volume == pytest.approx(cylinder[1] + 2.0 * dish.volume, rel=1e-9)


@pytest.mark.parametrize("form", list(DISHES))
def test_depth_of_a_dish_is_where_its_pole_lies(form):
    head, dish = DISHES[form]
    meridian = tank(head, (SHELL,), head)
    last = meridian.pieces[-1]
    radius, height, angle = points(last, last.length)
    assert depth(head, RADIUS) == pytest.approx(dish.depth, rel=1e-12)  # rounding
    assert height - LENGTH == pytest.approx(dish.depth, rel=1e-9)  # arc length by Newton
    assert (radius, angle) == pytest.approx((0.0, np.pi), abs=1e-9)


def test_a_flange_lengthens_the_tank_and_keeps_the_head_wall():
    head = Head(Form.ELLIPSOID, 4e-3, 0.03)
    meridian = tank(head, (SHELL,), head)
    assert meridian.tangent_heights == pytest.approx((0.0, LENGTH + 0.06))
    walls = [piece.wall for piece in meridian.pieces]
    assert walls == [4e-3, 4e-3, 3e-3, 4e-3, 4e-3]


def test_the_upper_half_starts_at_the_mid_plane():
    head = DISHES[Form.ELLIPSOID][0]
    courses = (Course("a", 0.4, RADIUS, WALL), SHELL, Course("b", 0.4, RADIUS, WALL))
    whole = tank(head, courses, head)
    half = upper_half(whole)
    assert half.pieces[0].start[1] == pytest.approx(1.0)
    assert area_and_volume(half)[0] == pytest.approx(area_and_volume(whole)[0] / 2.0)


def test_an_unsymmetric_tank_has_no_half():
    with pytest.raises(InputError, match="symmetric"):
        upper_half(tank(TORISPHERE, (SHELL,), DISHES[Form.ELLIPSOID][0]))


BAD = {
    "negative crown": (Head(Form.TORISPHERE, WALL, 0.0, -1.0, 0.1), SHELL, "positive"),
    "knuckle larger than crown": (
        Head(Form.TORISPHERE, WALL, 0.0, 0.6, 0.7),
        SHELL,
        "larger than the crown",
    ),
    "crown below the tank radius": (
        Head(Form.TORISPHERE, WALL, 0.0, 0.4, 0.1),
        SHELL,
        "rise in this order",
    ),
    "no crown": (Head(Form.TORISPHERE, WALL), SHELL, "needs a crown"),
    "flange longer than the course": (
        Head(Form.ELLIPSOID, WALL, 1.3),
        SHELL,
        "longer than the",
    ),
    "negative flange": (Head(Form.ELLIPSOID, WALL, -0.01), SHELL, "negative"),
    "missing head wall": (Head(Form.ELLIPSOID, float("nan")), SHELL, "missing"),
    "no head wall": (Head(Form.ELLIPSOID, 0.0), SHELL, "missing or not positive"),
    "a one millimetre tank": (
        Head(Form.ELLIPSOID, 1e-5),
        Course("shell", 1e-3, 0.5e-3, 1e-5),
        "no tank",
    ),
    "negative length": (
        Head(Form.ELLIPSOID, WALL),
        Course("shell", -1.0, 0.5, WALL),
        "length is not a positive",
    ),
    "wall in the place of the radius": (
        Head(Form.ELLIPSOID, WALL),
        Course("shell", 1.0, 0.01, 0.5),
        "not a thin wall",
    ),
}


@pytest.mark.parametrize("name", list(BAD))
def test_bad_geometry_is_refused_with_place_and_cure(name):
    head, course, words = BAD[name]
    with pytest.raises(InputError, match=words) as caught:
        tank(head, (course,), head)
    assert caught.value.where in ("head.bottom", 'course "shell"')
    assert caught.value.fix


def test_courses_of_inside_and_outside_diameter_mixed_are_refused():
    courses = (SHELL, Course("upper", 1.0, 0.54, WALL))
    head = Head(Form.ELLIPSOID, WALL)
    with pytest.raises(InputError, match="mixed"):
        tank(head, courses, head)


def test_a_tank_without_courses_is_refused():
    with pytest.raises(InputError, match="no course"):
        tank(TORISPHERE, (), TORISPHERE)

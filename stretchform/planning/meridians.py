"""The tank's meridian for the whole-tank solver: mid-wall radii, heads on their flanges."""

from stretchform.planning.tank import Head, HeadShape, Tank
from stretchform.shape import meridian
from stretchform.shape.meridian import Form, Meridian
from stretchform.si import Metre

_FORMS = {
    HeadShape.HEMISPHERE: Form.HEMISPHERE,
    HeadShape.ELLIPSOID: Form.ELLIPSOID,
    HeadShape.TORISPHERE: Form.TORISPHERE,
    HeadShape.TIED: Form.TIED,
}


def meridian_of(tank: Tank) -> Meridian:
    """Meridian of the tank before forming; a torisphere's inside radii become mid-wall.

    Source: own-derivation, half a wall more than inside.
    Checked: tests/unit/test_meridians.py (length, volume).
    Raises InputError for sizes that make no tank.
    """
    courses = tuple(
        meridian.Course(item.name, item.length, item.radius, item.wall) for item in tank.courses
    )
    lower = _head(tank.bottom, tank.courses[0].radius)
    return meridian.tank(lower, courses, _head(tank.top, tank.courses[-1].radius))


def _head(head: Head, radius: Metre) -> meridian.Head:
    crown = knuckle = None
    if head.shape is HeadShape.TORISPHERE:
        half = 0.5 * head.wall
        crown = (2.0 * radius if head.crown_radius is None else head.crown_radius) + half
        knuckle = (0.2 * radius if head.knuckle_radius is None else head.knuckle_radius) + half
    return meridian.Head(_FORMS[head.shape], head.wall, head.straight_flange, crown, knuckle)

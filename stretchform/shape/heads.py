"""Area, volume, depth and centres of tank heads: hemisphere, ellipsoid, torisphere, flat.

All describe one surface of revolution: give inside sizes for the water, mid-wall sizes for
the metal. Heights count outward from the open edge, where the head is welded to the shell;
without a straight flange the open edge is the tangent line. Arrays broadcast.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError
from stretchform.si import CubicMetre, Metre, Ratio, SquareMetre

SOURCES = ("own-derivation", "din-28011", "din-28013")


@dataclass(frozen=True, slots=True)
class Dish:
    """One head: sizes of a surface and the heights of its centres above the open edge."""

    radius: Metre
    depth: Metre
    volume: CubicMetre  # enclosed between the surface and the open edge
    area: SquareMetre
    volume_centre: Metre
    area_centre: Metre  # centre of gravity of a uniform thin head


def hemisphere(radius: Metre) -> Dish:
    """Half a sphere.

        V = 2 pi R^3 / 3, A = 2 pi R^2, centres at 3 R / 8 and R / 2

    Source: own-derivation, textbook integrals of a sphere.
    Checked: tests/verification/test_head_fluids.py (figures, and the package fluids).
    Raises InputError for a size that is not positive.
    """
    return ellipsoid(radius, radius)


def ellipsoid(radius: Metre, depth: Metre) -> Dish:
    """Half an ellipsoid of revolution; depth = radius / 2 is the 2:1 head.

        V = 2 pi R^2 a / 3, A = pi R^2 [1 + (1 - e^2) atanh(e) / e], e^2 = 1 - (a/R)^2
        centre of volume 3 a / 8, of area (2/3) pi R a (R^2 + R a + a^2) / ((R + a) A)

    Source: own-derivation, surface and first-moment integrals of the half ellipse.
    Checked: tests/verification/test_head_fluids.py, tests/unit/shape/test_head_shapes.py.
    Raises InputError for a size that is not positive or a depth above the radius.
    """
    _need_positive("head radius", radius)
    _need_positive("head depth", depth)
    if np.any(np.greater(depth, radius)):
        raise InputError(
            "head",
            "an ellipsoid deeper than its radius is not a tank head",
            'shape = "hemisphere"',
        )
    squared = 1.0 - np.divide(depth, radius) ** 2
    area = np.pi * np.square(radius) * (1.0 + (1.0 - squared) * _atanh_over(squared))
    moment = radius * depth * (np.square(radius) + radius * depth + np.square(depth))
    moment = 2.0 / 3.0 * np.pi * moment / np.add(radius, depth)
    volume = 2.0 / 3.0 * np.pi * np.square(radius) * depth
    return Dish(radius, depth, volume, area, np.multiply(depth, 0.375), moment / area)


def torisphere(radius: Metre, crown_radius: Metre, knuckle_radius: Metre) -> Dish:
    """A spherical crown with a toroidal knuckle; all three radii of the same surface.

        c = R - r, s = sin(alpha) = c / (L - r), depth = L - sqrt((L - r)^2 - c^2)
        cap and knuckle integrated in closed form

    L is the crown radius, r the knuckle radius. For the mid-wall surface add half the wall
    to all three inside radii: a parallel surface of a torisphere is a torisphere.

    Source: own-derivation, first integrals over cap and knuckle.
    Checked: tests/verification/test_head_fluids.py, tests/unit/shape/test_head_shapes.py.
    Raises InputError when knuckle, radius and crown are not in rising order.
    """
    _need_torisphere(radius, crown_radius, knuckle_radius)
    reach = np.subtract(crown_radius, knuckle_radius)
    ring = np.subtract(radius, knuckle_radius)
    fall = np.sqrt(np.square(reach) - np.square(ring))  # crown centre below the tangent line
    sine = np.divide(ring, reach, out=np.ones_like(reach), where=np.greater(reach, 0.0))
    cosine = np.sqrt(1.0 - np.square(sine))
    knuckle = _knuckle(ring, knuckle_radius, sine, cosine)
    cap = _cap(crown_radius, fall, cosine)
    volume, area, volume_moment, area_moment = (
        a + b for a, b in zip(knuckle, cap, strict=True)
    )
    depth = np.subtract(crown_radius, fall)
    return Dish(radius, depth, volume, area, volume_moment / volume, area_moment / area)


def torisphere_by_outside(
    outside_diameter: Metre, wall: Metre, crown: Ratio, knuckle: Ratio
) -> Dish:
    """Inside surface of a torisphere sized by shares of its OUTSIDE diameter.

        L = crown * Da, r = knuckle * Da (both inside), R = Da / 2 - wall

    Source: din-28011, definition (crown 1, knuckle 0.1; from memory, not read); din-28013
    likewise for 0.8 and 0.154.
    Checked: tests/published/from_memory/test_head_din_depth.py (depth rules).
    Raises InputError when the wall leaves no head.
    """
    radius = np.subtract(np.multiply(outside_diameter, 0.5), wall)
    return torisphere(
        radius, np.multiply(crown, outside_diameter), np.multiply(knuckle, outside_diameter)
    )


def torisphere_by_inside(inside_diameter: Metre, crown: Ratio, knuckle: Ratio) -> Dish:
    """Inside surface of a torisphere sized by shares of its INSIDE diameter.

        L = crown * Di, r = knuckle * Di, R = Di / 2

    Source: own-derivation, section above.
    Checked: tests/verification/test_head_fluids.py (reference tank).
    Raises InputError when knuckle, radius and crown are not in rising order.
    """
    return torisphere(
        np.multiply(inside_diameter, 0.5),
        np.multiply(crown, inside_diameter),
        np.multiply(knuckle, inside_diameter),
    )


def flat(radius: Metre) -> Dish:
    """A flat end.

        V = 0, A = pi R^2, depth 0

    Source: own-derivation, area of a circle.
    Checked: tests/unit/shape/test_head_shapes.py.
    Raises InputError for a radius that is not positive.
    """
    _need_positive("head radius", radius)
    nothing = np.multiply(radius, 0.0)
    return Dish(radius, nothing, nothing, np.pi * np.square(radius), nothing, nothing)


def with_flange(dish: Dish, length: Metre) -> Dish:
    """The same head on a straight flange; heights then count from the end of the flange.

        V + pi R^2 f, A + 2 pi R f, depth + f, centres by moments

    Source: own-derivation, sum of a cylinder and the dish.
    Checked: tests/unit/shape/test_head_shapes.py (flat end becomes a cylinder).
    Raises InputError for a negative length.
    """
    if np.any(np.less(length, 0.0)):
        raise InputError(
            "straight flange", "its length is negative", 'straight_flange = "25 mm"'
        )
    ring_volume = np.pi * np.square(dish.radius) * length
    ring_area = 2.0 * np.pi * dish.radius * length
    volume, area = dish.volume + ring_volume, dish.area + ring_area
    volume_moment = dish.volume * (dish.volume_centre + length) + ring_volume * length / 2.0
    area_moment = dish.area * (dish.area_centre + length) + ring_area * length / 2.0
    centre = np.divide(volume_moment, volume, out=np.zeros_like(volume), where=volume > 0.0)
    return Dish(dish.radius, dish.depth + length, volume, area, centre, area_moment / area)


_Parts = tuple[CubicMetre, SquareMetre, Metre, Metre]  # volume, area and their first moments


def _knuckle(ring: Metre, r: Metre, sine: Ratio, cosine: Ratio) -> _Parts:
    angle = np.arccos(sine)  # from the crown joint down to the tangent line
    square = (angle + sine * cosine) / 2.0  # integral of sin^2
    cube = cosine - cosine**3 / 3.0  # integral of sin^3
    volume = np.pi * r * (ring**2 * cosine + 2.0 * ring * r * square + r**2 * cube)
    area = 2.0 * np.pi * r * (ring * angle + r * cosine)
    parts = ring**2 * (1.0 - sine**2) / 2.0 + 2.0 * ring * r * (1.0 - sine**3) / 3.0
    volume_moment = np.pi * r**2 * (parts + r**2 * (1.0 - sine**4) / 4.0)
    area_moment = 2.0 * np.pi * r**2 * (ring * (1.0 - sine) + r * (1.0 - sine**2) / 2.0)
    return volume, area, volume_moment, area_moment


def _cap(crown: Metre, fall: Metre, cosine: Ratio) -> _Parts:
    height = crown * (1.0 - cosine)
    start = crown * cosine  # height of the joint above the crown's centre
    volume = np.pi * height**2 * (crown - height / 3.0)
    area = 2.0 * np.pi * crown * height
    about_centre = np.pi / 4.0 * (crown**2 - start**2) ** 2
    area_moment = area * ((start + crown) / 2.0 - fall)
    return volume, area, about_centre - fall * volume, area_moment


def _atanh_over(squared: Ratio) -> Ratio:
    """atanh(e) / e from e squared; 1 at e = 0."""
    e = np.sqrt(squared)
    safe = np.where(e > 1e-4, e, 0.5)
    return np.where(e > 1e-4, np.arctanh(safe) / safe, 1.0 + squared / 3.0)[()]


def _need_positive(name: str, value: Metre) -> None:
    if not np.all(np.greater(value, 0.0)):
        raise InputError(name, "it must be a positive length", 'inside_diameter = "640 mm"')


def _need_torisphere(radius: Metre, crown: Metre, knuckle: Metre) -> None:
    _need_positive("knuckle radius", knuckle)
    rising = np.less_equal(knuckle, radius) & np.less_equal(radius, crown)
    if not np.all(rising):
        raise InputError(
            "head",
            "a torisphere needs knuckle radius <= tank radius <= crown radius",
            'crown_radius = "640 mm", knuckle_radius = "64 mm" for a 640 mm tank',
        )

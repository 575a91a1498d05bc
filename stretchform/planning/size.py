"""Sizes of the tank as built: heights, volume of water, metal, and the heads' dishes."""

import numpy as np

from stretchform.planning.tank import Head, HeadShape, Tank
from stretchform.shape import heads
from stretchform.shape.heads import Dish
from stretchform.si import CubicMetre, Metre


def dish(head: Head, radius: Metre) -> Dish:
    """The head's inner dish on a shell of an inside radius, its straight flange included.

    Source: own-derivation, shape.heads for each kind.
    Checked: tests/unit/test_size.py (each kind).
    """
    if head.shape is HeadShape.HEMISPHERE:
        plain = heads.hemisphere(radius)
    elif head.shape is HeadShape.ELLIPSOID:
        plain = heads.ellipsoid(radius, 0.5 * radius)
    elif head.shape is HeadShape.TORISPHERE:
        crown = 2.0 * radius if head.crown_radius is None else head.crown_radius
        knuckle = 0.2 * radius if head.knuckle_radius is None else head.knuckle_radius
        plain = heads.torisphere(radius, crown, knuckle)
    else:
        plain = heads.flat(radius)
    return heads.with_flange(plain, head.flange)


def dishes(tank: Tank) -> tuple[Dish, Dish]:
    """Bottom and top dish on the inside radius of the course that each one closes.

    Source: own-derivation, inside radius = mid-wall radius less half a wall.
    Checked: tests/unit/test_size.py (volume of a known tank).
    """
    first, last = tank.courses[0], tank.courses[-1]
    bottom = dish(tank.bottom, first.radius - 0.5 * first.wall)
    return bottom, dish(tank.top, last.radius - 0.5 * last.wall)


def top_height(tank: Tank) -> Metre:
    """Highest inside point above the lower tangent line, the tank standing or hanging.

    Source: own-derivation, shell and top dish.
    Checked: tests/unit/test_size.py (volume of a known tank).
    """
    return tank.edges[-1] + dishes(tank)[1].depth


def volume(tank: Tank) -> CubicMetre:
    """Inside volume before forming: shell and both dishes.

    Source: own-derivation, cylinders and dishes.
    Checked: tests/unit/test_size.py (volume of a known tank).
    """
    shell = sum(
        np.pi * (course.radius - 0.5 * course.wall) ** 2 * course.length
        for course in tank.courses
    )
    return shell + sum(part.volume for part in dishes(tank))


def shell_metal(tank: Tank) -> CubicMetre:
    """Metal of the shell, without heads and internals; forming keeps it.

        2 pi r t L, mid-wall radius

    Source: own-derivation, exact for a cylinder.
    Checked: tests/unit/test_size.py (metal of a known tank).
    """
    return sum(2.0 * np.pi * item.radius * item.wall * item.length for item in tank.courses)


def head_metal(tank: Tank) -> CubicMetre:
    """Metal of both heads with their straight flanges; none for ends held from outside.

        A t, inside area (low by about t/(2R))

    Source: own-derivation, thin heads.
    Checked: tests/unit/test_size.py (metal of a known tank).
    """
    pairs = zip((tank.bottom, tank.top), dishes(tank), strict=True)
    return sum(part.area * end.wall for end, part in pairs if end.shape is not HeadShape.TIED)

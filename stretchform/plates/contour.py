"""Closed contours of lines and arcs, as numbers.

A vertex carries the bulge of the piece that leads to the next one: the tangent of a quarter of
the arc's angle, positive where the arc turns left, 0 for a line. Lengths in metres.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan, atan2, cos, hypot, sin, tan

import numpy as np

from stretchform.si import Array, Metre, Radian, Ratio, SquareMetre

SOURCES = ("own-derivation",)


@dataclass(frozen=True, slots=True)
class Vertex:
    """A corner, and the bulge of the piece that starts there."""

    x: float
    y: float
    bulge: float = 0.0


@dataclass(frozen=True, slots=True)
class Contour:
    """A closed contour; an outline turns left, an opening turns right."""

    vertices: tuple[Vertex, ...]
    opening: bool = False


def pieces(contour: Contour) -> Iterator[tuple[Vertex, Vertex]]:
    """Both ends of every piece, the last one back to the start.

    Source: own-derivation, a closed contour.
    Checked: tests/unit/plates/test_plates_contour.py (as many pieces as vertices).
    Raises nothing.
    """
    return zip(contour.vertices, (*contour.vertices[1:], contour.vertices[0]), strict=True)


def signed_area(contour: Contour) -> SquareMetre:
    """Area inside, positive where the contour turns left.

        sum over pieces of chord part (x1 y2 - x2 y1)/2 and arc part r^2 (angle - sin angle)/2

    Source: own-derivation, Green's theorem for lines and arcs.
    Checked: tests/unit/plates/test_plates_contour.py (circle, half circle, against shapely).
    Raises nothing.
    """
    total = 0.0
    for start, end in pieces(contour):
        total += (start.x * end.y - end.x * start.y) / 2.0
        if start.bulge:
            angle = 4.0 * atan(start.bulge)
            radius = hypot(end.x - start.x, end.y - start.y) / (2.0 * sin(angle / 2.0))
            total += radius**2 * (angle - sin(angle)) / 2.0
    return total


def length(contour: Contour) -> Metre:
    """Length of the cut along a contour.

        line: distance; arc: distance * (angle/2) / sin(angle/2)

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_contour.py (circle, against shapely).
    Raises nothing.
    """
    total = 0.0
    for start, end in pieces(contour):
        chord = hypot(end.x - start.x, end.y - start.y)
        half = 2.0 * atan(abs(start.bulge))
        total += chord * half / sin(half) if half > 1e-12 else chord
    return total


def points(contour: Contour, sag: Metre = 1e-5) -> Array:
    """Corners of a polygon that leaves the contour by no more than a sag.

    Source: own-derivation, chords of an arc: sag = r (1 - cos(step/2)).
    Checked: tests/unit/plates/test_plates_contour.py (sag kept).
    Raises nothing.
    """
    found: list[tuple[float, float]] = []
    for start, end in pieces(contour):
        found.append((start.x, start.y))
        if start.bulge:
            found += _on_arc(start, end, float(sag))
    return np.array(found)


def _on_arc(start: Vertex, end: Vertex, sag: float) -> list[tuple[float, float]]:
    """Points between the ends of an arc."""
    angle = 4.0 * atan(start.bulge)
    radius, cx, cy = _circle_of(start, end, angle)
    step = 2.0 * np.arccos(max(1.0 - sag / abs(radius), -1.0))
    count = max(int(np.ceil(abs(angle) / step)), 2)
    first = atan2(start.y - cy, start.x - cx)
    turns = first + angle * np.arange(1, count) / count
    size = abs(radius)
    return [(cx + size * cos(turn), cy + size * sin(turn)) for turn in turns.tolist()]


def _circle_of(start: Vertex, end: Vertex, angle: float) -> tuple[float, float, float]:
    """Signed radius and centre of an arc."""
    dx, dy = end.x - start.x, end.y - start.y
    chord = hypot(dx, dy)
    radius = chord / (2.0 * sin(angle / 2.0))
    height = radius * cos(angle / 2.0)
    middle_x, middle_y = (start.x + end.x) / 2.0, (start.y + end.y) / 2.0
    return radius, middle_x - height * dy / chord, middle_y + height * dx / chord


def bulge(angle: Radian) -> Ratio:
    """Bulge of an arc that turns left by an angle.

        tan(angle / 4)

    Source: own-derivation, definition of the bulge.
    Checked: tests/unit/plates/test_plates_contour.py (half circle is 1).
    Raises nothing.
    """
    return tan(float(angle) / 4.0)


def circle(x: Metre, y: Metre, radius: Metre, opening: bool = True) -> Contour:
    """A full circle as two half circles; an opening turns right.

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_contour.py (area and length).
    Raises nothing.
    """
    sign = -1.0 if opening else 1.0
    left = Vertex(float(x) - float(radius), float(y), sign)
    right = Vertex(float(x) + float(radius), float(y), sign)
    return Contour((left, right), opening)


def reversed_contour(contour: Contour) -> Contour:
    """The same contour the other way round.

    Source: own-derivation, bulges change place and sign.
    Checked: tests/unit/plates/test_plates_contour.py (area changes sign, length stays).
    Raises nothing.
    """
    turned = contour.vertices[::-1]
    shifted = (*turned[1:], turned[0])
    return Contour(
        tuple(
            Vertex(here.x, here.y, -after.bulge)
            for here, after in zip(turned, shifted, strict=True)
        ),
        contour.opening,
    )


def oriented(contour: Contour) -> Contour:
    """The contour the way it belongs: an outline turns left, an opening right.

    Source: own-derivation, sign of the area.
    Checked: tests/unit/plates/test_plates_contour.py (both).
    Raises nothing.
    """
    wanted = -1.0 if contour.opening else 1.0
    return contour if signed_area(contour) * wanted > 0.0 else reversed_contour(contour)


def mirrored(contour: Contour) -> Contour:
    """The contour seen from the other side: x changes sign, its turn is kept.

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_contour.py (area kept).
    Raises nothing.
    """
    flipped = tuple(Vertex(-v.x, v.y, -v.bulge) for v in contour.vertices)
    return reversed_contour(Contour(flipped, contour.opening))


def turned(contour: Contour, angle: Radian) -> Contour:
    """The contour turned about the origin, clockwise positive.

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_contour.py (quarter turn).
    Raises nothing.
    """
    c, s = cos(float(angle)), sin(float(angle))
    return Contour(
        tuple(Vertex(c * v.x + s * v.y, c * v.y - s * v.x, v.bulge) for v in contour.vertices),
        contour.opening,
    )

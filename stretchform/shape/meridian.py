"""Meridians of tanks: courses, dished heads with straight flanges, tied flat ends.

All sizes are of the mid-wall surface and of the tank before forming. Heights count upwards
from the lower tangent line, where the lower dish ends (its straight flange lies above that
line). The mid-wall line of a 2:1 ellipsoid is taken as the ellipse itself. Walls that meet
are taken with their mid-lines in one line.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from stretchform.errors import InputError
from stretchform.si import Array, CubicMetre, Metre, Radian, SquareMetre

SOURCES = ("own-derivation",)
_SMALLEST_RADIUS = 5e-3  # m: below this a size was surely typed in the wrong unit
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(8)


class Form(StrEnum):
    HEMISPHERE = "hemisphere"
    ELLIPSOID = "ellipsoid 2:1"
    TORISPHERE = "torisphere"
    TIED = "tied"  # flat end held from outside: no end force in the wall


@dataclass(frozen=True, slots=True)
class Course:
    """A cylinder of one wall; a weld band is a short course."""

    name: str
    length: Metre
    radius: Metre
    wall: Metre


@dataclass(frozen=True, slots=True)
class Head:
    """A dished head on its straight flange, or a tied flat end (wall and flange unused)."""

    form: Form
    wall: Metre
    flange: Metre = 0.0
    crown_radius: Metre | None = None  # torisphere only, mid-wall
    knuckle_radius: Metre | None = None  # torisphere only, mid-wall
    slides: bool = False  # tied end only: the rim is free to grow (a sliding seal)


@dataclass(frozen=True, slots=True)
class Piece:
    """A smooth stretch of meridian walked upwards: a line, a circle or an ellipse."""

    part: int  # 0 lower head, 1.. courses, last upper head
    length: Metre
    wall: Metre
    start: tuple[float, float, float]  # radius, height and angle of the tangent there
    bend: float = 0.0  # curvature of a circle, 1/m
    ellipse: tuple[float, float] | None = None  # half axes, walked from rim to pole
    mirrored: bool = False  # walked from the pole down to the rim of a lower head


@dataclass(frozen=True, slots=True)
class Meridian:
    """Pieces from the lower pole (or end) to the upper one."""

    pieces: tuple[Piece, ...]
    courses: tuple[Course, ...]
    lower: Head
    upper: Head
    radius: Metre  # of the widest course
    tangent_heights: tuple[float, float]

    @property
    def parts(self) -> int:
        return len(self.courses) + 2


def tank(lower: Head, courses: tuple[Course, ...], upper: Head) -> Meridian:
    """Meridian of a whole tank from its heads and courses, bottom to top.

        height 0 = lower tangent line; flange, courses, flange, upper tangent line

    Source: own-derivation, geometry of lines, circles and the 2:1 ellipse.
    Checked: tests/unit/shape/test_shell_meridian.py (closed-form areas and volumes).
    Raises InputError for sizes that make no tank.
    """
    _check(lower, courses, upper)
    pieces: list[Piece] = []
    last = len(courses) + 1
    bottom_radius, top_radius = float(courses[0].radius), float(courses[-1].radius)
    pieces += [_mirror(piece) for piece in reversed(_dish(lower, bottom_radius, 0.0, 0))]
    height = 0.0
    for part, length, radius, wall in _straight_parts(lower, courses, upper, last):
        start = (radius, height, np.pi / 2.0)
        pieces.append(Piece(part, length, wall, start))
        height += length
    pieces += _dish(upper, top_radius, height, last)
    widest = max(float(course.radius) for course in courses)
    return Meridian(tuple(pieces), courses, lower, upper, widest, (0.0, height))


def upper_half(meridian: Meridian) -> Meridian:
    """The upper half of a symmetric tank, cut at its mid plane.

    Source: own-derivation, symmetry.
    Checked: tests/unit/shape/test_shell_meridian.py.
    Raises InputError when the tank is not symmetric.
    """
    courses = meridian.courses
    same = meridian.lower == meridian.upper and all(
        (a.length, a.radius, a.wall) == (b.length, b.radius, b.wall)
        for a, b in zip(courses, reversed(courses), strict=True)
    )
    if not same:
        raise InputError("tank", "only a symmetric tank can be halved", "plan the whole tank")
    middle = 0.5 * (meridian.tangent_heights[0] + meridian.tangent_heights[1])
    kept = []
    for piece in meridian.pieces[len(meridian.pieces) // 2 - 1 :]:
        low = piece.start[1]
        if piece.bend == 0.0 and piece.ellipse is None:
            top = low + float(piece.length)
            if top <= middle * (1.0 + 1e-12):
                continue
            low = max(low, middle)
            piece = _replaced(piece, low, top - low)
        if low >= middle:
            kept.append(piece)
    return Meridian(
        tuple(kept),
        courses,
        meridian.lower,
        meridian.upper,
        meridian.radius,
        meridian.tangent_heights,
    )


def points(piece: Piece, along: Metre) -> tuple[Metre, Metre, Radian]:
    """Radius, height and tangent angle of points at arc lengths along a piece.

        line, circle: exact; ellipse: arc length inverted on a fine table

    The angle runs from 0 at the lower pole over pi/2 in the cylinder to pi at the top.

    Source: own-derivation, geometry of the pieces.
    Checked: tests/unit/shape/test_shell_meridian.py.
    """
    along = np.asarray(along, dtype=np.float64)
    if piece.mirrored:
        radius, height, angle = points(_unmirrored(piece), piece.length - along)
        return radius, -np.asarray(height), np.pi - np.asarray(angle)
    radius0, height0, angle0 = piece.start
    if piece.ellipse is not None:
        return _ellipse_points(piece.ellipse, height0, along)
    if piece.bend == 0.0:
        return (
            radius0 + np.cos(angle0) * along,
            height0 + np.sin(angle0) * along,
            np.full_like(along, angle0),
        )
    angle = angle0 + piece.bend * along
    radius = radius0 + (np.sin(angle) - np.sin(angle0)) / piece.bend
    height = height0 - (np.cos(angle) - np.cos(angle0)) / piece.bend
    return radius, height, angle


def area_and_volume(meridian: Meridian) -> tuple[SquareMetre, CubicMetre]:
    """Mid-wall area of the curved wall and volume enclosed by the mid-wall surface.

        A = 2 pi int r ds, V = pi int r^2 dz; eight Gauss points on 64 stretches a piece

    Source: own-derivation, surface and volume of revolution.
    Checked: tests/unit/shape/test_shell_meridian.py (sphere, ellipsoid, torisphere).
    """
    area = volume = 0.0
    for piece in meridian.pieces:
        edges = np.linspace(0.0, float(piece.length), 65)
        half = np.diff(edges)[:, None] / 2.0
        along = edges[:-1, None] + half * (1.0 + _NODES)
        radius, _, angle = (np.asarray(value) for value in points(piece, along))
        area += float(2.0 * np.pi * np.sum(half * _WEIGHTS * radius))
        volume += float(np.pi * np.sum(half * _WEIGHTS * radius**2 * np.sin(angle)))
    return area, volume


def depth(head: Head, radius: Metre) -> Metre:
    """Depth of a dish from its tangent line to the pole, mid-wall.

        hemisphere a, ellipsoid a/2, torisphere L - sqrt((L - r)^2 - (a - r)^2), tied 0

    Source: own-derivation, geometry.
    Checked: tests/unit/shape/test_shell_meridian.py.
    """
    if head.form == Form.TORISPHERE:
        crown, knuckle = np.asarray(head.crown_radius), np.asarray(head.knuckle_radius)
        fall = np.sqrt((crown - knuckle) ** 2 - (radius - knuckle) ** 2)
        return np.asarray(crown - fall, dtype=np.float64)
    share = {Form.HEMISPHERE: 1.0, Form.ELLIPSOID: 0.5, Form.TIED: 0.0}[head.form]
    return share * np.asarray(radius)


def _straight_parts(
    lower: Head, courses: tuple[Course, ...], upper: Head, last: int
) -> list[tuple[int, float, float, float]]:
    parts: list[tuple[int, float, float, float]] = []
    if lower.form != Form.TIED and lower.flange > 0.0:
        parts.append((0, float(lower.flange), float(courses[0].radius), float(lower.wall)))
    parts += [
        (number, float(course.length), float(course.radius), float(course.wall))
        for number, course in enumerate(courses, start=1)
    ]
    if upper.form != Form.TIED and upper.flange > 0.0:
        parts.append((last, float(upper.flange), float(courses[-1].radius), float(upper.wall)))
    return parts


def _dish(head: Head, radius: float, height: float, part: int) -> list[Piece]:
    """Pieces of an upper dish from the tangent line to the pole."""
    start, wall = (radius, height, np.pi / 2.0), float(head.wall)
    if head.form == Form.TIED:
        return []
    if head.form == Form.HEMISPHERE:
        return [Piece(part, radius * np.pi / 2.0, wall, start, bend=1.0 / radius)]
    if head.form == Form.ELLIPSOID:
        axes = (radius, radius / 2.0)
        length = float(_ellipse_table(axes)[1][-1])
        return [Piece(part, length, wall, start, ellipse=axes)]
    assert head.crown_radius is not None and head.knuckle_radius is not None
    crown, knuckle = float(head.crown_radius), float(head.knuckle_radius)
    turn = np.arccos((radius - knuckle) / (crown - knuckle)) if crown > knuckle else 0.0
    first = Piece(part, knuckle * turn, wall, start, bend=1.0 / knuckle)
    end = tuple(float(value) for value in points(first, first.length))
    cap = Piece(
        part, crown * (np.pi / 2.0 - turn), wall, (end[0], end[1], end[2]), bend=1.0 / crown
    )
    return [first, cap]


def _mirror(piece: Piece) -> Piece:
    return Piece(
        piece.part, piece.length, piece.wall, piece.start, piece.bend, piece.ellipse, True
    )


def _unmirrored(piece: Piece) -> Piece:
    return Piece(
        piece.part, piece.length, piece.wall, piece.start, piece.bend, piece.ellipse, False
    )


def _replaced(piece: Piece, height: float, length: float) -> Piece:
    return Piece(
        piece.part, length, piece.wall, (piece.start[0], height, piece.start[2]), piece.bend
    )


def _ellipse_table(axes: tuple[float, float]) -> tuple[Array, Array]:
    """Parameter of the ellipse and arc length from the rim, on a fine table."""
    parameter = np.linspace(0.0, np.pi / 2.0, 257)
    half = np.diff(parameter)[:, None] / 2.0
    inner = parameter[:-1, None] + half * (1.0 + _NODES)
    speed = np.hypot(axes[0] * np.sin(inner), axes[1] * np.cos(inner))
    steps = np.sum(half * _WEIGHTS * speed, axis=1)
    return parameter, np.concatenate(([0.0], np.cumsum(steps)))


def _ellipse_points(
    axes: tuple[float, float], height: float, along: Array
) -> tuple[Metre, Metre, Radian]:
    wide, deep = axes
    parameter, lengths = _ellipse_table(axes)
    cell = np.clip(np.searchsorted(lengths, along, side="right") - 1, 0, 255)
    start, rest = parameter[cell], along - lengths[cell]
    speed = np.hypot(wide * np.sin(start), deep * np.cos(start))
    at = start + rest / speed
    for _ in range(3):  # Newton: arc length from the table node by three-point Gauss
        at = at - (_arc(axes, start, at) - rest) / np.hypot(
            wide * np.sin(at), deep * np.cos(at)
        )
    angle = np.arctan2(deep * np.cos(at), -wide * np.sin(at))
    return wide * np.cos(at), height + deep * np.sin(at), angle


def _arc(axes: tuple[float, float], start: Array, end: Array) -> Array:
    half = (end - start)[..., None] / 2.0
    inner = start[..., None] + half * (1.0 + _NODES)
    speed = np.hypot(axes[0] * np.sin(inner), axes[1] * np.cos(inner))
    return np.asarray(np.sum(half * _WEIGHTS * speed, axis=-1), dtype=np.float64)


def _check(lower: Head, courses: tuple[Course, ...], upper: Head) -> None:
    if not courses:
        raise InputError("tank", "it has no course", '[[course]] length = "900 mm"')
    for course in courses:
        _check_course(course)
    for name, head, course in (
        ("head.bottom", lower, courses[0]),
        ("head.top", upper, courses[-1]),
    ):
        if head.form != Form.TIED:
            _check_head(name, head, course)
    radii = [float(course.radius) for course in courses]
    if max(radii) > 1.05 * min(radii):
        raise InputError(
            "tank",
            f"courses of {min(radii) * 2e3:.1f} and {max(radii) * 2e3:.1f} mm mid-wall "
            "diameter cannot be welded together; inside and outside diameters mixed?",
            "give every course its own diameter of the same kind, within 5 %",
        )


def _check_course(course: Course) -> None:
    where = f'course "{course.name}"'
    for word, value in (
        ("length", course.length),
        ("radius", course.radius),
        ("wall", course.wall),
    ):
        if not np.all(np.isfinite(value)) or not np.all(np.greater(value, 0.0)):
            raise InputError(where, f"its {word} is not a positive length", f'{word} = "2 mm"')
    if course.radius < _SMALLEST_RADIUS:
        raise InputError(
            where,
            f"a mid-wall diameter of {float(course.radius) * 2e3:.3g} mm is no tank",
            'inside_diameter = "640 mm"',
        )
    if course.wall > 0.2 * course.radius:
        raise InputError(
            where,
            f"a wall of {float(course.wall) * 1e3:.3g} mm on a mid-wall radius of "
            f"{float(course.radius) * 1e3:.3g} mm is not a thin wall",
            "use the thick-wall formula: wall at most a fifth of the radius",
        )


def _check_head(where: str, head: Head, course: Course) -> None:
    if not (np.isfinite(head.wall) and head.wall > 0.0):
        raise InputError(where, "its wall is missing or not positive", 'wall = "2.5 mm"')
    if not head.flange >= 0.0:
        raise InputError(where, "its straight flange is negative", 'straight_flange = "25 mm"')
    if head.flange > course.length:
        raise InputError(
            where,
            f"a straight flange of {float(head.flange) * 1e3:.4g} mm is longer than the "
            f'course "{course.name}" beside it ({float(course.length) * 1e3:.4g} mm)',
            'straight_flange = "25 mm"',
        )
    if head.form == Form.TORISPHERE:
        _check_torisphere(where, head, float(course.radius))


def _check_torisphere(where: str, head: Head, radius: float) -> None:
    if head.crown_radius is None or head.knuckle_radius is None:
        raise InputError(
            where,
            "a torisphere needs a crown and a knuckle radius",
            'crown_radius = "640 mm", knuckle_radius = "64 mm"',
        )
    crown, knuckle = float(head.crown_radius), float(head.knuckle_radius)
    problem = ""
    if not crown > 0.0 or not knuckle > 0.0:
        problem = "crown and knuckle radius must be positive"
    elif knuckle > crown:
        problem = "the knuckle radius is larger than the crown radius"
    elif knuckle > radius or crown < radius:
        problem = "knuckle, tank and crown radius do not rise in this order"
    if problem:
        raise InputError(
            where, problem, 'crown_radius = "640 mm", knuckle_radius = "64 mm" at 640 mm'
        )

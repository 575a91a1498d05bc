"""A contour moved aside by half the width of the cut, still of lines and arcs.

The material lies on the left of every contour: outlines turn left, openings right. The path of
the cut lies on the right. Outer corners become arcs about the corner, inner ones are trimmed.
"""

from dataclasses import dataclass, replace
from math import atan2, hypot, pi, sqrt, tan

from stretchform.errors import InputError
from stretchform.plates.contour import Contour, Vertex, pieces
from stretchform.si import Metre

SOURCES = ("own-derivation",)

_SMOOTH = 1e-7  # rad: below it two pieces run on without a corner

_Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Piece:
    """A line, or an arc about its centre; `turn` is its angle, left positive."""

    start: _Point
    end: _Point
    centre: _Point | None = None
    radius: float = 0.0
    turn: float = 0.0


def beside(contour: Contour, distance: Metre) -> Contour:
    """The contour moved to its right, away from the material.

        line: moved by the distance; arc that turns left: radius + distance, right: - distance

    Source: own-derivation, parallel curves of lines and arcs.
    Checked: tests/unit/plates/test_plates_offset.py (circle, corners, against shapely).
    Raises InputError where the cut is wider than a corner or an arc allows.
    """
    away = float(distance)
    if away == 0.0:
        return contour
    before = [_piece(start, end) for start, end in pieces(contour)]
    moved = [_moved(piece, away) for piece in before]
    found: list[_Piece] = []
    count = len(moved)
    starts = [piece.start for piece in moved]
    ends = [piece.end for piece in moved]
    joints: list[_Piece | None] = [None] * count
    for index in range(count):
        after = (index + 1) % count
        corner = before[index].end
        bend = _bend(before[index], before[after])
        if bend > _SMOOTH:
            joints[index] = _Piece(ends[index], starts[after], corner, away, bend)
        elif bend < -_SMOOTH:
            ends[index] = starts[after] = _meeting(moved[index], moved[after], corner)
    for index, piece in enumerate(moved):
        found.append(_trimmed(piece, starts[index], ends[index]))
        joint = joints[index]
        if joint is not None:
            found.append(joint)
    return Contour(
        tuple(Vertex(*piece.start, tan(piece.turn / 4.0)) for piece in found), contour.opening
    )


def _piece(start: Vertex, end: Vertex) -> _Piece:
    if not start.bulge:
        return _Piece((start.x, start.y), (end.x, end.y))
    square = start.bulge**2
    middle = (start.x + end.x) / 2.0, (start.y + end.y) / 2.0
    lift = (1.0 - square) / (4.0 * start.bulge)  # centre left of the chord, in chords
    centre = (
        middle[0] - lift * (end.y - start.y),
        middle[1] + lift * (end.x - start.x),
    )
    turn = 4.0 * atan2(start.bulge, 1.0)
    radius = hypot(start.x - centre[0], start.y - centre[1])
    return _Piece((start.x, start.y), (end.x, end.y), centre, radius, turn)


def _moved(piece: _Piece, away: float) -> _Piece:
    """The piece moved to its right."""
    if piece.centre is None:
        x, y = _heading(piece, piece.start)
        shift = away * y, -away * x
        return _Piece(_plus(piece.start, shift), _plus(piece.end, shift))
    radius = piece.radius + (away if piece.turn > 0.0 else -away)
    if radius <= 0.0:
        problem = f"an arc of {1e3 * piece.radius:.3f} mm radius is tighter than the cut"
        raise InputError("width of the cut", problem, '--kerf "0.2 mm"')
    share = radius / piece.radius
    ends = [
        (
            piece.centre[0] + share * (x - piece.centre[0]),
            piece.centre[1] + share * (y - piece.centre[1]),
        )
        for x, y in (piece.start, piece.end)
    ]
    return replace(piece, start=ends[0], end=ends[1], radius=radius)


def _plus(point: _Point, shift: _Point) -> _Point:
    return point[0] + shift[0], point[1] + shift[1]


def _heading(piece: _Piece, at: _Point) -> _Point:
    """Direction of travel at one end of a piece."""
    if piece.centre is None:
        x, y = piece.end[0] - piece.start[0], piece.end[1] - piece.start[1]
    else:
        sign = 1.0 if piece.turn > 0.0 else -1.0
        x, y = -sign * (at[1] - piece.centre[1]), sign * (at[0] - piece.centre[0])
    size = hypot(x, y)
    return x / size, y / size


def _bend(piece: _Piece, after: _Piece) -> float:
    """Angle by which the path turns left between two pieces."""
    one, two = _heading(piece, piece.end), _heading(after, after.start)
    return atan2(one[0] * two[1] - one[1] * two[0], one[0] * two[0] + one[1] * two[1])


def _meeting(piece: _Piece, after: _Piece, corner: _Point) -> _Point:
    """Where two moved pieces cross, next to their old corner."""
    if piece.centre is None and after.centre is None:
        places = _of_lines(piece, after)
    elif piece.centre is None:
        places = _of_line_and_circle(piece, after)
    elif after.centre is None:
        places = _of_line_and_circle(after, piece)
    else:
        places = _of_circles(piece, after)
    if not places:
        problem = "an inner corner is too tight for it"
        raise InputError("width of the cut", problem, '--kerf "0.2 mm"')
    return min(places, key=lambda place: hypot(place[0] - corner[0], place[1] - corner[1]))


def _of_lines(one: _Piece, two: _Piece) -> list[_Point]:
    ux, uy = _heading(one, one.start)
    vx, vy = _heading(two, two.start)
    cross = ux * vy - uy * vx
    along = ((two.start[0] - one.start[0]) * vy - (two.start[1] - one.start[1]) * vx) / cross
    return [(one.start[0] + along * ux, one.start[1] + along * uy)]


def _of_line_and_circle(line: _Piece, arc: _Piece) -> list[_Point]:
    assert arc.centre is not None
    ux, uy = _heading(line, line.start)
    dx, dy = arc.centre[0] - line.start[0], arc.centre[1] - line.start[1]
    along, off = dx * ux + dy * uy, dx * uy - dy * ux
    square = arc.radius**2 - off**2
    if square < 0.0:
        return []
    return [
        (line.start[0] + (along + step) * ux, line.start[1] + (along + step) * uy)
        for step in (-sqrt(square), sqrt(square))
    ]


def _of_circles(one: _Piece, two: _Piece) -> list[_Point]:
    assert one.centre is not None and two.centre is not None
    dx, dy = two.centre[0] - one.centre[0], two.centre[1] - one.centre[1]
    apart = hypot(dx, dy)
    if apart < 1e-12:
        return []
    along = (apart**2 + one.radius**2 - two.radius**2) / (2.0 * apart)
    square = one.radius**2 - along**2
    if square < 0.0:
        return []
    ux, uy = dx / apart, dy / apart
    return [
        (
            one.centre[0] + along * ux - side * uy,
            one.centre[1] + along * uy + side * ux,
        )
        for side in (-sqrt(square), sqrt(square))
    ]


def _trimmed(piece: _Piece, start: _Point, end: _Point) -> _Piece:
    """The piece between new ends; it must still run the same way."""
    if piece.centre is None:
        ux, uy = _heading(piece, piece.start)
        if (end[0] - start[0]) * ux + (end[1] - start[1]) * uy <= 0.0:
            raise _swallowed()
        return _Piece(start, end)
    x, y = piece.centre
    first, last = atan2(start[1] - y, start[0] - x), atan2(end[1] - y, end[0] - x)
    turn = (last - first) % (2.0 * pi)
    if piece.turn < 0.0:
        turn -= 2.0 * pi
    if abs(turn - piece.turn) > pi:
        raise _swallowed()
    return replace(piece, start=start, end=end, turn=turn)


def _swallowed() -> InputError:
    problem = "a piece of the contour is shorter than the cut is wide"
    return InputError("width of the cut", problem, '--kerf "0.2 mm"')

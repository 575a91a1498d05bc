"""The outline of a whole plate as it is cut: ring, segment or full, with tabs and notches.

Angles run clockwise from the top of the plate. All contours are closed, of lines and arcs, the
outline turning left and openings right. The wall before and after forming is given as radii:
reference only, never cut. The size is that of the plate; the width of the cut is not in it.
"""

from dataclasses import dataclass, replace
from math import asin, atan2, cos, pi, sin

from stretchform.errors import InputError, NoSolution
from stretchform.plates import review, weld
from stretchform.plates.arm_state import treated_kind
from stretchform.plates.case import PlateCase, PlateResult
from stretchform.plates.contour import (
    Contour,
    Vertex,
    bulge,
    circle,
    mirrored,
    oriented,
    turned,
)
from stretchform.plates.tab_path import TabPath, TabShape, trace
from stretchform.si import Metre, Radian

SOURCES = ("own-derivation",)


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole; place in the plane of the plate, y to the top."""

    x: Metre
    y: Metre
    diameter: Metre


@dataclass(frozen=True, slots=True)
class Notch:
    """A round notch in the rim that lets air or water past."""

    angle: Radian  # clockwise from the top
    radius: Metre


@dataclass(frozen=True, slots=True)
class Drawing:
    """Contours to cut, and what is drawn for reference only."""

    contours: tuple[Contour, ...]
    wall_before: Metre  # inside radius
    wall_after: Metre  # inside radius after release
    tab_angles: tuple[Radian, ...]
    arm_length: Metre  # clear length as drawn


def tab_shape(case: PlateCase, result: PlateResult) -> TabShape:
    """Sizes of one tab of a plate that was designed.

    Source: own-derivation, the numbers of case and result.
    Checked: tests/verification/test_plates_outline.py (drawn arm equals the checked one).
    Raises NoSolution where no arm was found.
    """
    if not float(result.arm_length) < float("inf"):
        raise NoSolution(f"plate with {case.kind} arms", "no arm passes", "choose another arm")
    inside = float(case.radius) - float(case.wall) / 2.0
    arm = treated_kind(case) not in ("none", "sliding") and float(result.arm_length) > 0.0
    foot = min(review.foot_of(case, result.stalk), float(result.stalk))
    low = arm and foot < float(result.stalk) - 1e-9
    limbs = (case.limbs if case.kind == "folded" else 1) if arm else 0
    return TabShape(
        wall=inside,
        rim=inside - float(case.clearance),
        tab_length=case.tab_length,
        neck=(weld.NECK if low else 1.0) * float(case.tab_length),
        foot=foot,
        depth=case.depth,
        length=result.arm_length,
        slot_width=result.slot_width,
        end_radius=result.slot_end_radius,
        limbs=limbs,
        bridge=case.kind == "bridge",
        straight=case.straight,
    )


def draw(
    case: PlateCase,
    result: PlateResult,
    span: Radian | None = None,
    notches: tuple[Notch, ...] = (),
    holes: tuple[Hole, ...] = (),
    hand: int = 1,
) -> Drawing:
    """Contours of one plate.

    `span` below a full turn gives a segment, its tabs evenly inside it; None: that of the case.
    `hand` 1: arms point clockwise from their tabs, -1: the other way. Where only some tabs are
    relieved, the first ones are.

    Source: own-derivation, geometry.
    Checked: tests/verification/test_plates_outline.py (area, length, valid, drawn arm).
    Raises InputError where pieces overlap, NoSolution where no arm was found.
    """
    shape = tab_shape(case, result)
    turn = float(case.span if span is None else span)
    angles = [float(angle) for angle in tab_angles(case.tabs, turn)]
    sliding = case.kind == "sliding"
    mirror = -1.0 if hand < 0 else 1.0
    items = [] if sliding else _tabs(case, shape, [mirror * angle for angle in angles])
    items += [_notch(Notch(mirror * float(n.angle), n.radius), shape) for n in notches]
    outer = _outer(sorted(items, key=lambda item: item.start), shape, turn)
    inner = _inner_radius(case, shape)
    contours = [_closed(outer, inner, turn)]
    if inner > 0.0 and turn >= 2.0 * pi:
        contours.append(circle(0.0, 0.0, inner))
    contours += [opening for item in items for opening in item.openings]
    contours += [
        mirrored(circle(h.x, h.y, h.diameter / 2.0))
        if mirror < 0
        else circle(h.x, h.y, h.diameter / 2.0)
        for h in holes
    ]
    if sliding:
        contours += [turned(_radial_slot(shape, result), mirror * angle) for angle in angles]
    if mirror < 0:
        contours = [mirrored(contour) for contour in contours]
    return Drawing(
        contours=tuple(oriented(contour) for contour in contours),
        wall_before=shape.wall,
        wall_after=float(shape.wall) + float(result.clearance_after) - float(case.clearance),
        tab_angles=tuple(angles),
        arm_length=shape.length if shape.limbs else 0.0,
    )


@dataclass(frozen=True, slots=True)
class _Item:
    """A piece of the rim with its own path, in the frame of the plate."""

    start: float  # angles, clockwise
    end: float
    vertices: tuple[Vertex, ...]
    openings: tuple[Contour, ...]


def tab_angles(tabs: int, span: Radian) -> list[Radian]:
    """Angles of the tabs: evenly round a ring, evenly inside a segment.

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_notching.py (tab_angles of a ring and a segment).
    Raises nothing.
    """
    turn = float(span)
    if turn >= 2.0 * pi:
        return [2.0 * pi * index / tabs for index in range(tabs)]
    return [turn * ((index + 0.5) / tabs - 0.5) for index in range(tabs)]


def _tabs(case: PlateCase, shape: TabShape, angles: list[float]) -> list[_Item]:
    """Every tab at its angle; those without an arm are tabs of the plate itself."""
    relieved = len(angles) if case.relieved is None else case.relieved
    bare = replace(shape, limbs=0, foot=case.clearance, neck=case.tab_length)
    paths = [trace(shape if index < relieved else bare) for index in range(len(angles))]
    return [_turned_path(path, angle) for path, angle in zip(paths, angles, strict=True)]


def _turned_path(path: TabPath, angle: float) -> _Item:
    """A path of the local frame at its place in the plate."""
    vertices = turned(Contour(path.vertices), angle).vertices
    openings = tuple(turned(opening, angle) for opening in path.openings)
    start = _principal(float(path.start) + angle)
    return _Item(start, start + float(path.end) - float(path.start), vertices, openings)


def _principal(angle: float) -> float:
    """The angle between minus and plus half a turn."""
    return (angle + pi) % (2.0 * pi) - pi


def _notch(notch: Notch, shape: TabShape) -> _Item:
    """A round bite out of the rim, its middle on the rim."""
    rim, radius = float(shape.rim), float(notch.radius)
    half = 2.0 * asin(radius / (2.0 * rim))
    x, y = rim * sin(half), rim * cos(half)
    turn = 2.0 * atan2(x, rim - y)
    path = TabPath((Vertex(-x, y, float(bulge(turn))), Vertex(x, y)), ())
    return _turned_path(path, float(notch.angle))


def _outer(items: list[_Item], shape: TabShape, span: float) -> list[Vertex]:
    """Rim with all its pieces, clockwise; of a segment from edge to edge."""
    whole = span >= 2.0 * pi
    first = items[0].start if items and whole else -span / 2.0
    last = first + 2.0 * pi if whole else span / 2.0
    vertices: list[Vertex] = []
    at = first
    if not (items and whole):
        vertices.append(_on_rim(shape, first, 0.0))
    for item in items:
        _refuse_overlap(item.start, at)
        _rim_arc(vertices, item.start - at)
        vertices += item.vertices
        at = item.end
    _refuse_overlap(last, at)
    if not items and whole:
        return [_on_rim(shape, -pi, -1.0), _on_rim(shape, 0.0, -1.0)]
    _rim_arc(vertices, last - at)
    if not whole:
        vertices.append(_on_rim(shape, last, 0.0))
    return vertices


def _rim_arc(vertices: list[Vertex], turn: float) -> None:
    """Give the last vertex the arc along the rim to the next one."""
    if vertices:
        last = vertices[-1]
        vertices[-1] = Vertex(last.x, last.y, float(bulge(-turn)))


def _on_rim(shape: TabShape, angle: float, value: float) -> Vertex:
    rim = float(shape.rim)
    return Vertex(rim * sin(angle), rim * cos(angle), value)


def _refuse_overlap(start: float, before: float) -> None:
    if start < before - 1e-9:
        raise InputError(
            "plate", "tabs, arms or notches overlap along the rim", "fewer tabs or a folded arm"
        )


def _inner_radius(case: PlateCase, shape: TabShape) -> float:
    """Radius of the opening of a ring; 0 for a full plate."""
    if case.ring_width is None:
        return 0.0
    return max(float(shape.rim) - float(case.ring_width), 0.0)


def _closed(outer: list[Vertex], inner: float, span: float) -> Contour:
    """Close a segment by its inner edge; a ring is closed already."""
    if span >= 2.0 * pi:
        return Contour(tuple(outer))
    half = span / 2.0
    if inner <= 0.0:
        return Contour((*outer, Vertex(0.0, 0.0)))
    right = Vertex(inner * sin(half), inner * cos(half), float(bulge(span)))
    return Contour((*outer, right, Vertex(-inner * sin(half), inner * cos(half))))


def _radial_slot(shape: TabShape, result: PlateResult) -> Contour:
    """Slot of a sliding tab at the top of the plate, one width inside the rim."""
    width, length = float(result.slot_width), float(result.slot_length)
    half = width / 2.0
    top = float(shape.rim) - width - half
    bottom = top - (length - width)
    return Contour(
        (
            Vertex(-half, bottom),
            Vertex(-half, top, -1.0),
            Vertex(half, top),
            Vertex(half, bottom, -1.0),
        ),
        opening=True,
    )

"""The rim of a plate at one tab: foot, neck, arms and slots as vertices in a local frame.

The frame looks outward: y is the distance from the tank's axis, x runs clockwise along the rim
from the middle of the tab. In a straight frame x is square to the tab's radius; in a
concentric one it bends with the rim, and what is level becomes an arc about the axis. The path
runs clockwise, the plate on its right.
"""

from dataclasses import dataclass
from math import acos, asin, atan2, cos, pi, sin, sqrt

from stretchform.errors import InputError
from stretchform.plates.contour import Contour, Vertex, bulge
from stretchform.si import Metre, Radian

SOURCES = ("own-derivation",)

_LEAST_FILLET = 1e-5  # m: below it the corner stays sharp


@dataclass(frozen=True, slots=True)
class TabShape:
    """Sizes of one tab with its arm; `limbs` 0: a tab of the plate itself."""

    wall: Metre  # inside radius of the tank, where the foot is welded
    rim: Metre  # radius of the plate's edge
    tab_length: Metre  # of the foot along the wall
    neck: Metre  # width above the foot
    foot: Metre  # height of the foot
    depth: Metre
    length: Metre  # clear, neck to root; of a bridge each half
    slot_width: Metre
    end_radius: Metre
    limbs: int = 1
    bridge: bool = False
    straight: bool = True


@dataclass(frozen=True, slots=True)
class TabPath:
    """Vertices along the rim from one side of a tab to the other, and closed slots."""

    vertices: tuple[Vertex, ...]  # the last one lies on the rim; its bulge is not set
    openings: tuple[Contour, ...]

    @property
    def start(self) -> Radian:
        """Angle where the path leaves the rim, clockwise from the tab."""
        return atan2(self.vertices[0].x, self.vertices[0].y)

    @property
    def end(self) -> Radian:
        """Angle where the path comes back to the rim, clockwise from the tab."""
        return atan2(self.vertices[-1].x, self.vertices[-1].y)


class _Pen:
    """Collects vertices in the local frame; level lines bend in a concentric frame."""

    def __init__(self, bend: float | None) -> None:
        self.bend = bend  # radius at which x is measured; None: straight
        self.found: list[Vertex] = []
        self.at = (0.0, 0.0)

    def put(self, x: float, y: float) -> None:
        """Go straight (or along a radius) to a place."""
        self.at = (x, y)
        self.found.append(Vertex(*self.place(x, y)))

    def level(self, x: float) -> None:
        """Go to another x at the same y."""
        if self.bend is not None:
            turn = (x - self.at[0]) / self.bend
            self._bulge(float(bulge(-turn)))
        self.put(x, self.at[1])

    def arc(self, x: float, y: float, angle: float) -> None:
        """Go to a place on an arc that turns left by an angle."""
        self._bulge(float(bulge(angle)))
        self.put(x, y)

    def place(self, x: float, y: float) -> tuple[float, float]:
        """Coordinates of a place of the frame."""
        if self.bend is None:
            return x, y
        return y * sin(x / self.bend), y * cos(x / self.bend)

    def _bulge(self, value: float) -> None:
        last = self.found[-1]
        self.found[-1] = Vertex(last.x, last.y, value)


def trace(shape: TabShape) -> TabPath:
    """Rim of the plate at one tab, from left to right seen from the axis.

    Straight arms lie square to the radius at their tab, so deep that the outermost edge meets
    the rim at the root; concentric ones follow the rim.

    Source: own-derivation, geometry.
    Checked: tests/verification/test_plates_outline.py (length, depth, slot and end radius
        measured on the drawn contour).
    Raises InputError where the pieces do not fit.
    """
    _refuse_misfit(shape)
    if shape.limbs == 0:
        return _plain(shape)
    top = _top(shape)
    bend = None if shape.straight else shape.rim - shape.depth / 2.0
    pen = _Pen(None if bend is None else float(bend))
    if shape.bridge:
        pen.put(-_root(shape), top)
        _tab(pen, shape, top)
        pen.level(_root(shape))
        return TabPath(tuple(pen.found), (_closed_slot(shape, top),))
    _left(pen, shape, top)
    _tab(pen, shape, top)
    _right(pen, shape, top)
    return TabPath(tuple(pen.found), ())


def _root(shape: TabShape) -> float:
    """x of the outer end of the clear length."""
    return float(shape.neck) / 2.0 + float(shape.length)


def _link(shape: TabShape) -> float:
    """Width of the piece that joins two limbs."""
    return float(shape.depth) if shape.limbs > 1 else 0.0


def _top(shape: TabShape) -> float:
    """y of the outer edge of the outermost limb."""
    if not shape.straight:
        return float(shape.rim)
    reach = _root(shape) + _link(shape)
    return sqrt(float(shape.rim) ** 2 - reach**2)


def _outer(shape: TabShape, top: float, limb: int) -> float:
    """y of the outer edge of a limb; the gap between limbs holds the round fold."""
    return top - (limb - 1) * (float(shape.depth) + 2.0 * float(shape.end_radius))


def _inner(shape: TabShape, top: float, limb: int) -> float:
    return _outer(shape, top, limb) - float(shape.depth)


def _rim_at(shape: TabShape, pen: _Pen, x: float) -> float:
    """y of the rim at an x."""
    return float(shape.rim) if pen.bend is not None else sqrt(float(shape.rim) ** 2 - x**2)


def _tab(pen: _Pen, shape: TabShape, top: float) -> None:
    """Up the left side of the tab, along the wall and down to the outer edge of the arm."""
    half, neck = _halves(shape, pen)
    level = _foot_level(shape, pen)
    room = level - top if neck < half else level + float(shape.foot) - top
    fillet = min(float(shape.end_radius), 0.9 * room)
    if shape.bridge and fillet > _LEAST_FILLET:
        pen.level(-neck - fillet)
        pen.arc(-neck, top + fillet, pi / 2.0)
    else:
        pen.level(-neck)
    _foot(pen, shape, half, neck)
    if fillet > _LEAST_FILLET:
        pen.put(neck, top + fillet)
        pen.arc(neck + fillet, top, pi / 2.0)
    else:
        pen.put(neck, top)


def _halves(shape: TabShape, pen: _Pen) -> tuple[float, float]:
    """Half widths of foot and neck in the frame; the foot is measured along the wall."""
    half, neck = float(shape.tab_length) / 2.0, float(shape.neck) / 2.0
    whole = neck >= half - 1e-9
    if pen.bend is not None:
        half *= pen.bend / float(shape.wall)
    return half, half if whole else neck


def _foot_level(shape: TabShape, pen: _Pen) -> float:
    """y of the lower side of the foot."""
    half = float(shape.tab_length) / 2.0
    wall = float(shape.wall)
    edge = wall if pen.bend is not None else sqrt(wall**2 - half**2)
    return edge - float(shape.foot)


def _foot(pen: _Pen, shape: TabShape, half: float, neck: float) -> None:
    """The foot with its edge along the wall."""
    level = _foot_level(shape, pen)
    edge = level + float(shape.foot)
    if neck < half:
        pen.put(-neck, level)
        pen.level(-half)
    pen.put(-half, edge)
    turn = 2.0 * (half / pen.bend if pen.bend is not None else asin(half / float(shape.wall)))
    pen.arc(half, edge, -turn)
    if neck < half:
        pen.put(half, level)
        pen.level(neck)


def _left(pen: _Pen, shape: TabShape, top: float) -> None:
    """From the rim left of the tab to the lower left corner of the tab."""
    limbs, neck = shape.limbs, float(shape.neck) / 2.0
    near, far, link = neck, _root(shape), _link(shape)
    side = -float(shape.tab_length) / 2.0 - float(shape.slot_width)
    if limbs > 2:
        side = min(side, near - link - float(shape.slot_width))
    limb = limbs
    if limbs % 2:
        bottom = _inner(shape, top, limbs) - float(shape.slot_width)
        pen.put(side, _rim_at(shape, pen, side))
        pen.put(side, bottom)
        _round_end(pen, shape, far, _inner(shape, top, limbs))
        if limbs == 1:
            return
        pen.level(near - link)
        limb -= 1
        pen.put(near - link, _outer(shape, top, limb))
    else:
        pen.put(side, _rim_at(shape, pen, side))
        pen.put(side, _outer(shape, top, limbs))
    while True:
        pen.level(far)
        pen.arc(far, _inner(shape, top, limb - 1), pi)
        limb -= 1
        if limb == 1:
            return
        pen.level(near - link)
        limb -= 1
        pen.put(near - link, _outer(shape, top, limb))


def _right(pen: _Pen, shape: TabShape, top: float) -> None:
    """From the tab along the outer edge of the outermost limb to the rim on the right."""
    limbs = shape.limbs
    near, far, link = float(shape.neck) / 2.0, _root(shape), _link(shape)
    side = far + link + float(shape.slot_width)
    pen.level(far + link)
    limb = 1
    while limb < limbs:
        limb += 1
        pen.put(far + link, _inner(shape, top, limb))
        if limb == limbs:
            pen.level(near)
            _round_start(pen, shape, near, _inner(shape, top, limb))
            pen.level(side)
            break
        pen.level(near)
        pen.arc(near, _outer(shape, top, limb + 1), pi)
        limb += 1
        pen.level(side if limb == limbs else far + link)
    if limbs > 1:
        pen.put(side, _rim_at(shape, pen, side))


def _meeting(shape: TabShape, pen: _Pen, inner: float) -> tuple[float, float]:
    """Where the lower side of a slot meets its round end: distance in x, turn of the arc."""
    radius, gap = float(shape.end_radius), float(shape.slot_width)
    centre, bottom = inner - radius, inner - gap
    if pen.bend is None:
        away = sqrt(max(radius**2 - (bottom - centre) ** 2, 0.0))
        return away, 2.5 * pi - atan2(bottom - centre, -away) % (2.0 * pi)
    share = (centre**2 + bottom**2 - radius**2) / (2.0 * centre * bottom)
    angle = acos(min(share, 1.0))
    along, up = -bottom * sin(angle), bottom * cos(angle) - centre
    return angle * pen.bend, 2.5 * pi - atan2(up, along) % (2.0 * pi)


def _round_end(pen: _Pen, shape: TabShape, x: float, inner: float) -> None:
    """Along the lower side of a slot into its round end, which touches the arm at x."""
    away, turn = _meeting(shape, pen, inner)
    pen.level(x - away)
    pen.arc(x, inner, turn)


def _round_start(pen: _Pen, shape: TabShape, x: float, inner: float) -> None:
    """From the touching point at x round the end onto the lower side of the slot."""
    away, turn = _meeting(shape, pen, inner)
    pen.arc(x + away, inner - float(shape.slot_width), turn)


def _closed_slot(shape: TabShape, top: float) -> Contour:
    """Slot of a bridge: closed, round at both ends."""
    bend = None if shape.straight else float(shape.rim) - float(shape.depth) / 2.0
    pen, x, inner = _Pen(bend), _root(shape), top - float(shape.depth)
    away, turn = _meeting(shape, pen, inner)
    bottom = inner - float(shape.slot_width)
    pen.put(-x + away, bottom)
    pen.level(x - away)
    pen.arc(x, inner, turn)
    pen.level(-x)
    pen.arc(-x + away, bottom, turn)
    return Contour(tuple(pen.found[:-1]), opening=True)


def _plain(shape: TabShape) -> TabPath:
    """A tab of the plate itself, from the rim to the wall and back."""
    half, rim, wall = float(shape.tab_length) / 2.0, float(shape.rim), float(shape.wall)
    pen = _Pen(None)
    pen.put(-half, sqrt(rim**2 - half**2))
    pen.put(-half, sqrt(wall**2 - half**2))
    pen.arc(half, sqrt(wall**2 - half**2), -2.0 * asin(half / wall))
    pen.put(half, sqrt(rim**2 - half**2))
    return TabPath(tuple(pen.found), ())


def _refuse_misfit(shape: TabShape) -> None:
    """Raise where the pieces cannot be drawn."""
    where = f"tab {1e3 * float(shape.tab_length):.0f} mm long"
    reach = _root(shape) + _link(shape)
    if shape.limbs and reach > 0.7 * float(shape.rim):
        raise InputError(
            where, "its arm is too long for the plate", "take a folded arm or more limbs"
        )
    if float(shape.rim) > float(shape.wall):
        raise InputError(where, "the plate is wider than the tank", "clearance = 3 mm")
    gap = shape.end_radius * 2.0
    if shape.limbs and float(shape.slot_width) > gap:
        raise InputError(
            where,
            "its slot is wider than its round end",
            f"slot end radius {500.0 * float(shape.slot_width):.2f} mm or more",
        )

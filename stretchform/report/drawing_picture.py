"""The drawing of a plate as a picture: the whole plate, one tab enlarged, and every size.

Thick lines are cut, the thin ones show the wall before (dashed) and after forming. Dimensions
stand here only; the exchange files hold nothing but contours.
"""

from collections.abc import Sequence
from math import cos, degrees, pi, sin
from typing import TYPE_CHECKING

import numpy as np

from stretchform.plates import contour
from stretchform.plates.contour import Contour
from stretchform.report import chart_look as look
from stretchform.report import drawing, drawing_review
from stretchform.report.chart_look import Stroke
from stretchform.report.chart_picture import Picture
from stretchform.report.drawing_sheet import Sheet, size

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure


WIDTH, HEIGHT = 165.0, 235.0  # millimetres
_CUT = Stroke(look.INK, 1.3)
_BEFORE = Stroke(look.SOFT, 0.5, (6.0, 3.0))
_FORMED = Stroke(look.SOFT, 0.5)
_DIMENSION = {"arrowstyle": "<|-|>", "color": look.SOFT, "linewidth": 0.5, "mutation_scale": 5}
_PLATE = "#f2f4f6"
_MM = 1e3
_SAG = 2e-5  # m: unseen at the scale of the picture
_Place = tuple[float, float]


def picture(sheet: Sheet) -> Picture:
    """The drawing of one plate with its dimensions, to be looked at and never cut from."""
    found = drawing.looked_at(sheet)
    with look.drawing(f"plate-{sheet.name}"):
        figure = look.sheet(WIDTH, HEIGHT)
        look.heading(figure, sheet.title)
        _whole(_axes(figure, (3.0, 125.0, 100.0, 100.0)), sheet)
        _one_tab(_axes(figure, (3.0, 32.0, 159.0, 88.0)), sheet)
        _words(figure, sheet, found)
    return Picture(f"plate-{_plain(sheet.name)}", sheet.title, describe(sheet), figure)


def describe(sheet: Sheet) -> str:
    """The drawing in words, for who cannot see it."""
    return ". ".join(drawing.notes(sheet)) + "."


def _plain(name: str) -> str:
    """Letters and digits only, for names inside a file."""
    return "".join(letter if letter.isalnum() else "-" for letter in name)


def _axes(figure: "Figure", box: tuple[float, float, float, float]) -> "Axes":
    """A field without a frame, in millimetres from the lower left corner of the sheet."""
    left, bottom, width, height = box
    axes = figure.add_axes(
        (left / WIDTH, bottom / HEIGHT, width / WIDTH, height / HEIGHT), frameon=False
    )
    axes.set_aspect("equal")
    axes.set_axis_off()
    return axes


def _contours(axes: "Axes", sheet: Sheet, contours: Sequence[Contour]) -> None:
    """The plate as lines on pale grey, and the wall before and after."""
    for each in sorted(contours, key=lambda one: one.opening):
        places = _MM * contour.points(each, _SAG)
        fill = "white" if each.opening else _PLATE
        axes.fill(places[:, 0], places[:, 1], facecolor=fill, edgecolor="none", zorder=1.0)
        closed = np.vstack([places, places[:1]])
        look.line(axes, closed[:, 0], closed[:, 1], _CUT)
    turns = np.linspace(0.0, 2.0 * pi, 721)
    for wall, stroke in (
        (sheet.drawing.wall_before, _BEFORE),
        (sheet.drawing.wall_after, _FORMED),
    ):
        radius = _MM * float(wall)
        look.line(axes, radius * np.sin(turns), radius * np.cos(turns), stroke)


def _whole(axes: "Axes", sheet: Sheet) -> None:
    """The whole plate with its diameters, tabs, notches and holes named."""
    _contours(axes, sheet, sheet.drawing.contours)
    rim, wall = _MM * float(sheet.shape.rim), _MM * float(sheet.drawing.wall_after)
    axes.set_xlim(-1.12 * wall, 1.12 * wall)
    axes.set_ylim(-1.12 * wall, 1.12 * wall)
    axes.plot([-8, 8], [0, 0], color=look.SOFT, linewidth=0.5)
    axes.plot([0, 0], [-8, 8], color=look.SOFT, linewidth=0.5)
    if sheet.case.span >= 2.0 * pi - 1e-9:
        turn = _free_turn(sheet)
        end = rim * sin(turn), rim * cos(turn)
        _dimension(axes, (-end[0], -end[1]), end, f"diameter {2.0 * rim:.2f}", (0.0, 8.0))
        if sheet.case.ring_width is not None:
            inner = rim - _MM * float(sheet.case.ring_width)
            low = -0.28 * inner
            half = (inner**2 - low**2) ** 0.5
            _dimension(axes, (-half, low), (half, low), f"opening diameter {2 * inner:.2f}")
    else:
        _segment(axes, sheet, rim)
    inwards = 0.72 if sheet.case.ring_width is None else _inwards(sheet, rim)
    for index, angle in enumerate(sheet.drawing.tab_angles):
        words = f"tab {index + 1}, {degrees(angle) % 360.0:.1f}°"
        _name(axes, float(angle), inwards * rim, words)
    for words, notch in zip(("vent notch", "drain notch"), sheet.notches, strict=False):
        _name(axes, float(notch.angle), inwards * rim, words)
    for hole in sheet.holes:
        place = _MM * float(hole.x), _MM * float(hole.y)
        words = f"hole {_MM * float(hole.diameter):.2f} at x {place[0]:.2f}, y {place[1]:.2f}"
        look.label(axes, place, words, (0.0, -14.0), "center", lead=True)


def _free_turn(sheet: Sheet) -> float:
    """Direction of a line across that stays clear of all names along the rim."""
    named = [float(angle) for angle in sheet.drawing.tab_angles]
    named += [float(notch.angle) for notch in sheet.notches]
    turns = np.radians(np.arange(60.0, 121.0, 1.0))
    away = np.abs((turns[:, None] - np.array(named) + pi / 2.0) % pi - pi / 2.0)
    room = np.round(np.minimum(np.min(away, axis=1), 0.3) - 0.02 * np.abs(turns - pi / 2.0), 9)
    return float(turns[int(np.argmax(room))])


def _inwards(sheet: Sheet, rim: float) -> float:
    """Share of the rim's radius at which names stand: inside the opening of a ring."""
    inner = rim - _MM * float(sheet.case.ring_width or 0.0)
    return max(inner / rim - 0.14, 0.3)


def _segment(axes: "Axes", sheet: Sheet, rim: float) -> None:
    """Radii and angle of a segment."""
    half = float(sheet.case.span) / 2.0
    _dimension(
        axes,
        (0.0, 0.0),
        (rim * sin(half), rim * cos(half)),
        f"rim radius {rim:.2f}",
    )
    words = f"segment of {degrees(2.0 * half):.1f}°, symmetric about the upright"
    look.label(axes, (0.0, 0.0), words, (0.0, -14.0), "center")
    if sheet.case.ring_width is not None:
        inner = rim - _MM * float(sheet.case.ring_width)
        end = (-inner * sin(half), inner * cos(half))
        _dimension(axes, (0.0, 0.0), end, f"inner radius {inner:.2f}")


def _name(axes: "Axes", turn: float, radius: float, words: str) -> None:
    place = radius * sin(turn), radius * cos(turn)
    look.label(axes, place, words, (0.0, 0.0), "center")


def _dimension(
    axes: "Axes",
    start: _Place,
    end: _Place,
    words: str,
    shift: _Place = (0.0, 0.0),
    share: float = 0.5,
) -> None:
    """A line with two heads and its size in millimetres."""
    axes.annotate("", end, xytext=start, arrowprops=_DIMENSION, zorder=4.0)
    middle = (
        start[0] + share * (end[0] - start[0]),
        start[1] + share * (end[1] - start[1]),
    )
    look.label(axes, middle, words, shift, "center")


class _Tab:
    """Places of the first tab in the picture, from x along the rim and y off the axis (m)."""

    def __init__(self, sheet: Sheet) -> None:
        shape = sheet.shape
        bend = float(shape.rim) - float(shape.depth) / 2.0
        self.bend = None if shape.straight else bend
        self.side = 1.0 if sheet.hand > 0 else -1.0

    def place(self, x: float, y: float) -> _Place:
        """Millimetres in the picture, the first tab upright."""
        if self.bend is not None:
            x, y = y * sin(x / self.bend), y * cos(x / self.bend)
        return _MM * self.side * x, _MM * y


def _one_tab(axes: "Axes", sheet: Sheet) -> None:
    """The first tab enlarged, turned upright, with the sizes of its arm."""
    tab = _Tab(sheet)
    turn = -float(sheet.drawing.tab_angles[0])
    _contours(axes, sheet, [contour.turned(each, turn) for each in sheet.drawing.contours])
    shape, result = sheet.shape, sheet.result
    reach = float(shape.neck) / 2.0 + float(shape.length) + float(shape.slot_width)
    if not shape.limbs:
        reach = 3.0 * float(shape.tab_length)
    left = reach if shape.bridge else 1.6 * float(shape.tab_length)
    low, high = 1.15 * _MM * left, 1.15 * _MM * reach + 20.0
    edges = (-low, high) if tab.side > 0.0 else (-high, low)
    axes.set_xlim(*edges)
    middle = _MM * float(sheet.drawing.wall_after) + 6.0
    tall = (edges[1] - edges[0]) * 88.0 / 159.0
    axes.set_ylim(middle - tall, middle)
    if shape.limbs:
        _arm_sizes(axes, sheet, tab)
    elif sheet.case.kind == "sliding":
        width, slot = _MM * float(result.slot_width), _MM * float(result.slot_length)
        place = tab.place(float(result.slot_width) / 2.0, float(shape.rim) - 0.02)
        _leader(axes, place, f"slot {width:.2f} by {slot:.2f}", (60.0, -10.0))
    wall, rim = float(shape.wall), float(shape.rim)
    at = -0.55 * left
    _dimension(
        axes,
        tab.place(at, _at_radius(tab, rim, at)),
        tab.place(at, _at_radius(tab, wall, at)),
        f"{_MM * float(result.clearance_before):.2f}",
        (-16.0 * tab.side, 0.0),
    )


def _at_radius(tab: _Tab, radius: float, x: float) -> float:
    """y of a circle about the axis at an x of the frame."""
    return radius if tab.bend is not None else float(np.sqrt(radius**2 - x**2))


def _arm_sizes(axes: "Axes", sheet: Sheet, tab: _Tab) -> None:
    """Clear length, depth, slot and end radius of the first limb."""
    shape, result = sheet.shape, sheet.result
    near, far = float(shape.neck) / 2.0, float(shape.neck) / 2.0 + float(shape.length)
    top = float(shape.wall) - float(result.stalk)
    middle, depth, gap = top - float(shape.depth) / 2.0, float(shape.depth), shape.slot_width
    length = f"arm {_MM * float(result.arm_length):.2f}"
    _dimension(axes, tab.place(near, middle), tab.place(far, middle), length)
    x = near + 0.22 * float(shape.length)
    words = f"depth {_MM * depth:.2f}"
    _leader(axes, tab.place(x, top - 0.85 * depth), words, (16.0 * tab.side, -34.0))
    x = near + 0.5 * float(shape.length)
    lowest = top - depth - 0.5 * float(gap)
    if shape.limbs == 1 or shape.bridge:
        words = f"slot {_MM * float(gap):.2f} wide"
        _leader(axes, tab.place(x, lowest), words, (18.0 * tab.side, -40.0))
    words = f"end radius {_MM * float(shape.end_radius):.2f}"
    radius = float(shape.end_radius)
    round_end = tab.place(far + 0.7 * radius, top - depth - radius)
    _leader(axes, round_end, words, (10.0 * tab.side, -30.0))
    words = f"wall to arm {_MM * float(result.stalk):.2f}"
    x = near + 0.1 * (far - near)
    start, end = tab.place(x, top), tab.place(x, _at_radius(tab, float(shape.wall), x))
    _dimension(axes, start, end, words, (38.0 * tab.side, 0.0))
    foot = float(shape.tab_length) / 2.0
    level = float(shape.wall) + 3e-3
    words = f"tab {_MM * float(shape.tab_length):.2f}"
    _dimension(axes, tab.place(-foot, level), tab.place(foot, level), words, (0.0, 9.0))


def _leader(axes: "Axes", place: _Place, words: str, shift: _Place) -> None:
    look.label(axes, place, words, shift, "center", lead=True)


def _words(figure: "Figure", sheet: Sheet, found: drawing_review.Review) -> None:
    """Every size in a column, and below what the drawing is and is not."""
    facts = [*sheet.facts, ("narrowest web", drawing_review.web(found))]
    if found.hole is not None:
        facts.append(("narrowest opening", size(found.hole)))
    _column(figure, facts)
    lines = [
        "Thick: contour of the plate. Thin: wall inside, dashed before, unbroken formed "
        "(largest travel of the row).",
        f"Millimetres; {drawing.width_of_cut(sheet)}. Angles clockwise from the top.",
        ("Weld in with the vent notch at the high side. " if sheet.notches else "")
        + "Annealed sheet, cut edges deburred, tab welds short and without craters.",
        "Not looked at: fatigue of the arms, quality of the welds, corrosion in gaps, oxygen "
        "service.",
    ]
    if sheet.example:
        lines.insert(0, drawing.INVENTED + ".")
    for index, words in enumerate(lines):
        weight = "bold" if sheet.example and index == 0 else "normal"
        figure.text(
            0.02,
            (27.0 - 5.0 * index) / HEIGHT,
            words,
            fontsize=look.SMALL - 1.0,
            fontweight=weight,
            va="top",
        )


def _column(figure: "Figure", facts: Sequence[tuple[str, str]]) -> None:
    """Sizes to the right of the plate: what above its value."""
    step = min(98.0 / max(len(facts), 1), 6.2)
    for index, (what, value) in enumerate(facts):
        height = (224.0 - step * index) / HEIGHT
        figure.text(0.645, height, what, fontsize=6.0, color=look.SOFT, va="top")
        figure.text(0.99, height, value, fontsize=6.0, va="top", ha="right")

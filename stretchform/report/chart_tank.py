"""The picture of the tank before and after: outlines, stations, plates and courses.

Growth of a few per cent would hardly be seen, so what moved is drawn a stated number of times too
large. All heights and sizes in words are true.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from stretchform.planning.plan import Plan, Profile, StationPlan
from stretchform.report import chart_look as look
from stretchform.report import words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.chart_picture import Picture
from stretchform.report.chart_profile import short
from stretchform.report.chart_sentences import sentences
from stretchform.report.words_page import NO_PROFILE

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from stretchform.si import Array

TITLE = "The tank before and after"
_HEIGHT = 135.0  # millimetres of the sheet
_LEFT, _BOTTOM, _RIGHT, _TOP = 17.0, 14.0, 4.0, 14.0
_WORDS = 48.0  # millimetres kept free for words on each side of the tank
_MILLI = 1e3
_SEEN = 0.3  # share of the radius that the largest movement is drawn as
_FACTORS = (1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50, 100)


@dataclass(frozen=True, slots=True)
class _Outline:
    radius: "Array"  # millimetres
    height: "Array"


@dataclass(frozen=True, slots=True)
class _Named:
    across: float
    height: float
    text: str


def tank(plan: Plan, inches: bool = False) -> Picture:
    """Outline before and after release, what moved drawn larger by a factor that is stated.

    It tells no pressure, so a withheld plan shows it too; a plan made course by course has none.
    """
    title = f"{TITLE} - {words_basis.job_name(plan)}"
    shown = plan.profile
    if shown is None:
        return sentences("tank", title, (NO_PROFILE,))
    factor = enlargement(shown)
    before = _Outline(_MILLI * shown.radius_before, _MILLI * shown.height_before)
    after = _Outline(
        before.radius + factor * _MILLI * (shown.radius_released - shown.radius_before),
        before.height + factor * _MILLI * (shown.height_released - shown.height_before),
    )
    with look.drawing("tank"):
        figure = look.sheet(height=_HEIGHT)
        axes = look.frame(
            figure, "distance from the axis, mm", "height, mm", (_LEFT, _BOTTOM, _RIGHT, _TOP)
        )
        look.heading(figure, title)
        said = _factor_words(factor)
        figure.text(0.01, 0.945, said, ha="left", va="top", fontsize=look.SMALL)
        _limits(axes, before, after)
        axes.grid(False)
        left = _plates(axes, plan, before) + _courses(axes, plan, before)
        _outlines(axes, before, after)
        reach = float(np.nanmax(after.radius))
        _named(axes, left, reach, "right")
        _named(axes, _stations(axes, plan, after, inches), reach, "left")
    return Picture("tank", title, f"{said} {_description(plan, inches)}", figure)


def enlargement(shown: Profile) -> int:
    """How many times too large movements are drawn: a round number, never below one."""
    moved = np.hypot(
        shown.radius_released - shown.radius_before, shown.height_released - shown.height_before
    )
    largest = float(np.max(moved[np.isfinite(moved)], initial=0.0))
    wanted = _SEEN * float(np.max(shown.radius_before)) / largest if largest > 0.0 else 1.0
    return max([factor for factor in _FACTORS if factor <= wanted], default=1)


def _factor_words(factor: int) -> str:
    drawn = "at true size" if factor == 1 else f"{factor} times too large"
    return f"Dashed: before. Unbroken: after release, its movement drawn {drawn}."


def _limits(axes: "Axes", before: _Outline, after: _Outline) -> None:
    """The same scale both ways, and room for words on both sides."""
    heights = np.concatenate([before.height, after.height])
    low, high = float(np.nanmin(heights)), float(np.nanmax(heights))
    reach = float(np.nanmax(np.concatenate([before.radius, after.radius])))
    wide = look.WIDTH - _LEFT - _RIGHT
    tall = _HEIGHT - _BOTTOM - _TOP
    size = max(1.06 * (high - low) / tall, 2.1 * reach / (wide - 2.0 * _WORDS))
    middle = 0.5 * (low + high)
    axes.set_ylim(middle - 0.5 * size * tall, middle + 0.5 * size * tall)
    axes.set_xlim(-0.5 * size * wide, 0.5 * size * wide)
    step = _round(reach)
    axes.set_xticks([-step, 0.0, step], [f"{step:.0f}", "0", f"{step:.0f}"])


def _round(value: float) -> float:
    """The largest of 1, 2, 3, 5 times a power of ten that is not above a value."""
    power = 10.0 ** np.floor(np.log10(value))
    return float(
        max(factor for factor in (1.0, 2.0, 3.0, 5.0) if factor * power <= value) * power
    )


def _outlines(axes: "Axes", before: _Outline, after: _Outline) -> None:
    for outline, stroke in ((before, look.TARGET), (after, look.LIKELY)):
        for side in (1.0, -1.0):
            look.line(axes, side * outline.radius, outline.height, stroke)


def _wall(outline: _Outline, heights: "Array") -> "Array":
    """Radius of an outline at heights of the shell."""
    order = np.argsort(outline.height, kind="stable")
    return np.asarray(np.interp(heights, outline.height[order], outline.radius[order]))


def _plates(axes: "Axes", plan: Plan, before: _Outline) -> list[_Named]:
    """Plates as built, cut through the axis; a row is named once."""
    names = []
    for plate in plan.job.tank.plates:
        heights = _MILLI * np.array(plate.heights)
        outer = _wall(before, heights) - _MILLI * float(plate.tab_clearance)
        ring = np.inf if plate.ring_width is None else _MILLI * float(plate.ring_width)
        inner = np.maximum(outer - ring, 0.0)
        for height, far, near in zip(heights, outer, inner, strict=True):
            for side in (1.0, -1.0):
                across, upward = np.array([side * near, side * far]), np.array([height, height])
                look.line(axes, across, upward, look.PLATE)
        count = len(heights)
        text = f"{short(plate.name)}\n{count} plate{'s' if count > 1 else ''}"
        names.append(_Named(-float(outer[0]), float(heights[0]), text))
    return names


def _courses(axes: "Axes", plan: Plan, before: _Outline) -> list[_Named]:
    """Round seams as dotted lines; name and wall of each course."""
    edges = [_MILLI * edge for edge in plan.job.tank.edges]
    for edge in edges:
        reach = float(_wall(before, np.array([edge]))[0])
        look.line(axes, np.array([-reach, reach]), np.array([edge, edge]), look.LIMIT)
    names = []
    for course, low, high in zip(plan.job.tank.courses, edges[:-1], edges[1:], strict=True):
        middle = np.array([0.5 * (low + high)])
        text = f"course {short(course.name)}\n{numbers.size(course.wall)} wall"
        names.append(_Named(-float(_wall(before, middle)[0]), float(middle[0]), text))
    return names


def _stations(axes: "Axes", plan: Plan, after: _Outline, inches: bool) -> list[_Named]:
    """Marks on the wall, and what the tape reads there before and after."""
    names = []
    for item in plan.stations:
        height = _MILLI * float(item.height)
        across = float(_wall(after, np.array([height]))[0])
        look.mark(axes, across, height)
        names.append(_Named(across, height, _station(item, inches)))
    return names


def _named(axes: "Axes", names: list[_Named], reach: float, side: look.Side) -> None:
    """Words in a column beside the tank, apart from each other, a thin lead to each place."""
    ordered = sorted(names, key=lambda item: item.height)
    low, high = axes.get_ylim()
    lines = max([item.text.count("\n") + 1 for item in ordered], default=1)
    step = (0.6 + 3.7 * lines) / (_HEIGHT - _BOTTOM - _TOP) * (high - low)
    wanted = [item.height for item in ordered]
    places = look.apart(wanted, step, low + 0.5 * step, high - 0.5 * step)
    column = 1.15 * reach if side == "left" else -1.15 * reach
    for item, upward in zip(ordered, places, strict=True):
        across, height = [item.across, column], [item.height, upward]
        axes.plot(across, height, color=look.SOFT, linewidth=0.6, zorder=2.0)
        shift = 2.0 if side == "left" else -2.0
        look.label(axes, (column, upward), item.text, (shift, 0.0), side)


def _station(item: StationPlan, inches: bool) -> str:
    before = numbers.circumference(item.circumference_before, inches)
    after = numbers.circumference(item.circumference_released.likely, inches)
    return f"{short(item.name)}\n{before}\nto {after}"


def _description(plan: Plan, inches: bool) -> str:
    found = []
    for item in plan.stations:
        before = numbers.circumference(item.circumference_before, inches)
        after = numbers.circumference(item.circumference_released.likely, inches)
        found.append(f"{item.name}: {before} before, {after} released")
    return f"Outside circumference, likely: {'; '.join(found)}."

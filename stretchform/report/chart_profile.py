"""The picture of growth along the shell: band, target, stations, plates, seams and heads."""

from typing import TYPE_CHECKING

import numpy as np

from stretchform.planning.plan import Plan, Profile
from stretchform.report import chart_look as look
from stretchform.report import words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.chart_picture import Picture
from stretchform.report.chart_sentences import sentences
from stretchform.report.words_page import NO_PROFILE

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from stretchform.si import Array

TITLE = "Growth along the shell"
_ACROSS = "growth of the outside circumference at the target, released, %"
_UPWARD = "height above the lower tangent line, mm"
_HEIGHT = 125.0  # millimetres of the sheet
_MILLI = 1e3
_INCH = 25.4
_LETTERS = 22  # of a name beside its place
_NAMED_COURSES = 12  # more seams than that stand too near each other for names


def profile(plan: Plan, inches: bool = False) -> Picture:
    """Growth along the shell as the plan forecasts it.

    It tells no pressure, so a withheld plan shows it too; a plan made course by course has none.
    """
    title = f"{TITLE} - {words_basis.job_name(plan)}"
    shown = plan.profile
    if shown is None:
        return sentences("profile", title, (NO_PROFILE,))
    with look.drawing("profile"):
        figure = look.sheet(height=_HEIGHT)
        axes = look.frame(figure, _ACROSS, _UPWARD, (22.0, 14.0, 50.0, 9.0))
        look.heading(figure, title)
        _limits(axes, plan, shown)
        if inches:
            _in_brackets(axes)
        _seams(axes, plan)
        _lines(axes, plan, shown)
        _plates(axes, plan)
        _target(axes, plan)
        _stations(axes, plan)
    return Picture("profile", title, _description(plan, shown), figure)


def short(name: str, letters: int = _LETTERS) -> str:
    """A name that fits beside its place."""
    return name if len(name) <= letters else name[: letters - 3] + "..."


def _limits(axes: "Axes", plan: Plan, shown: Profile) -> None:
    known = [_known(side) for side in _sides(plan, shown)]
    most = max(float(np.max(side, initial=0.5)) for side in known)
    least = min(float(np.min(side, initial=0.0)) for side in known)
    length = _MILLI * float(plan.job.tank.length)
    axes.set_xlim(1.1 * least, max(1.08 * most, 120.0 * float(plan.target_growth)))
    axes.set_ylim(-0.02 * length, 1.02 * length)


def _sides(plan: Plan, shown: Profile) -> "list[Array]":
    sides = [shown.released_likely, shown.under_pressure]
    if plan.job.model.spread:
        sides += [shown.released_low, shown.released_high]
    return [100.0 * side for side in sides]


def _known(side: "Array") -> "Array":
    return side[np.isfinite(side)]


def _in_brackets(axes: "Axes") -> None:
    """Inches below the millimetres of each height."""
    axes.yaxis.set_major_formatter(lambda value, _: f"{value:.0f}\n({value / _INCH:.0f} in)")


def _seams(axes: "Axes", plan: Plan) -> None:
    """A dotted line at each round seam, and the courses' names between them."""
    tank = plan.job.tank
    edges = [_MILLI * edge for edge in tank.edges]
    for edge in edges:
        look.level(axes, edge, look.LIMIT)
    if len(tank.courses) > _NAMED_COURSES:
        return
    left, right = axes.get_xlim()
    for course, low in zip(tank.courses, edges[:-1], strict=True):
        place = (left + 0.03 * (right - left), low)
        text = f"course {short(course.name)}"
        look.label(axes, place, text, (0.0, 4.0), colour=look.SOFT, upright="bottom")


def _lines(axes: "Axes", plan: Plan, shown: Profile) -> None:
    heights = _MILLI * shown.heights
    named = [
        (100.0 * shown.under_pressure, look.PRESSED, "likely, under pressure", True),
        (100.0 * shown.released_likely, look.LIKELY, "likely", False),
    ]
    if plan.job.model.spread:
        low, high = 100.0 * shown.released_low, 100.0 * shown.released_high
        edge = axes.get_xlim()[1]
        filled = [np.nan_to_num(side, nan=edge, posinf=edge) for side in (low, high)]
        look.band_upward(axes, heights, *filled)
        named += [(low, look.BOUND, "low", False), (high, look.BOUND, "high", True)]
    places = _free_heights(plan, len(named))
    for (side, stroke, text, right), upward in zip(named, places, strict=True):
        known = np.isfinite(side)
        if np.any(known):
            look.line(axes, side[known], heights[known], stroke)
            across = float(np.interp(upward, heights[known], side[known]))
            shift = 5.0 if right else -5.0
            align: look.Side = "left" if right else "right"
            look.label(axes, (across, upward), text, (shift, 0.0), align, stroke.colour)


def _free_heights(plan: Plan, count: int) -> list[float]:
    """Heights for names, millimetres, as far as can be from stations, seams and each other."""
    tank = plan.job.tank
    taken = [_MILLI * float(item.height) for item in plan.stations]
    taken += [_MILLI * edge for edge in tank.edges]
    candidates = _MILLI * float(tank.length) * np.linspace(0.2, 0.85, 60)
    found: list[float] = []
    for _ in range(count):
        distance = np.min(np.abs(candidates[:, None] - np.array(taken + found)), axis=1)
        found.append(float(candidates[int(np.argmax(distance))]))
    return found


def _plates(axes: "Axes", plan: Plan) -> None:
    """Plates as short bars from the left edge; each row is named once, beside its lowest."""
    left, right = axes.get_xlim()
    end = left + 0.025 * (right - left)
    named: set[str] = set()
    for plate in plan.plates:
        upward = _MILLI * float(plate.height)
        look.line(axes, np.array([left, end]), np.array([upward, upward]), look.PLATE)
        if plate.name not in named:
            named.add(plate.name)
            count = sum(other.name == plate.name for other in plan.plates)
            text = f"{short(plate.name)}: {count} plate{'s' if count > 1 else ''}"
            look.label(axes, (end, upward), text, (4.0, 0.0))


def _target(axes: "Axes", plan: Plan) -> None:
    target = plan.job.target
    if target.under_pressure:
        return
    across = 100.0 * float(plan.target_growth)
    look.upright(axes, across, look.TARGET)
    where = "largest" if target.station == "largest" else short(target.station)
    text = f"target {across:.2f} %, at: {where}"
    place = (across, axes.get_ylim()[0])
    look.label(axes, place, text, (-4.0, 6.0), "right", upright="bottom")


def _stations(axes: "Axes", plan: Plan) -> None:
    """A diamond on the likely line, the name and its growth at the right edge."""
    ends = []
    for station in plan.stations:
        across = 100.0 * float(station.growth_released.likely)
        if not np.isfinite(across):
            continue
        upward = _MILLI * float(station.height)
        look.mark(axes, across, upward)
        text = f"{short(station.name)}\n{numbers.percent(station.growth_released.likely)}"
        ends.append((across, upward, text, look.TARGET))
    look.end_labels(axes, ends, 7.2)


def _description(plan: Plan, shown: Profile) -> str:
    likely = _known(shown.released_likely)
    if not likely.size:
        return "No tank of the forecast reaches the target."
    at = ", ".join(
        f"{station.name} {numbers.percent(station.growth_released.likely)}"
        for station in plan.stations
    )
    return (
        f"Released growth along the shell, likely: from {numbers.percent(float(np.min(likely)))} "
        f"at its least to {numbers.percent(float(np.max(likely)))} at its most; the heads hold the "
        f"wall back near both ends. At the stations: {at}."
    )

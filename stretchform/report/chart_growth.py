"""The picture of pressure against growth: band, target, forming pressure and maximum pressure."""

from typing import TYPE_CHECKING

import numpy as np

from stretchform.planning.plan import Band, Plan
from stretchform.report import chart_look as look
from stretchform.report import words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.chart_picture import Picture
from stretchform.report.chart_sentences import sentences, withheld

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from stretchform.si import Array

TITLE = "Pressure against growth"
_ACROSS = "growth of the outside circumference, released, where it is largest, %"
_MEGA = 1e6
_SECOND = {False: ("bar", 1e5), True: ("psi", 6894.757293168)}


def growth(plan: Plan, inches: bool = False) -> Picture:
    """Growth for every pressure, from the plan's own curve.

    A withheld plan gives a sheet that says so and shows no pressure.
    """
    title = f"{TITLE} - {words_basis.job_name(plan)}"
    if plan.withheld_by:
        return sentences("growth", title, withheld(plan))
    with look.drawing("growth"):
        figure = look.sheet()
        axes = look.frame(
            figure,
            _ACROSS,
            "gauge pressure at the top of the tank, MPa",
            (17.0, 14.0, 17.0, 9.0),
        )
        look.heading(figure, title)
        _limits(axes, plan)
        _second_axis(axes, inches)
        _maximum(axes, plan)
        _curves(axes, plan)
        _target(axes, plan)
    return Picture("growth", title, _description(plan, inches), figure)


def _limits(axes: "Axes", plan: Plan) -> None:
    likely = 100.0 * plan.growth.released_likely
    reached = likely[np.isfinite(likely)]
    wanted, _ = _wanted(plan)
    axes.set_xlim(0.0, max(float(np.max(reached, initial=1.0)), 2.0 * wanted) * 1.04)
    axes.set_ylim(0.0, 1.12 * _top(plan) / _MEGA)


def _top(plan: Plan) -> float:
    ends = [plan.maximum_pressure.high, plan.forming_pressure.high]
    known = [end for end in ends if np.isfinite(end)]
    return max(known, default=float(plan.growth.pressure[-1]))


def _wanted(plan: Plan) -> tuple[float, str]:
    """Released growth, per cent, at which the forming pressure stands, and its word.

    A target that is not this growth itself is shown by the growth that goes with it.
    """
    target = plan.job.target
    if target.station == "largest" and not target.under_pressure:
        return 100.0 * float(plan.target_growth), "target"
    values = [100.0 * station.growth_released.likely for station in plan.stations]
    known = [value for value in values if np.isfinite(value)]
    return max(known, default=0.0), "largest growth at the target"


def _second_axis(axes: "Axes", inches: bool) -> None:
    unit, size = _SECOND[inches]
    factor = _MEGA / size
    second = axes.secondary_yaxis(
        "right", functions=(lambda y: np.multiply(y, factor), lambda y: np.divide(y, factor))
    )
    second.set_ylabel(unit)
    second.tick_params(labelsize=look.SMALL, length=3.0)


def _curves(axes: "Axes", plan: Plan) -> None:
    """Growth is the plan's, at its pressures; where a draw has burst, the line ends."""
    curve, edge = plan.growth, axes.get_xlim()[1]
    pressure = curve.pressure / _MEGA
    known = np.isfinite(curve.released_likely)
    look.line(axes, 100.0 * curve.released_likely[known], pressure[known], look.LIKELY)
    _name(axes, pressure, 100.0 * curve.released_likely, 0.36, "likely", (6.0, -4.0))
    if not plan.job.model.spread:
        return
    low, high = (
        np.minimum(np.nan_to_num(100.0 * side, nan=edge, posinf=edge), edge)
        for side in (curve.released_low, curve.released_high)
    )
    look.band_upward(axes, pressure, low, high)
    for side in (curve.released_low, curve.released_high):
        known = np.isfinite(side)
        look.line(axes, 100.0 * side[known], pressure[known], look.BOUND)
    _name(axes, pressure, 100.0 * curve.released_low, 0.40, "low growth (5 %)", (-5.0, 5.0))
    _name(axes, pressure, 100.0 * curve.released_high, 0.50, "high growth (95 %)", (8.0, -6.0))


def _name(
    axes: "Axes",
    pressure: "Array",
    side: "Array",
    share: float,
    text: str,
    shift: tuple[float, float],
) -> None:
    """A name beside a line, at a share of the width or where the line ends before it."""
    known = np.isfinite(side)
    if not np.any(known):
        return
    across = min(share * axes.get_xlim()[1], 0.9 * float(side[known][-1]))
    upward = float(np.interp(across, side[known], pressure[known]))
    above = shift[1] > 0.0
    look.label(
        axes,
        (across, upward),
        text,
        shift,
        "right" if above else "left",
        look.LIKELY.colour,
        "bottom" if above else "top",
    )


def _maximum(axes: "Axes", plan: Plan) -> None:
    known = plan.maximum_pressure
    if not np.isfinite(known.likely):
        return
    look.band_level(axes, known.low / _MEGA, known.high / _MEGA, look.DANGER_BAND)
    look.level(axes, known.likely / _MEGA, look.MAXIMUM)
    word = "maximum pressure" if plan.maximum_within_curve else "maximum pressure, at least"
    text = f"{word} {_band(known)}: beyond it the tank bursts"
    place = (axes.get_xlim()[1], known.high / _MEGA)
    look.label(axes, place, text, (-2.0, 3.0), "right", look.MAXIMUM.colour, "bottom")


def _target(axes: "Axes", plan: Plan) -> None:
    """The growth that is wanted, and the forming pressure with its spread on it."""
    (across, word), pressure = _wanted(plan), plan.forming_pressure
    if across <= 0.0 or not np.isfinite(pressure.likely):
        return
    top = axes.get_ylim()[1]
    look.upright(axes, across, look.TARGET)
    ends = (pressure.low / _MEGA, pressure.likely / _MEGA, pressure.high / _MEGA)
    look.span(axes, across, *ends)
    place = (across, 0.30 * top)
    look.label(axes, place, f"{word}: {across:.2f} %", (5.0, 0.0))
    look.label(axes, (across, 0.22 * top), f"forming pressure {_band(pressure)}", (5.0, 0.0))


def _band(band: Band) -> str:
    low, likely, high = (value / _MEGA for value in (band.low, band.likely, band.high))
    spread = "" if low == high else f" ({low:.2f} to {high:.2f})"
    return f"{likely:.2f} MPa{spread}"


def _description(plan: Plan, inches: bool) -> str:
    forming, most = plan.forming_pressure, plan.maximum_pressure
    return (
        f"Growth rises ever faster with pressure. For {_wanted(plan)[0]:.2f} % released growth the "
        f"forming pressure is {numbers.pressure(forming.likely, inches)}, between "
        f"{numbers.pressure(forming.low, inches)} and {numbers.pressure(forming.high, inches)}. "
        f"The maximum pressure is {numbers.pressure(most.likely, inches)}, between "
        f"{numbers.pressure(most.low, inches)} and {numbers.pressure(most.high, inches)}."
    )

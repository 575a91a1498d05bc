"""The pressure steps, from the low side: each is small for nearly every draw still below target.

Up to the earliest first yield the steps are quarters of it; above, each step lets at most half a
point of growth happen in 95 of 100 draws that have not reached the target yet. What each step
brings stands in `stepping`.
"""

import numpy as np

from stretchform.forming import membrane
from stretchform.planning import outcome
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job
from stretchform.planning.places import Kind
from stretchform.planning.plan import Band
from stretchform.si import Array, Flags, Growth, Pascal, Ratio, Strain

_PROOF: Strain = 0.002  # plastic strain that counts as first yield
_SHARE: Ratio = 0.95
_BELOW_VALVE = 0.97  # judged: a valve weeps early and a gauge reads a little wrong
_LEAST = 1.002  # rise of a step: it never stands still where the wall runs away


def first_yield(forecast: Forecast) -> Array:
    """Pressure at which the first course reaches 0.2 % plastic strain, for each draw.

    Source: own-derivation, membrane.pressure at the proof strain.
    Checked: tests/unit/test_schedule.py (below the target pressure of every draw).
    """
    edges = [
        (point.course, head)
        for point, head in zip(forecast.points, forecast.heads_of_water, strict=True)
        if point.kind is Kind.LARGEST
    ]
    rows = []
    for course, head in edges:
        wall = forecast.walls[course]
        local = membrane.pressure(
            wall.radius, wall.wall, np.float64(_PROOF), wall.curve, wall.state, wall.elastic
        )
        rows.append(np.ravel(local) - head)
    lowest: Array = np.min(np.stack(rows), axis=0)
    return lowest


def pressures(
    job: Job, forecast: Forecast, forming: Band, target: Growth, step: Growth
) -> Array:
    """Pressures of all steps, rising: quarters to the earliest yield, then small growths.

    `target`: released growth where the target is meant; `step`: largest growth of one step
    anywhere, as a fraction. The last step is `end_of_steps`.

    Source: own-derivation, rule in the head of this module.
    Checked: tests/unit/test_schedule.py (no step grows more than allowed).
    """
    end = float(end_of_steps(job, forecast, forming))
    start = min(outcome.band(first_yield(forecast)).low, forming.low, end)
    found: list[float] = [0.25 * start, 0.5 * start, 0.75 * start, start]
    meant = _endless(outcome.at_target(job, forecast, forecast.growth_released))
    growth = _endless(outcome.largest(forecast.growth_released))
    while found[-1] < end:
        below = _at(forecast.pressures, meant, found[-1]) < target
        found.append(_next(forecast.pressures, growth, found[-1], end, below, step))
    return np.array(found)


def end_of_steps(job: Job, forecast: Forecast, forming: Band) -> Pascal:
    """Highest pressure that is ever set: the high forming pressure, or what stands below it.

    The steps stay a little below the relief valve's setting and do not pass the low maximum
    pressure: a tank that is not at its target there is released and planned again with its
    readings.

    Source: own-derivation, limits of the means and of the weakest tank.
    Checked: tests/unit/test_schedule.py (valve and low maximum end the steps).
    """
    limits = [forming.high, outcome.band(forecast.maximum_pressure).low]
    if job.supply.relief_pressure is not None:
        limits.append(_BELOW_VALVE * float(job.supply.relief_pressure))
    return min(limits)


def _endless(growth: Array) -> Array:
    return np.where(np.isnan(growth), np.inf, growth)


def _next(
    levels: Array, growth: Array, pressure: Pascal, end: Pascal, below: Flags, step: Growth
) -> float:
    now = _at(levels, growth, float(pressure))
    below = below & np.isfinite(now)
    if not np.any(below):
        return float(end)
    low, high = float(pressure), float(end)
    if _jump(levels, growth, high, now, below) <= step:
        return high
    for _ in range(30):
        middle = 0.5 * (low + high)
        if _jump(levels, growth, middle, now, below) <= step:
            low = middle
        else:
            high = middle
    return min(max(low, float(pressure) * _LEAST), float(end))


def _jump(levels: Array, growth: Array, pressure: float, now: Array, below: Flags) -> float:
    then = _at(levels, growth[below], pressure)
    return float(np.sort(then - now[below])[int(_SHARE * (np.sum(below) - 1))])


def _at(levels: Array, growth: Array, pressure: float) -> Array:
    """Growth of every draw at one pressure, straight between the forecast's even levels."""
    place = (pressure - levels[0]) / (levels[1] - levels[0])
    below = int(np.clip(place, 0, len(levels) - 2))
    part = float(np.clip(place - below, 0.0, 1.0))
    with np.errstate(invalid="ignore"):
        value = growth[:, below] * (1.0 - part) + growth[:, below + 1] * part
    return np.where(np.isnan(value), np.inf, value)

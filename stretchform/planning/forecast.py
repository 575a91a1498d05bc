"""The forecast: how far the tank grows at each pressure, for every draw of what is not known.

A tank is followed as a whole, with its heads, unless the quick closed form is asked for. There
each course follows its own closed form at the common pressure plus the water that stands above
it, and the ends do not hold the wall back: near a head the real growth is smaller.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.forming import thick
from stretchform.planning import course, target, walls, whole
from stretchform.planning.course import Course
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.places import Kind, Point, points_of, target_points, water_above
from stretchform.planning.sample import Draws, draw
from stretchform.planning.walls import Wall
from stretchform.si import Array, Growth, Pascal

LEVELS = 49  # pressures at which every draw is evaluated


@dataclass(frozen=True, slots=True)
class Forecast:
    """Growth at each pressure for each draw; NaN where a draw has no answer.

    N draws, M pressures, P points. Pressures are gauge pressures at the top of the tank.
    """

    draws: Draws
    weights: Array  # (N,), sum 1
    points: tuple[Point, ...]
    pressures: Array  # (M,)
    growth_under_pressure: Array  # (N, M, P), outside circumference
    growth_released: Array  # (N, M, P)
    maximum_pressure: Array  # (N,), of the first course to reach its own
    maximum_reached: Array  # (N,), False: the curve ends before the maximum
    growth_at_maximum: Array  # (N,), largest released growth there
    target_pressure: Array  # (N,)
    heads_of_water: Array  # (P,), pressure of the water above each point
    walls: tuple[Wall, ...]
    whole: Course | None  # None: the closed form


def forecast(job: Job, judged: Judged, quick: bool = False) -> Forecast:
    """Sample the unknowns and follow every draw through all pressures; quick: closed form.

    Source: own-derivation, the whole tank, or the closed form of each course.
    Checked: tests/unit/test_forecast.py (quantiles, medians, draws without an answer).
    Raises NoSolution for a target that is no growth from 0 to 20 %.
    """
    draws = draw(job, judged)
    every = walls.walls_of(job, draws)
    wanted = target.growths(job, every, judged.gained.likely.value)
    if quick or not thin_enough(job):
        return _closed(job, draws, every, wanted)
    return _whole(job, draws, every, wanted)


def thin_enough(job: Job) -> bool:
    """Whether every wall is thin enough for the shell of the whole tank.

    Source: own-derivation, radius over wall of 10, as for the closed form.
    Checked: tests/unit/test_forecast.py (both sides of the limit).
    """
    return all(float(item.radius / item.wall) >= thick.THIN_FROM for item in job.tank.courses)


def growth_at(made: Forecast, pressure: Pascal) -> tuple[Array, Array]:
    """Growth under pressure and released at pressures (M,) or (N, M): (N, M, P) each.

    NaN in a burst draw.

    Source: own-derivation, course.growth_at, or walls.growth_at_pressure at each point.
    Checked: tests/unit/test_outcome.py (equals the forecast's own levels).
    """
    wanted = np.atleast_1d(np.asarray(pressure, dtype=np.float64))
    if made.whole is not None:
        return course.growth_at(made.whole, wanted)
    return _closed_growth(
        made.walls, made.points, made.heads_of_water, wanted, made.maximum_pressure
    )


def _whole(job: Job, draws: Draws, every: tuple[Wall, ...], wanted: Array) -> Forecast:
    loaded = _near_target(job, every, wanted)
    points = points_of(job, whole.largest_heights(job, draws, loaded))
    found = whole.course_of_forming(job, draws, every, points, loaded)
    rows = np.arange(draws.count)
    most = [index for index, point in enumerate(points) if point.kind is Kind.LARGEST]
    maximum = found.pressure[rows, found.peak]
    under = job.target.under_pressure
    reached = []
    for index in target_points(job, points):
        at = points[index].course
        true = target.true_growth(job, draws, at, float(wanted[at]))
        reached.append(course.pressure_at(found, np.ravel(true), index, under))
    target_pressure: Array = np.fmin.reduce(np.stack(reached))
    pressures = _levels(target_pressure, maximum)
    growth, released = course.growth_at(found, pressures)
    return Forecast(
        draws=draws,
        weights=np.full(draws.count, 1.0 / draws.count),
        points=points,
        pressures=pressures,
        growth_under_pressure=growth,
        growth_released=released,
        maximum_pressure=maximum,
        maximum_reached=found.reached,
        growth_at_maximum=np.max(found.released[rows, found.peak][:, most], axis=-1),
        target_pressure=target_pressure,
        heads_of_water=water_above(job, points),
        walls=every,
        whole=found,
    )


def _near_target(job: Job, every: tuple[Wall, ...], wanted: Array) -> Growth:
    """Largest mid-wall growth under pressure near the target, from the likely closed form."""
    found = []
    for wall, growth in zip(every, wanted, strict=True):
        if np.isnan(growth):  # a course that a named station omits
            continue
        strain = walls.strain_at_outside(wall, float(growth), job.target.under_pressure)
        loaded = walls.mid_growth(wall, strain)
        found.append(float(np.median(loaded)))
    return max(found) if job.target.station != "largest" else min(found)


def _closed(job: Job, draws: Draws, every: tuple[Wall, ...], wanted: Array) -> Forecast:
    points = points_of(job)
    above = water_above(job, points)
    maximum, reached, at_maximum = _maximum(every, points, above)
    target_pressure = _target_pressure(job, draws, every, points, above, wanted)
    target_pressure = np.where(target_pressure > maximum, np.nan, target_pressure)
    pressures = _levels(target_pressure, maximum)
    loaded, released = _closed_growth(every, points, above, pressures, maximum)
    return Forecast(
        draws=draws,
        weights=np.full(draws.count, 1.0 / draws.count),
        points=points,
        pressures=pressures,
        growth_under_pressure=loaded,
        growth_released=released,
        maximum_pressure=maximum,
        maximum_reached=reached,
        growth_at_maximum=at_maximum,
        target_pressure=target_pressure,
        heads_of_water=above,
        walls=every,
        whole=None,
    )


def _edges(points: tuple[Point, ...], above: Array) -> Array:
    """Pressure of the water at the lower edge of every course."""
    return np.array(
        [head for point, head in zip(points, above, strict=True) if point.kind is Kind.LARGEST]
    )


def _maximum(
    courses: tuple[Wall, ...], points: tuple[Point, ...], above: Array
) -> tuple[Array, Array, Array]:
    edges = _edges(points, above)
    tops = np.stack(
        [np.ravel(wall.top.pressure) - head for wall, head in zip(courses, edges, strict=True)],
        axis=-1,
    )
    growths = np.stack(
        [
            np.ravel(walls.outside_growth(wall, wall.top.strain, under_pressure=False))
            for wall in courses
        ],
        axis=-1,
    )
    reached = np.stack([np.ravel(wall.top.reached) for wall in courses], axis=-1)
    first = np.argmin(tops, axis=-1)[:, None]

    def of_first(values: Array) -> Array:
        return np.take_along_axis(values, first, axis=-1)[:, 0]

    return of_first(tops), of_first(reached), of_first(growths)


def _target_pressure(
    job: Job,
    draws: Draws,
    every: tuple[Wall, ...],
    points: tuple[Point, ...],
    above: Array,
    wanted: Array,
) -> Array:
    rows = []
    for index in target_points(job, points):
        at = points[index].course
        true = target.true_growth(job, draws, at, float(wanted[at]))
        local = walls.pressure_at_outside(every[at], true, job.target.under_pressure)
        rows.append(np.ravel(local) - above[index])
    lowest: Array = np.fmin.reduce(np.stack(rows))  # NaN where no course has an answer
    return lowest


def _levels(wanted: Array, maximum: Array) -> Array:
    """Pressures from a fifth of the earliest possible target to past the latest."""
    filled = np.where(np.isnan(wanted), maximum, wanted)
    return np.linspace(0.2 * float(np.min(filled)), 1.15 * float(np.max(filled)), LEVELS)


def _closed_growth(
    every: tuple[Wall, ...],
    points: tuple[Point, ...],
    above: Array,
    pressures: Array,
    maximum: Array,
) -> tuple[Array, Array]:
    burst = pressures > maximum[:, None]
    loaded, released = [], []
    for point, head in zip(points, above, strict=True):
        pair = walls.growth_at_pressure(every[point.course], pressures + head)
        loaded.append(np.where(burst, np.nan, pair[0]))
        released.append(np.where(burst, np.nan, pair[1]))
    return np.stack(loaded, axis=-1), np.stack(released, axis=-1)

"""The forecast: how far the tank grows at each pressure, for every draw of what is not known.

Each course follows its own closed form at the common pressure plus the water that stands above
it. The ends do not hold the wall back in this form: near a head the growth is smaller.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.planning import size, target, walls
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.sample import Draws, draw
from stretchform.planning.tank import Attitude
from stretchform.planning.walls import Wall
from stretchform.si import STANDARD_GRAVITY, Array, Metre
from stretchform.water import properties

LEVELS = 49  # pressures at which every draw is evaluated


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the shell where growth is forecast."""

    name: str
    height: Metre  # above the lower tangent line
    course: int
    station: bool  # False: the lower edge of a course, where its growth is largest


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


def points_of(job: Job) -> tuple[Point, ...]:
    """All stations, then the lower edge of every course.

    Source: own-derivation, the water's weight makes the lower edge of a course grow most.
    Checked: tests/unit/test_forecast.py (order and heights).
    """
    names = [course.name for course in job.tank.courses]
    stations = [
        Point(station.name, station.height, names.index(station.course), True)
        for station in job.tank.stations
    ]
    edges = [
        Point(name, height, index, False)
        for index, (name, height) in enumerate(zip(names, job.tank.edges, strict=False))
    ]
    return (*stations, *edges)


def water_above(job: Job, points: tuple[Point, ...]) -> Array:
    """Pressure of the water between the top of the tank and each point, (points,).

        rho g (top − height); a lying tank counts its whole diameter everywhere

    Source: own-derivation, hydrostatics.
    Checked: tests/unit/test_forecast.py (9.79 kPa a metre at 20 °C).
    """
    heights = np.array([float(point.height) for point in points])
    weight = properties.density(job.water.temperature, 0.0) * STANDARD_GRAVITY
    if job.tank.attitude is Attitude.LYING:
        depth = 2.0 * max(float(course.radius) for course in job.tank.courses)
        return np.full(len(points), depth * weight)
    return np.asarray((size.top_height(job.tank) - heights) * weight)


def target_points(job: Job, points: tuple[Point, ...]) -> list[int]:
    """Places that the target speaks of: the lower edges of all courses, or the named station.

    Source: own-derivation, the target's own definition.
    Checked: tests/unit/test_forecast.py (largest and named).
    """
    if job.target.station == "largest":
        return [index for index, point in enumerate(points) if not point.station]
    names = [point.name if point.station else "" for point in points]
    return [names.index(job.target.station)]


def forecast(job: Job, judged: Judged) -> Forecast:
    """Sample the unknowns and follow every draw through all pressures.

    Source: own-derivation, the closed form of each course at the common pressure.
    Checked: tests/unit/test_forecast.py (quantiles, medians, draws without an answer).
    Raises NoSolution for a target that is no growth from 0 to 20 %.
    """
    draws = draw(job, judged)
    courses = walls.walls_of(job, draws)
    points = points_of(job)
    above = water_above(job, points)
    maximum, reached, at_maximum = _maximum(courses, points, above)
    wanted = _target_pressure(job, judged, courses, points, above)
    wanted = np.where(wanted > maximum, np.nan, wanted)
    pressures = _levels(wanted, maximum)
    loaded, released = _growth(courses, points, above, pressures, maximum)
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
        target_pressure=wanted,
        heads_of_water=above,
        walls=courses,
    )


def _edges(points: tuple[Point, ...], above: Array) -> Array:
    """Pressure of the water at the lower edge of every course."""
    return np.array(
        [head for point, head in zip(points, above, strict=True) if not point.station]
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
    job: Job, judged: Judged, courses: tuple[Wall, ...], points: tuple[Point, ...], above: Array
) -> Array:
    growths = target.growths(job, courses, judged.gained.likely.value)
    under = job.target.under_pressure
    rows = []
    for index in target_points(job, points):
        course = points[index].course
        local = walls.pressure_at_outside(courses[course], growths[course], under)
        rows.append(np.ravel(local) - above[index])
    lowest: Array = np.fmin.reduce(np.stack(rows))  # NaN where no course has an answer
    return lowest


def _levels(wanted: Array, maximum: Array) -> Array:
    """Pressures from a fifth of the earliest possible target to past the latest."""
    filled = np.where(np.isnan(wanted), maximum, wanted)
    return np.linspace(0.2 * float(np.min(filled)), 1.15 * float(np.max(filled)), LEVELS)


def _growth(
    courses: tuple[Wall, ...],
    points: tuple[Point, ...],
    above: Array,
    pressures: Array,
    maximum: Array,
) -> tuple[Array, Array]:
    burst = pressures[None, :] > maximum[:, None]
    loaded, released = [], []
    for point, head in zip(points, above, strict=True):
        pair = walls.growth_at_pressure(courses[point.course], pressures[None, :] + head)
        loaded.append(np.where(burst, np.nan, pair[0]))
        released.append(np.where(burst, np.nan, pair[1]))
    return np.stack(loaded, axis=-1), np.stack(released, axis=-1)

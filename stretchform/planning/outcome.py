"""What the tank becomes: bands over the draws at the target and at any pressure."""

import numpy as np

from stretchform.forming import membrane
from stretchform.planning import walls
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.places import Point, target_points
from stretchform.planning.plan import Band, StationPlan
from stretchform.planning.tank import Course
from stretchform.si import Array, Metre, Pascal

NEAR_HEAD = 1.2  # radii from a tangent line within which the ends hold the wall back


def band(values: Array) -> Band:
    """5, 50 and 95 % of values over the draws; NaN counts as endless, so nothing is dropped.

    Source: own-derivation, the project's meaning of low, likely and high.
    Checked: tests/unit/test_outcome.py (known quantiles, draws without an answer).
    """
    filled = np.sort(np.where(np.isnan(values), np.inf, values), axis=0)
    low, likely, high = (float(_quantile(filled, share)) for share in (0.05, 0.5, 0.95))
    return Band(low, likely, high)


def _quantile(ordered: Array, share: float) -> float:
    """Linear between neighbours; an endless neighbour is not mixed in where its share is 0."""
    place = share * (len(ordered) - 1)
    below = int(place)
    part = place - below
    if part == 0.0:
        return float(ordered[below])
    return float(ordered[below] * (1.0 - part) + ordered[below + 1] * part)


def forming_band(forecast: Forecast) -> Band:
    """Low, likely and high forming pressure; a draw without an answer counts as its maximum.

    Source: own-derivation, no pressure above its maximum ever stands in such a tank.
    Checked: tests/unit/test_outcome.py (draws without an answer).
    """
    wanted = forecast.target_pressure
    return band(np.where(np.isnan(wanted), forecast.maximum_pressure, wanted))


def largest(values: Array) -> Array:
    """Largest growth over the points, (N, M); NaN in a burst draw.

    Source: own-derivation, definition.
    Checked: tests/unit/test_outcome.py (known values).
    """
    return np.asarray(np.max(values, axis=-1))


def at_target(job: Job, forecast: Forecast, values: Array) -> Array:
    """Growth where the target is meant, (N, M): the largest, or that of the named station.

    Source: own-derivation, forecast.target_points.
    Checked: tests/unit/test_outcome.py (largest and named).
    """
    return largest(values[..., target_points(job, forecast.points)])


def near_head(job: Job, height: Metre, course: Course) -> bool:
    """Whether a height lies within 1.2 radii of either tangent line.

    Source: own-derivation, 90 % of the growth is reached 0.6 to 1.1 radii from a head.
    Checked: tests/unit/test_outcome.py (both sides of the limit).
    """
    room = NEAR_HEAD * float(course.radius)
    return bool(height < room or height > float(job.tank.length) - room)


def stations(
    job: Job, forecast: Forecast, pressure: Pascal | None = None
) -> tuple[StationPlan, ...]:
    """Every station when the target is reached, each draw at its own target pressure.

    With a `pressure` every draw is taken there instead, wherever its growth then stands.

    Source: own-derivation, the forecast at the target.
    Checked: tests/unit/test_outcome.py (target station ends on the target).
    """
    at = forecast.target_pressure
    if pressure is not None:
        at = np.full(forecast.draws.count, pressure)
    loaded, released = growth_at(forecast, at[:, None])
    return tuple(
        _station(job, forecast, point, loaded[:, 0, index], released[:, 0, index])
        for index, point in enumerate(forecast.points)
        if point.station
    )


def _station(
    job: Job, forecast: Forecast, point: Point, loaded: Array, released: Array
) -> StationPlan:
    course, wall = job.tank.courses[point.course], forecast.walls[point.course]
    kept = np.maximum(released, 0.0)[:, None]
    strain = walls.strain_at_outside(wall, kept, under_pressure=False)
    grown = membrane.grown(wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic)
    before = float(course.circumference)
    strength = np.asarray(wall.test_rate_curve.stress(strain)) * forecast.draws.gained[:, None]
    return StationPlan(
        name=point.name,
        height=point.height,
        course=course.name,
        circumference_before=before,
        wall_before=course.wall,
        growth_under_pressure=band_of_answers(loaded),
        circumference_under_pressure=band_of_answers(before * (1.0 + loaded)),
        wall_under_pressure=_middle(grown.wall_under_pressure),
        growth_released=band_of_answers(released),
        circumference_released=band_of_answers(before * (1.0 + released)),
        wall_released=_middle(grown.wall_released),
        yield_before=course.steel.proof_02,
        gained_yield=band_of_answers(strength),
        near_head=forecast.whole is None and near_head(job, point.height, course),
    )


def band_of_answers(values: Array) -> Band:
    """Band over the draws that reach the target; the others are counted by `no_answer`.

    Source: own-derivation, `band` without the draws that have no answer.
    Checked: tests/unit/test_outcome.py (draws without an answer).
    """
    flat = np.ravel(values)
    return band(flat[~np.isnan(flat)]) if np.any(~np.isnan(flat)) else band(flat)


def _middle(values: Metre) -> Metre:
    """Median over the draws that reach the target; NaN where none does."""
    flat = np.ravel(np.asarray(values))
    return float(np.median(flat[~np.isnan(flat)])) if np.any(~np.isnan(flat)) else np.nan

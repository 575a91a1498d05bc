"""Which unknown makes how much of the spread, and what one more measurement would leave of it.

A parabola in each unknown is fitted to the draws, all of them together; the variance of its
values over the variance of the result is the share of that unknown. What unknowns do only
together is left over, so the shares add up to about one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from stretchform.planning import outcome
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.plan import Band, Driver, Information
from stretchform.planning.tank import Course
from stretchform.si import Array, Number, Ratio
from stretchform.steel.grade import Basis

CURVE, SLOPE, WALL = "strength of the curve", "slope of the curve", "wall"
RULE, RATE, SPRINGBACK = "yield rule", "rate", "springback"
DIAMETER, WARMTH, GAUGE, TAPE = "diameter", "water temperature", "gauge", "tape"
BOUND = "what the trial left"  # strength, slope and yield rule, bound to each other
PLANNED, COUPON, MAP, TRIAL = "as planned", "coupon", "wall map", "trial cylinder"


@dataclass(frozen=True, slots=True)
class _Unknown:
    name: str
    courses: tuple[str, ...]
    values: Array  # (N,)


def drivers(job: Job, made: Forecast, forming: Band) -> tuple[Driver, ...]:
    """Every unknown with its share of the variance, the largest of the pressure first.

    Pressure is that at the target (a draw without an answer counts as its maximum), growth the
    largest at the likely pressure (a burst draw counts as its growth at the maximum).

    Source: own-derivation, first-order shares from a regression on the draws.
    Checked: tests/verification/test_drivers.py (pick-and-freeze estimate, own closed form).
    """
    unknowns = list(_unknowns(job, made))
    columns = np.stack([item.values for item in unknowns], axis=1)
    keys = list(dict.fromkeys((item.name, item.courses) for item in unknowns))
    groups = [keys.index((item.name, item.courses)) for item in unknowns]
    of_pressure = shares(columns, _pressure(made), groups)
    of_growth = shares(columns, _growth(made, forming), groups)
    found = [
        Driver(name, courses, float(first), float(second))
        for (name, courses), first, second in zip(keys, of_pressure, of_growth, strict=True)
    ]
    return tuple(sorted(found, key=lambda driver: -driver.of_pressure))


def shares(columns: Array, result: Array, groups: Sequence[int] | None = None) -> Array:
    """Share of each column, (N, K), in the variance of a result, (N,); zero where it is still.

        var(sum of a x + b x² over a group) / var(y), all a and b fitted together

    `groups` numbers the columns from zero: those of one number count together, as columns that
    are bound to each other must; without it each stands for itself.

    Source: own-derivation, least squares on centred columns.
    Checked: tests/unit/test_drivers_shares.py (known shares of sums, squares and nothing).
    """
    spread = np.std(columns, axis=0)
    whole = float(np.var(result))
    alive = spread > 0.0
    numbers = np.arange(columns.shape[1]) if groups is None else np.asarray(groups)
    found = np.zeros(int(np.max(numbers)) + 1)
    if whole == 0.0 or not np.any(alive):
        return found
    x = (columns[:, alive] - np.mean(columns[:, alive], axis=0)) / spread[alive]
    bent = x**2 - np.mean(x**2, axis=0)
    terms = np.concatenate([x, bent], axis=1)
    factors = np.linalg.lstsq(terms, result - np.mean(result), rcond=None)[0]
    count = x.shape[1]
    parts = x * factors[:count] + bent * factors[count:]
    for number in np.unique(numbers[alive]):
        together = np.sum(parts[:, numbers[alive] == number], axis=1)
        found[number] = np.var(together) / whole
    return found


def information(
    job: Job, judged: Judged, made: Forecast, forming: Band, found: tuple[Driver, ...]
) -> tuple[Information, ...]:
    """Half of low to high as planned, and with one unknown after another measured.

        half = h sqrt(1 − sum share_i (1 − k_i²)), k: new over old half-width of the unknown

    Source: own-derivation, variances of independent unknowns add up.
    Checked: tests/verification/test_drivers.py (against a forecast with the smaller spread).
    """
    growth = outcome.band(_growth(made, forming))
    half_pressure = 0.5 * (forming.high - forming.low) / forming.likely
    half_growth = 0.5 * (growth.high - growth.low)
    rows = [Information(PLANNED, half_pressure, half_growth)]
    for name, left in _measured(job, judged):
        gone_pressure = sum(item.of_pressure * (1.0 - _left(item, left)) for item in found)
        gone_growth = sum(item.of_growth * (1.0 - _left(item, left)) for item in found)
        rows.append(
            Information(
                name,
                half_pressure * float(np.sqrt(max(1.0 - gone_pressure, 0.0))),
                half_growth * float(np.sqrt(max(1.0 - gone_growth, 0.0))),
            )
        )
    return tuple(rows)


def _left(driver: Driver, left: dict[tuple[str, str], Number]) -> float:
    """Share of an unknown's variance that a measurement leaves."""
    places = driver.courses or ("",)
    return float(max(left.get((driver.unknown, place), 1.0) ** 2 for place in places))


def _measured(job: Job, judged: Judged) -> Iterator[tuple[str, dict[tuple[str, str], Number]]]:
    """Each measurement that would narrow something: new over old half-width by unknown."""
    courses = job.tank.courses
    coupon: dict[tuple[str, str], Number] = {
        (CURVE, one.name): _ratio(one, judged.spread_coupon.value)
        for one in courses
        if one.steel.basis is not Basis.COUPON
    }
    if any(value < 1.0 for value in coupon.values()):
        yield COUPON, coupon
    best = judged.wall_map.value
    mapped: dict[tuple[str, str], Number] = {
        (WALL, one.name): best / float(one.wall_tolerance)
        for one in courses
        if one.wall_tolerance > best
    }
    if mapped:
        yield MAP, mapped
    if any(one.steel.basis is not Basis.TRIAL for one in courses):
        trial: dict[tuple[str, str], Number] = {
            (CURVE, one.name): _ratio(one, judged.spread_trial.value) for one in courses
        }
        yield TRIAL, {**trial, (RULE, ""): 0.0, (RATE, ""): 0.0}


def _ratio(course: Course, spread: Ratio) -> float:
    old = float(course.steel.strength_half_width)
    return min(float(np.log1p(spread) / np.log1p(old)), 1.0) if old > 0.0 else 1.0


def _unknowns(job: Job, made: Forecast) -> Iterator[_Unknown]:
    draws, names = made.draws, [course.name for course in job.tank.courses]
    trials = [course.steel.joint is not None for course in job.tank.courses]
    for name, values in (
        (BOUND if any(trials) else RULE, draws.criterion),
        (RATE, draws.rate),
        (SPRINGBACK, draws.springback),
        (WARMTH, draws.warmth),
        (GAUGE, draws.gauge),
        (TAPE, draws.tape),
    ):
        yield _Unknown(name, (), np.broadcast_to(values, (draws.count,)))
    for name, columns in (
        (CURVE, draws.strength),
        (SLOPE, draws.steepness),
        (WALL, draws.wall),
    ):
        for item in _of_courses(name, columns, names):
            bound = name != WALL and any(trials[names.index(one)] for one in item.courses)
            yield replace(item, name=BOUND, courses=()) if bound else item
    for index in range(draws.diameter.shape[1]):
        yield _Unknown(DIAMETER, (), np.broadcast_to(draws.diameter[:, index], (draws.count,)))


def _of_courses(name: str, columns: Array, courses: list[str]) -> Iterator[_Unknown]:
    """One unknown for each different column: courses of one coil or sheet share it."""
    groups: dict[bytes, list[int]] = {}
    for index in range(columns.shape[1]):
        groups.setdefault(np.ascontiguousarray(columns[:, index]).tobytes(), []).append(index)
    for group in groups.values():
        yield _Unknown(name, tuple(courses[index] for index in group), columns[:, group[0]])


def _pressure(made: Forecast) -> Array:
    wanted = made.target_pressure
    return np.where(np.isnan(wanted), made.maximum_pressure, wanted)


def _growth(made: Forecast, forming: Band) -> Array:
    at = np.array([forming.likely])
    growth = outcome.largest(growth_at(made, at)[1])[:, 0]
    return np.where(np.isnan(growth), made.growth_at_maximum, growth)

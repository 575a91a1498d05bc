"""The seeded sample of everything that is not known: one row a draw, the same for the same seed.

Each unknown has its own column of evenly filled probabilities; the columns together form a
lattice shifted by the seed, so a few hundred draws give steady quantiles: over seeds the likely
pressure scatters by 0.1 %, the low and high ones by 0.3 % (standard deviation). A scrambled
Sobol' set does no better at 512 draws, and the library that makes it takes three times as long
to load as a whole plan. Courses from one coil share their strength and their wall.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial
from statistics import NormalDist

import numpy as np

from stretchform.forming import criterion
from stretchform.forming.criterion import Shape
from stretchform.planning import conditions, trial_draws
from stretchform.planning.job import Gauge, Job, TargetKind
from stretchform.planning.likely import Judged, Range
from stretchform.planning.tank import Course
from stretchform.si import STANDARD_GRAVITY, Array, Growth, Pascal, Ratio
from stretchform.water import properties, supply, tape

DRAWS = 512
_MULTIPLIER = 125  # of the lattice: neighbouring columns correlate by less than 0.08
_LATTICE = 128  # its powers repeat after so many columns; further ones are shuffled
_SINGLES, _PER_COURSE = 8, 4  # columns for the whole tank, and for each coil or sheet
_USUAL: Growth = 0.05  # where a target states no size, for the worth of a gauge's error
_Z95 = NormalDist().inv_cdf(0.95)


@dataclass(frozen=True, slots=True)
class Draws:
    """Factors of every draw; the last axis of those of a course is the course.

    `warmth`, `gauge`, `tape` and `diameter` are neutral where nothing is given for them.
    Where a steel rests on a trial cylinder its strength and steepness are bound to `criterion`,
    and hold what the trial knows of speed and water.
    """

    criterion: Array  # (N,) hoop stress over flow stress of a closed cylinder
    rate: Array  # (N,)
    springback: Array  # (N,)
    gained: Array  # (N,)
    strength: Array  # (N, courses)
    steepness: Array  # (N, courses)
    wall: Array  # (N, courses), metres
    diameter: Array = field(default_factory=lambda: np.ones((1, 1)))  # true over nominal
    warmth: Array = field(default_factory=lambda: np.ones(1))  # flow stress in the true water
    gauge: Array = field(default_factory=lambda: np.ones(1))  # reading over true pressure
    tape: Array = field(default_factory=lambda: np.zeros(1))  # growth read less true growth

    def diameter_of(self, course: int) -> Array:
        """Factor on the diameter of one course, (N,) or a neutral (1,)."""
        return self.diameter[:, min(course, self.diameter.shape[1] - 1)]

    @property
    def count(self) -> int:
        return len(self.criterion)


def draw(job: Job, judged: Judged) -> Draws:
    """Sample every unknown of a job; with `spread = "none"` a single draw of the medians.

    Strength and steepness are log-normal, C and springback triangular, rate and gained strength
    normal on either side of their median, walls, diameters, water and tape normal, the gauge
    even between its limits; half-widths are 5 to 95 %. A steel of a trial cylinder is drawn as
    the trial left it: strength, slope and C bound to each other, its speed and water known.

    Source: own-derivation, design choice of the project, its numbers from
    materials/forming.toml.
    Checked: tests/unit/test_sample.py (quantiles, same seed same draws, shared coils).
    """
    courses, water = job.tank.courses, job.water.temperature
    columns = partial(_column, job.model.seed, DRAWS if job.model.spread else 1)
    coils = _ranks([_coil(course) for course in courses])
    sheets = _ranks([_sheet(course) for course in courses])

    def each(ranks: list[int], place: int, made: Callable[[Course, Array], Array]) -> Array:
        rows = [
            made(course, columns(_SINGLES + _PER_COURSE * rank + place))
            for rank, course in zip(ranks, courses, strict=True)
        ]
        return np.stack(rows, axis=-1)

    def strength(one: Course, probability: Array) -> Array:
        return _log_normal(probability, conditions.half_width(one.steel, water, judged))

    drawn = Draws(
        criterion=_triangular(columns(0), judged.criterion),
        rate=_two_sided(columns(1), judged.rate),
        springback=_triangular(columns(2), judged.springback),
        gained=_two_sided(columns(3), judged.gained),
        strength=each(coils, 0, strength),
        steepness=each(coils, 1, lambda one, u: _log_normal(u, one.steel.steepness_half_width)),
        wall=each(sheets, 2, lambda one, u: one.wall + one.wall_tolerance / _Z95 * _normal(u)),
        diameter=each(
            sheets,
            3,
            lambda _, u: 1.0 + judged.diameter_tolerance.value / _Z95 * _normal(u),
        ),
        warmth=_warmth(job, judged, columns(4)),
        gauge=_gauge(job, judged, columns(5), columns(6)),
        tape=tape_uncertainty(job) * _normal(columns(7)),
    )
    return _bound(job, judged, drawn, columns, coils)


def _bound(
    job: Job,
    judged: Judged,
    drawn: Draws,
    columns: Callable[[int], Array],
    coils: list[int],
) -> Draws:
    """The draws with strength, slope and C of trial steels as their trials bind them."""
    steels = [course.steel for course in job.tank.courses]
    first = next((steel.joint for steel in steels if steel.joint is not None), None)
    if first is None:
        return drawn
    fixed = criterion.named(job.model.criterion, Shape.CLOSED) if job.model.criterion else None
    ratio = trial_draws.criteria(first, _normal(columns(0)))
    if fixed is not None:
        ratio = np.full_like(ratio, float(np.asarray(fixed.hoop_stress)))
    every = all(steel.joint is not None for steel in steels)
    rate = np.full_like(drawn.rate, judged.rate.likely.value) if every else drawn.rate
    known = rate * conditions.tank_effect(job).likely  # in the trial's strength already
    strength, steepness = drawn.strength.copy(), drawn.steepness.copy()
    for index, (steel, coil) in enumerate(zip(steels, coils, strict=True)):
        if steel.joint is not None:
            places = (_SINGLES + _PER_COURSE * coil + place for place in (0, 1))
            normals = np.column_stack([_normal(columns(place)) for place in places])
            found = trial_draws.factors_given_criterion(
                steel.joint, steel.curve, judged, ratio, normals
            )
            strength[:, index] = found.strength / known
            steepness[:, index] = found.steepness
    return replace(drawn, criterion=ratio, rate=rate, strength=strength, steepness=steepness)


def _warmth(job: Job, judged: Judged, probability: Array) -> Array:
    """Flow stress in the true water over that at the test: its temperature, and how far off."""
    effect = conditions.tank_effect(job)
    off = judged.softening.value * judged.water_tolerance.value
    half = float(np.hypot(off, (effect.high - effect.low) / (2.0 * effect.likely)))
    return np.asarray(effect.likely * (1.0 - half / _Z95 * _normal(probability)))


def tape_uncertainty(job: Job) -> Growth:
    """Standard uncertainty of a growth told by two readings of the tape on the smallest course.

    Source: gum, through water.tape; resolution evenly filled, skew and pull as judged there.
    Checked: tests/unit/test_sample.py (by hand).
    """
    before = min(2.0 * np.pi * (one.radius + 0.5 * one.wall) for one in job.tank.courses)
    reading = job.tape.resolution / np.sqrt(3.0)
    errors = tape.TapeErrors(reading, reading, pull=tape.PULL, skew=job.tape.skew)
    return float(tape.growth_uncertainty(before, before, job.tape.thickness, errors))


def _gauge(job: Job, judged: Judged, error: Array, height: Array) -> Array:
    """Reading over true pressure near the target; the finer gauge counts where there are two."""
    stated = [gauge for gauge in (job.gauge, job.second_gauge) if gauge is not None]
    if not stated:
        return np.ones_like(error)

    def limit_of(gauge: Gauge) -> float:
        return float(supply.gauge_limit(gauge.range, gauge.accuracy_class))

    limit = min(limit_of(gauge) for gauge in stated)
    weight = float(properties.density(job.water.temperature, 0.0)) * STANDARD_GRAVITY
    head = weight * judged.gauge_height.value / _Z95 * _normal(height)
    off = limit * (2.0 * error - 1.0) + head
    return np.asarray(1.0 + off / _near_target(job, judged))


def _near_target(job: Job, judged: Judged) -> Pascal:
    """The pressure near which a gauge is read: nominal sizes, likely factors, weakest course.

    p = C s(C e) t/r exp(−2 e); within a few per cent, and an error's share needs no more.
    """
    return min(_of_course(job, judged, course) for course in job.tank.courses)


def _of_course(job: Job, judged: Judged, course: Course) -> Pascal:
    factor = judged.criterion.likely.value
    hoop = float(np.log1p(np.clip(_near_growth(job, course), 0.002, 0.2)))
    flow = float(course.steel.curve.stress(np.float64(min(factor * hoop, 0.2))))
    thin = float(course.wall / course.radius)
    return judged.rate.likely.value * factor * flow * thin * float(np.exp(-2.0 * hoop))


def _near_growth(job: Job, course: Course) -> Growth:
    kind, value = job.target.kind, job.target.value
    diameter = 2.0 * float(course.radius) + float(course.wall)
    sizes = {
        TargetKind.GROWTH: value,
        TargetKind.OUTSIDE_DIAMETER: value / diameter - 1.0,
        TargetKind.INSIDE_DIAMETER: value / (diameter - 2.0 * float(course.wall)) - 1.0,
        TargetKind.OUTSIDE_CIRCUMFERENCE: value / (np.pi * diameter) - 1.0,
    }
    return sizes.get(kind, _USUAL)


def _column(seed: int, count: int, number: int) -> Array:
    """Evenly filled probabilities in an order of their own; 0.5 where count is 1."""
    random = np.random.default_rng([seed, number])
    if number < _LATTICE:
        factor = pow(_MULTIPLIER, number, count)
        order = (np.arange(count) * factor + random.integers(count)) % count
    else:
        order = random.permutation(count)
    return np.asarray((order + 0.5) / count, dtype=np.float64)


def _coil(course: Course) -> tuple[float | str, ...]:
    steel = course.steel
    half_width = float(steel.strength_half_width)
    return float(steel.proof_02), float(steel.tensile), half_width, steel.key


def _sheet(course: Course) -> tuple[float | str, ...]:
    return float(course.wall), float(course.wall_tolerance), *_coil(course)


def _ranks(keys: list[tuple[float | str, ...]]) -> list[int]:
    """Place of each key among the distinct keys: mirrored or cut courses keep their draws."""
    order = sorted(set(keys), key=lambda key: (key[:-1], key[-1]))  # numbers, then the name
    return [order.index(key) for key in keys]


def _normal(probability: Array) -> Array:
    inverse = NormalDist().inv_cdf
    return np.array([inverse(float(value)) for value in probability])


def _log_normal(probability: Array, half_width: Ratio) -> Array:
    return np.asarray(np.exp(np.log1p(half_width) / _Z95 * _normal(probability)))


def _triangular(probability: Array, judged: Range) -> Array:
    low, mode, high = judged.low.value, judged.likely.value, judged.high.value
    width, corner = high - low, (mode - low) / (high - low)
    rising = low + np.sqrt(probability * width * (mode - low))
    falling = high - np.sqrt((1.0 - probability) * width * (high - mode))
    return np.where(probability < corner, rising, falling)


def _two_sided(probability: Array, judged: Range) -> Array:
    low, median, high = judged.low.value, judged.likely.value, judged.high.value
    z = _normal(probability) / _Z95
    return median + np.where(z < 0.0, (median - low) * z, (high - median) * z)

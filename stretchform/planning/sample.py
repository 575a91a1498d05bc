"""The seeded sample of everything that is not known: one row a draw, the same for the same seed.

Each unknown has its own column of evenly filled probabilities; the columns together form a
lattice shifted by the seed, so a few hundred draws give steady quantiles: over seeds the likely
pressure scatters by 0.1 %, the low and high ones by 0.3 % (standard deviation). Courses from one
coil share their strength and their wall.
"""

from dataclasses import dataclass
from functools import partial
from statistics import NormalDist

import numpy as np

from stretchform.planning.job import Job
from stretchform.planning.likely import Judged, Range
from stretchform.planning.tank import Course
from stretchform.si import Array, Ratio

DRAWS = 512
_MULTIPLIER = 125  # of the lattice: neighbouring columns correlate by less than 0.08
_LATTICE = 128  # its powers repeat after so many columns; further ones are shuffled
_SINGLES, _PER_COURSE = 4, 3  # columns for the whole tank, and for each coil or sheet
_Z95 = NormalDist().inv_cdf(0.95)


@dataclass(frozen=True, slots=True)
class Draws:
    """Factors of every draw; the last axis of `strength`, `steepness` and `wall` is the course."""

    criterion: Array  # (N,) hoop stress over flow stress of a closed cylinder
    rate: Array  # (N,)
    springback: Array  # (N,)
    gained: Array  # (N,)
    strength: Array  # (N, courses)
    steepness: Array  # (N, courses)
    wall: Array  # (N, courses), metres

    @property
    def count(self) -> int:
        return len(self.criterion)


def draw(job: Job, judged: Judged) -> Draws:
    """Sample every unknown of a job; with `spread = "none"` a single draw of the medians.

    Strength and steepness are log-normal, C and springback triangular, rate and gained strength
    normal on either side of their median, walls normal; half-widths are 5 to 95 %.

    Source: own-derivation, design choice of the project, its numbers from
    materials/forming.toml.
    Checked: tests/unit/test_sample.py (quantiles, same seed same draws, shared coils).
    """
    courses = job.tank.courses
    columns = partial(_column, job.model.seed, DRAWS if job.model.spread else 1)
    coils = _ranks([_coil(course) for course in courses])
    sheets = _ranks([_sheet(course) for course in courses])
    return Draws(
        criterion=_triangular(columns(0), judged.criterion),
        rate=_two_sided(columns(1), judged.rate),
        springback=_triangular(columns(2), judged.springback),
        gained=_two_sided(columns(3), judged.gained),
        strength=_per_course(
            [
                _log_normal(
                    columns(_SINGLES + _PER_COURSE * coil), course.steel.strength_half_width
                )
                for coil, course in zip(coils, courses, strict=True)
            ]
        ),
        steepness=_per_course(
            [
                _log_normal(
                    columns(_SINGLES + _PER_COURSE * coil + 1),
                    course.steel.steepness_half_width,
                )
                for coil, course in zip(coils, courses, strict=True)
            ]
        ),
        wall=_per_course(
            [
                course.wall
                + course.wall_tolerance
                / _Z95
                * _normal(columns(_SINGLES + _PER_COURSE * sheet + 2))
                for sheet, course in zip(sheets, courses, strict=True)
            ]
        ),
    )


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


def _per_course(columns: list[Array]) -> Array:
    return np.stack(columns, axis=-1)


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

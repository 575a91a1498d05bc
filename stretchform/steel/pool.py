"""Several coupons of one coil: one curve through all of them, and how much they differ.

Each coupon is fitted by itself, then all grouped points together, so that a long record does
not outvote a short one. The scatter between coupons is a part of the coil's spread that no
single test can show.
"""

from dataclasses import dataclass, replace

import numpy as np

from stretchform.si import Array, Pascal, Ratio, Strain
from stretchform.steel.elastic import ElasticLine
from stretchform.steel.fit import Fit, Instruments, Points, fit_points, fit_tensile, grouped
from stretchform.steel.fit import standard_error as error_of_one
from stretchform.steel.tensile import Tensile

SOURCES = ("own-derivation",)

SCATTER_STRAINS = (0.02, 0.05, 0.10, 0.15, 0.20)
_QUANTILE_90 = 1.6449


@dataclass(frozen=True, slots=True)
class Pooled:
    """The curve of a coil from one or more coupons."""

    fit: Fit  # of all coupons together; of the one where there is one
    singles: tuple[Fit, ...]
    strains: Array  # where the scatter is stated, inside the range of all
    scatter: Array  # relative standard deviation between coupons; empty for one coupon
    proof_02: Pascal | None  # mean of those that have one
    proof_10: Pascal | None
    tensile: Pascal | None
    uniform_elongation: Ratio | None

    @property
    def count(self) -> int:
        """Number of coupons."""
        return len(self.singles)


def pool(
    tensiles: tuple[Tensile, ...],
    instruments: Instruments = Instruments(),  # noqa: B008 - frozen
) -> Pooled:
    """One curve from the coupons of one coil, up to the shortest range among them.

        all laws on all grouped points, each brought to the mean level;
        scatter = standard deviation between the single fits

    Source: own-derivation, equal weight for each coupon.
    Checked: tests/unit/steel/test_fit_pool.py
    Raises NoSolution where the points are too few.
    """
    singles = tuple(fit_tensile(tensile, instruments) for tensile in tensiles)
    last = min(float(fit.chosen.curve.strain_limit) for fit in singles)
    first = max(float(fit.chosen.curve.strain_start) for fit in singles)
    strains = np.array([x for x in SCATTER_STRAINS if first <= x <= last])
    scatter = np.empty(0)
    fit = singles[0]
    if len(singles) > 1:
        curves = np.array([single.chosen.curve.stress(strains) for single in singles])
        scatter = np.std(curves, axis=0, ddof=1) / np.mean(curves, axis=0)
        levels = np.mean(curves / np.mean(curves, axis=0), axis=1)
        fit = fit_points(_together(tensiles, levels, last), _line(tensiles), instruments)
    return Pooled(
        fit=fit,
        singles=singles,
        strains=strains,
        scatter=scatter,
        proof_02=_mean([tensile.proof_02 for tensile in tensiles]),
        proof_10=_mean([tensile.proof_10 for tensile in tensiles]),
        tensile=_mean([tensile.tensile for tensile in tensiles]),
        uniform_elongation=_mean([tensile.uniform_elongation for tensile in tensiles]),
    )


def coil_error(pooled: Pooled, strain: Strain) -> Ratio:
    """Relative standard error of the flow stress for another piece of the coil.

        sqrt(fit^2 + scatter^2 (1 + 1/k)), k coupons; the largest scatter found

    With one coupon the scatter is not known and not in it.

    Source: own-derivation, prediction of one more value.
    Checked: tests/unit/steel/test_fit_pool.py
    """
    own = error_of_one(pooled.fit, strain)
    if not len(pooled.scatter):
        return own
    between = float(np.max(pooled.scatter)) * np.sqrt(1.0 + 1.0 / pooled.count)
    return np.asarray(np.hypot(own, between))


def half_width(pooled: Pooled, judged: Ratio, strain: Strain = 0.05) -> Ratio:
    """5 to 95 % half-width of the flow stress for a forecast: never below the judged one.

        max(judged, 1.645 coil error)

    Source: own-derivation, judged floor from materials/forming.toml.
    Checked: tests/unit/steel/test_fit_pool.py
    """
    return float(max(float(judged), _QUANTILE_90 * float(np.max(coil_error(pooled, strain)))))


def curve_rows(pooled: Pooled, strain: Strain) -> Array:
    """The curve as a table for charts and pages: one row for each strain.

        columns: strain, flow stress, its slope, lower and upper 90 % bound for the coil

    Source: own-derivation, coil_error with normal errors.
    Checked: tests/unit/steel/test_fit_pool.py
    """
    x = np.atleast_1d(np.asarray(strain, dtype=np.float64))
    curve = pooled.fit.chosen.curve
    stress, half = curve.stress(x), _QUANTILE_90 * coil_error(pooled, x)
    columns = (x, stress, curve.slope(x), stress * (1.0 - half), stress * (1.0 + half))
    return np.column_stack([np.broadcast_to(column, x.shape) for column in columns])


def _together(tensiles: tuple[Tensile, ...], levels: Array, last: float) -> Points:
    """All grouped points brought to the mean level: their difference is the scatter's."""
    parts = [grouped(t.plastic_strain, t.true_stress) for t in tensiles]
    strain = np.concatenate([part.strain for part in parts])
    stress = np.concatenate([p.stress / f for p, f in zip(parts, levels, strict=True)])
    error = np.concatenate([part.error for part in parts])
    order = np.argsort(strain, kind="stable")
    order = order[strain[order] <= last]
    return Points(strain[order], stress[order], error[order])


def _line(tensiles: tuple[Tensile, ...]) -> ElasticLine:
    """The first line with the mean errors of all."""
    lines = [tensile.line for tensile in tensiles]
    count = np.sqrt(len(lines))
    return replace(
        lines[0],
        slope_std=float(np.mean([line.slope_std for line in lines]) / count),
        pivot_std=float(np.mean([line.pivot_std for line in lines]) / count),
    )


def _mean(values: list[Pascal | None]) -> float | None:
    known = [float(value) for value in values if value is not None]
    return float(np.mean(known)) if known else None

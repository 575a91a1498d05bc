"""Least-squares fits of the flow-stress laws to a measured true curve, and the choice of one.

The readings are first brought together in some sixty groups, closer at small strain, so that
a test with many readings does not count more than one with few. Every residual is a share of
the stress. The band joins five causes: the parameters, what the law cannot follow, the place
of strain zero, the modulus and the instruments.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import NoSolution
from stretchform.si import Array, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve
from stretchform.steel.elastic import ElasticLine
from stretchform.steel.laws import LAWS, Law, curve_of
from stretchform.steel.tensile import Tensile

SOURCES = ("own-derivation", "hurvich-tsai-1989")

_GROUPS = 60
_FIT_FROM = 0.002  # plastic strain: below lies the rounded knee
_END_TOLERANCE = 0.005  # mean residual allowed at either end of the range
_LARGEST_RMS = 0.02
_WORST_RMS = 0.04
_QUANTILE_90 = 1.6449  # two-sided 90 % of a normal error


@dataclass(frozen=True, slots=True)
class Points:
    """Grouped points of one or more tests."""

    strain: Array  # true plastic
    stress: Array  # true
    error: Array  # relative standard error of each group; NaN: unknown


@dataclass(frozen=True, slots=True)
class LawFit:
    """One law fitted to the points."""

    law: str
    curve: Curve
    parameters: Array  # SI, in the order of names
    names: tuple[str, ...]
    covariance: Array  # of the parameters, SI
    rms: Ratio
    largest: Ratio  # largest residual, relative
    criterion: Ratio  # corrected AIC; the least is best
    residuals: Array  # relative, fit over measured less one
    misfit: Ratio  # what the law cannot follow, relative standard deviation
    problems: tuple[str, ...]  # codes: what is wrong at the ends of the range


@dataclass(frozen=True, slots=True)
class Instruments:
    """Standard errors of the test machine that no residual shows."""

    force: Ratio = 0.0
    extension: Ratio = 0.0
    section: Ratio = 0.0


@dataclass(frozen=True, slots=True)
class Fit:
    """All laws on one set of points, and the one chosen."""

    chosen: LawFit
    laws: tuple[LawFit, ...]  # best first
    points: Points
    line: ElasticLine
    instruments: Instruments


def grouped(strain: Array, stress: Array, groups: int = _GROUPS) -> Points:
    """Readings brought together in groups of equal width in the root of the strain.

        group value = straight line through the group's readings, at their mean strain

    Source: own-derivation, local straight lines.
    Checked: tests/unit/steel/test_fit_laws.py
    """
    kept = strain >= min(_FIT_FROM, float(np.max(strain)) / 10.0)
    x, y = strain[kept], stress[kept]
    order = np.argsort(x, kind="stable")
    x, y = x[order], y[order]
    if len(x) <= 2 * groups:
        return Points(x, y, np.full(len(x), np.nan))
    edges = np.linspace(np.sqrt(x[0]), np.sqrt(x[-1]), groups + 1)[1:-1] ** 2
    parts = np.split(np.arange(len(x)), np.searchsorted(x, edges))
    rows = [_group(x[part], y[part]) for part in parts if len(part)]
    columns = np.array(rows).T
    return Points(columns[0], columns[1], columns[2])


def _group(x: Array, y: Array) -> tuple[float, float, float]:
    level = float(np.mean(y))
    if len(x) < 4:
        return float(np.mean(x)), level, np.nan
    u = x - np.mean(x)
    spread = float(np.sum(u * u))
    slope = float(np.sum(u * y)) / spread if spread > 0.0 else 0.0
    noise = np.sqrt(np.sum((y - level - slope * u) ** 2) / (len(x) - 2))
    return float(np.mean(x)), level, float(noise / np.sqrt(len(x)) / level)


def fit_law(law: Law, points: Points) -> LawFit:
    """One law by least squares on relative residuals.

        minimise sum (model / measured - 1)^2; covariance = s^2 (J'J)^-1, widened by the
        run of like signs in the residuals (lag-one correlation r: times (1 + r) / (1 - r))

    Source: own-derivation, Gauss-Newton covariance.
    Checked: tests/unit/steel/test_fit_laws.py
    Raises NoSolution where no start converges.
    """
    from scipy.optimize import least_squares

    reference = float(np.mean(points.stress))
    x, y = points.strain, points.stress / reference
    lowest, highest = np.array(law.lowest), np.array(law.highest)

    def residual(p: Array) -> Array:
        return law.model(x, p) / y - 1.0

    starts = [np.clip(law.start(x, y, bent), lowest, highest) for bent in law.grid()]
    start = min(starts, key=lambda p: float(np.sum(residual(p) ** 2)))
    inside = np.clip(start, lowest + 1e-9, highest - 1e-9)
    answer = least_squares(
        residual, inside, bounds=(lowest, highest), x_scale="jac", jac="3-point", xtol=1e-12
    )
    if not np.all(np.isfinite(answer.x)):
        raise NoSolution(
            law.name, "the fit does not converge", "use another law or more points"
        )
    return _law_fit(law, points, answer.x, answer.fun, np.asarray(answer.jac), reference)


def _law_fit(
    law: Law, points: Points, p: Array, residuals: Array, jacobian: Array, reference: float
) -> LawFit:
    count, size = len(residuals), len(p)
    variance = float(np.sum(residuals**2)) / max(count - size, 1)
    widening = _run_widening(residuals)
    inverse = np.linalg.pinv(jacobian.T @ jacobian, rcond=1e-14)
    scale = np.array([reference if name in law.stresses else 1.0 for name in law.parameters])
    shift = np.array(
        [np.log(reference) if name == law.logarithm else 0.0 for name in law.parameters]
    )
    curve = curve_of(law, p, reference, float(points.strain[0]), float(points.strain[-1]))
    return LawFit(
        law=law.name,
        curve=curve,
        parameters=p * scale + shift,
        names=law.parameters,
        covariance=np.asarray(inverse * variance * widening * np.outer(scale, scale)),
        rms=float(np.sqrt(np.mean(residuals**2))),
        largest=float(np.max(np.abs(residuals))),
        criterion=corrected_criterion(residuals, size),
        residuals=residuals,
        misfit=_misfit(residuals, variance, points.error),
        problems=end_problems(curve, residuals, points),
    )


def corrected_criterion(residuals: Array, parameters: int) -> Ratio:
    """Akaike's criterion with the correction for few points.

        n ln(sum r^2 / n) + 2 k + 2 k (k + 1) / (n - k - 1),  k = parameters + 1

    Source: hurvich-tsai-1989, corrected AIC for least squares (from memory).
    Checked: tests/unit/steel/test_fit_laws.py
    """
    n, k = len(residuals), parameters + 1
    mean_square = max(float(np.mean(residuals**2)), 1e-16)
    room = max(n - k - 1, 1)
    return float(n * np.log(mean_square) + 2 * k + 2 * k * (k + 1) / room)


def end_problems(curve: Curve, residuals: Array, points: Points) -> tuple[str, ...]:
    """What is wrong with a law at the ends of its range, as codes.

        misses_start, misses_end: mean residual of an end tenth beyond 0.5 %; falls: slope not
        positive everywhere; bends_up: slope rising at the end; misses: rms beyond 2 %

    Source: own-derivation, tests of the ends.
    Checked: tests/unit/steel/test_fit_laws.py
    """
    tenth = max(len(residuals) // 10, 2)
    last = float(points.strain[-1])
    slopes = np.asarray(curve.slope(np.array([0.8 * last, last, 1.2 * last])))
    inner = np.asarray(curve.slope(np.geomspace(1e-4, last, 200)))
    tests = {
        "misses_start": abs(float(np.mean(residuals[:tenth]))) > _END_TOLERANCE,
        "misses_end": abs(float(np.mean(residuals[-tenth:]))) > _END_TOLERANCE,
        "misses": float(np.sqrt(np.mean(residuals**2))) > _LARGEST_RMS,
        "falls": float(np.min(inner)) <= 0.0 or float(slopes[-1]) <= 0.0,
        "bends_up": float(slopes[2]) > 1.001 * float(slopes[0]),
    }
    return tuple(code for code, wrong in tests.items() if wrong)


def _run_widening(residuals: Array) -> float:
    r = residuals - np.mean(residuals)
    power = float(np.sum(r * r))
    likeness = float(np.sum(r[1:] * r[:-1])) / power if power > 0.0 else 0.0
    likeness = min(max(likeness, 0.0), 0.8)
    return (1.0 + likeness) / (1.0 - likeness)


def _misfit(residuals: Array, variance: float, error: Array) -> float:
    """What is left when the readings' own noise is taken off."""
    known = np.isfinite(error)
    if np.count_nonzero(known) > len(error) // 2:
        return float(np.sqrt(max(variance - float(np.mean(error[known] ** 2)), 0.0)))
    runs = _run_widening(residuals)
    return float(np.sqrt(variance)) if runs > 2.0 else 0.0


def fit_points(
    points: Points,
    line: ElasticLine,
    instruments: Instruments = Instruments(),
) -> Fit:
    """All laws fitted; chosen is the least corrected criterion among those sound at both ends.

        sorted by (has problems, corrected AIC)

    Source: own-derivation, choice.
    Checked: tests/unit/steel/test_fit_laws.py
    Raises NoSolution where the points are too few for any law, or none comes within 4 %.
    """
    fitted = [
        fit_law(law, points) for law in LAWS if len(points.strain) > len(law.parameters) + 3
    ]
    if not fitted:
        raise NoSolution(
            "fit", f"{len(points.strain)} points; a law needs at least 6", "export more points"
        )
    if min(fit.rms for fit in fitted) > _WORST_RMS:
        raise NoSolution(
            "fit",
            f"no law follows the points: the best one misses by "
            f"{100 * min(fit.rms for fit in fitted):.1f} %",
            "one test in the order of its readings, annealed sheet",
        )
    ranked = tuple(sorted(fitted, key=lambda fit: (bool(fit.problems), fit.criterion)))
    return Fit(ranked[0], ranked, points, line, instruments)


def fit_tensile(
    tensile: Tensile,
    instruments: Instruments = Instruments(),
) -> Fit:
    """All laws on the true curve of one test.

        group, fit, choose

    Source: own-derivation, see fit_points.
    Checked: tests/verification/test_fit_campaign.py
    Raises NoSolution where the points are too few for any law.
    """
    points = grouped(tensile.plastic_strain, tensile.true_stress)
    return fit_points(points, tensile.line, instruments)


def parameter_error(fit: LawFit, strain: Strain) -> Ratio:
    """Relative standard error of the flow stress from the parameters' covariance alone.

        sqrt(g' V g) / s,  g = gradient of the stress in the parameters

    Source: own-derivation, propagation to first order.
    Checked: tests/unit/steel/test_fit_laws.py
    """
    x = np.atleast_1d(np.asarray(strain, dtype=np.float64))
    scale = np.sqrt(np.diag(fit.covariance))
    columns = [_gradient(fit, x, place, step) for place, step in enumerate(scale)]
    gradient = np.column_stack(columns)  # per standard deviation of each parameter
    outer = np.outer(scale, scale)
    likeness = np.divide(fit.covariance, outer, out=np.zeros_like(outer), where=outer > 0.0)
    variance = np.einsum("ij,jk,ik->i", gradient, likeness, gradient)
    return np.asarray(np.sqrt(np.maximum(variance, 0.0)) / fit.curve.stress(x))


def _gradient(fit: LawFit, x: Array, place: int, std: float) -> Array:
    step = 1e-3 * std if std > 0.0 else 0.0
    if step == 0.0:
        return np.zeros_like(x)
    up, down = fit.parameters.copy(), fit.parameters.copy()
    up[place] += step
    down[place] -= step
    law = {law.name: law for law in LAWS}[fit.law]
    high, low = law.model(x, up), law.model(x, down)
    return np.asarray((high - low) / (2.0 * step) * std)


def standard_error(fit: Fit, strain: Strain) -> Ratio:
    """Relative standard error of the chosen flow stress, all causes joined.

        sqrt(parameters^2 + misfit^2 + (s'/s)^2 (pivot^2 + ((s - s_p)/E u_E)^2
             + (x u_ext)^2) + force^2 + section^2)

    s' is the slope, s_p the stress in the middle of the elastic line, u_E relative.

    Source: own-derivation, propagation to first order.
    Checked: tests/verification/test_fit_campaign.py
    """
    law, x = fit.chosen, np.atleast_1d(np.asarray(strain, dtype=np.float64))
    stress, slope = law.curve.stress(x), law.curve.slope(x)
    line, own = fit.line, fit.instruments
    elastic = (stress - line.pivot) / line.slope * (line.slope_std / line.slope)
    sideways = line.pivot_std**2 + elastic**2 + (x * own.extension) ** 2
    upright = law.misfit**2 + own.force**2 + own.section**2
    total = parameter_error(law, x) ** 2 + upright + (slope / stress) ** 2 * sideways
    return np.asarray(np.sqrt(total))


def confidence_band(fit: Fit, strain: Strain) -> tuple[Pascal, Pascal]:
    """Lower and upper 90 % bounds of the flow stress as this test shows it.

        s (1 -+ 1.645 u)

    Source: own-derivation, normal errors.
    Checked: tests/verification/test_fit_campaign.py
    """
    x = np.atleast_1d(np.asarray(strain, dtype=np.float64))
    stress = fit.chosen.curve.stress(x)
    half = _QUANTILE_90 * standard_error(fit, x)
    return stress * (1.0 - half), stress * (1.0 + half)

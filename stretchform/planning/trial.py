"""What a bulged trial cylinder says: strength, hardening slope and criterion together.

Pressure and outside circumference are read step by step while a cylinder of the same coil is
formed. A cylinder alone cannot part strength from criterion: pressure holds their product. So
both keep what was known before (certificate, judged factors), and the readings bind them
together; the covariance carries that bond into every forecast. Time at pressure is in the
readings, so the strength found already holds the slowness of forming.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError, NoSolution
from stretchform.forming import membrane
from stretchform.forming.criterion import Shape, general
from stretchform.forming.membrane import Elastic
from stretchform.forming.surface import mid_from_outside
from stretchform.planning.likely import Judged
from stretchform.planning.unshaped import ShapeTerm, likeness, mean_logarithm, remaining
from stretchform.si import Array, Growth, Metre, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve, Scaled
from stretchform.steel.grade import Steel

SOURCES = ("own-derivation", "own-judgement")

_PIVOT = 0.05
_LEAST_GROWTH = 0.003  # below: elastic or the rounded start, no word on the slope
_FEWEST = 4
_STEEPNESS_HALF_WIDTH = 0.35  # of the slope before the trial: laws of other shape included
_SCATTER = 0.01  # of the pressures: beyond it gauge, tape or holds are not what they seem
_QUANTILE_95 = 1.6449


@dataclass(frozen=True, slots=True)
class TrialCylinder:
    """The cylinder before forming; its middle is free of its ends."""

    outside_circumference: Metre
    wall: Metre
    closed: bool = True  # False: the ends are held from outside
    wall_std: Metre = 0.0

    @property
    def radius(self) -> Metre:
        """Mid-wall radius."""
        return self.outside_circumference / (2.0 * np.pi) - 0.5 * self.wall


@dataclass(frozen=True, slots=True)
class TrialReadings:
    """Pairs in the order they were read, under pressure at the end of each hold."""

    pressure: Array
    circumference: Array  # outside
    pressure_std: Pascal  # of one reading
    circumference_std: Metre


@dataclass(frozen=True, slots=True)
class TrialFit:
    """What the cylinder says of its coil, at the speed of forming."""

    strength: Ratio  # factor on the flow stress of the base curve at 5 % strain
    steepness: Ratio  # factor on its logarithmic slope there
    criterion: Ratio  # C: hoop over uniaxial flow stress
    covariance: Array  # of ln strength, steepness, criterion, shape term included
    base: Curve
    parameters: Array  # ln strength, ln steepness, criterion, without the shape term
    parameter_covariance: Array
    sensitivity: Array  # of ln pressure at the readings to the parameters
    shape: ShapeTerm
    used: int  # readings
    left_out: int  # readings too near yield
    residuals: Array  # relative pressure, fit over reading less one
    largest_growth: Growth
    cylinder: TrialCylinder
    elastic: Elastic
    findings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Prior:
    mean: Array
    std: Array


def fit_trial(
    cylinder: TrialCylinder, readings: TrialReadings, steel: Steel, judged: Judged
) -> TrialFit:
    """Most probable strength, steepness and criterion, and their covariance.

        minimise r' S^-1 r + sum ((parameter - known) / std)^2,  r = ln p(growth) - ln read,
        S = gauge^2 + (dln p/dgrowth u)^2 (each reading, and once for the first size) + shape

    Before the trial: strength from the half-width of `steel` times the judged rate factor,
    steepness to 35 %, C from the judged triangle; the shape term is that of `unshaped`.
    Readings below 0.3 % growth are left out.

    Source: own-derivation, generalised least squares with prior knowledge.
    Checked: tests/verification/test_fit_trial_campaign.py
    Raises InputError for readings that cannot be a trial, NoSolution where no fit is found.
    """
    growth = _growths(cylinder, readings)
    kept = growth >= _LEAST_GROWTH
    _refuse_poor(growth, kept)
    elastic = Elastic(steel.youngs_modulus.value, steel.poisson_ratio.value)
    body = _Body(cylinder, steel.curve, elastic)
    prior = _prior(cylinder, steel, judged)
    measured, grown = readings.pressure[kept], growth[kept]
    matrix = _reading_covariance(body, readings, prior.mean, measured, grown)
    parameters, sensitivity = _least(body, prior, matrix, measured, grown)
    residual = np.log(measured) - body.logarithm(parameters, grown)
    inverse = np.asarray(np.linalg.inv(matrix), dtype=np.float64)
    shape = ShapeTerm(grown, inverse @ residual, inverse)
    fitted = residual - mean_logarithm(shape, grown)
    curvature = sensitivity.T @ inverse @ sensitivity + np.diag(prior.std**-2.0)
    covariance = np.asarray(np.linalg.inv(curvature), dtype=np.float64)
    strength, steepness, joint = _effective(body, parameters, covariance, sensitivity, shape)
    return TrialFit(
        strength=strength,
        steepness=steepness,
        criterion=float(parameters[2]),
        covariance=joint,
        base=steel.curve,
        parameters=parameters,
        parameter_covariance=covariance,
        sensitivity=sensitivity,
        shape=shape,
        used=len(grown),
        left_out=int(np.count_nonzero(~kept)),
        residuals=np.asarray(np.expm1(-fitted)),
        largest_growth=float(grown.max()),
        cylinder=cylinder,
        elastic=elastic,
        findings=_findings(parameters, prior, fitted, grown),
    )


def trial_pressure(trial: TrialFit, growth: Growth) -> tuple[Pascal, Pascal]:
    """Likely pressure of the trial cylinder at an outside growth under pressure, and its std.

        ln p = curve (parameters) + shape term; std from both covariances to first order

    Source: own-derivation, propagation to first order.
    Checked: tests/verification/test_fit_trial_campaign.py
    """
    at = np.atleast_1d(np.asarray(growth, dtype=np.float64))
    body = _Body(trial.cylinder, trial.base, trial.elastic)
    mean = np.exp(body.logarithm(trial.parameters, at) + mean_logarithm(trial.shape, at))
    across = likeness(at, trial.shape.strain) @ trial.shape.inverse
    gradient = body.sensitivity(trial.parameters, at) - across @ trial.sensitivity
    variance = np.einsum("ij,jk,ik->i", gradient, trial.parameter_covariance, gradient)
    variance = variance + np.diag(remaining(trial.shape, at))
    return mean, mean * np.sqrt(np.maximum(variance, 0.0))


def flow_points(trial: TrialFit, strain: Strain) -> Pascal:
    """Flow stress of the coil at the speed of forming, as the trial found it.

        s(x) = scaled base (x) times exp(shape term at growth exp(x / C) - 1)

    Source: own-derivation, see steel.curve.Scaled and planning.unshaped.
    Checked: tests/unit/planning/test_fit_trial.py
    """
    p = trial.parameters
    curve = Scaled(trial.base, float(np.exp(p[0])), float(np.exp(p[1])), _PIVOT)
    growth = np.expm1(np.atleast_1d(strain) / trial.criterion)
    return np.asarray(curve.stress(strain) * np.exp(mean_logarithm(trial.shape, growth)))


def points_before_factors(trial: TrialFit, judged: Judged, strain: Strain) -> Pascal:
    """Flow stress that gives the trial's pressures once the judged C and rate act on it.

        s'(x) = C / (C_likely rate_likely) s(x C / C_likely)

    A forecast multiplies every curve by the judged rate and criterion; these are the points
    to hand it, so that its likely pressure is that of the trial.

    Source: own-derivation, equal hoop stress at equal hoop strain.
    Checked: tests/unit/planning/test_fit_trial.py
    """
    c = judged.criterion
    likely = triangular_median(c.low.value, c.likely.value, c.high.value)
    share = trial.criterion / likely
    stress = flow_points(trial, np.multiply(share, strain))
    return stress * share / judged.rate.likely.value


def triangular_median(low: Ratio, mode: Ratio, high: Ratio) -> Ratio:
    """Median of a triangular distribution.

        low + sqrt((high - low)(mode - low)/2), from the high end where the mode lies low

    Source: own-derivation, inverse of the distribution at one half.
    Checked: tests/unit/planning/test_fit_trial.py
    """
    width = high - low
    if mode - low >= 0.5 * width:
        return low + np.sqrt(0.5 * width * (mode - low))
    return high - np.sqrt(0.5 * width * (high - mode))


def _prior(cylinder: TrialCylinder, steel: Steel, judged: Judged) -> _Prior:
    c, rate = judged.criterion, judged.rate
    low, mode, high = c.low.value, c.likely.value, c.high.value
    square = low**2 + mode**2 + high**2 - low * mode - low * high - mode * high
    strength = np.log1p(float(steel.strength_half_width)) / _QUANTILE_95
    slow = (rate.high.value - rate.low.value) / (2.0 * _QUANTILE_95)
    wall = float(cylinder.wall_std / cylinder.wall)  # thicker reads as stronger
    return _Prior(
        mean=np.array([np.log(rate.likely.value), 0.0, (low + mode + high) / 3.0]),
        std=np.array(
            [
                np.sqrt(strength**2 + slow**2 + wall**2),
                np.log1p(_STEEPNESS_HALF_WIDTH) / _QUANTILE_95,
                np.sqrt(square / 18.0),
            ]
        ),
    )


@dataclass(frozen=True, slots=True)
class _Body:
    """The cylinder as a function of the three parameters."""

    cylinder: TrialCylinder
    base: Curve
    elastic: Elastic

    def logarithm(self, p: Array, growth: Array) -> Array:
        """Logarithm of the pressure at an outside growth under pressure."""
        own = self.cylinder
        curve = Scaled(self.base, float(np.exp(p[0])), float(np.exp(p[1])), _PIVOT)
        shape = Shape.CLOSED if own.closed else Shape.OPEN
        state = general(shape, float(p[2]))
        mid = mid_from_outside(shape, own.radius, own.wall, growth)
        strain = membrane.strain_of_loaded(mid, curve, state, self.elastic)
        args = (own.radius, own.wall, strain, curve, state, self.elastic)
        return np.asarray(np.log(membrane.pressure(*args)))

    def sensitivity(self, p: Array, growth: Array) -> Array:
        """Derivatives of the logarithm to the parameters, one column each."""
        steps = np.eye(3) * 1e-4
        return np.column_stack(
            [
                (self.logarithm(p + step, growth) - self.logarithm(p - step, growth)) / 2e-4
                for step in steps
            ]
        )

    def steepness(self, p: Array, growth: Array) -> Array:
        """Derivative of the logarithm to the growth."""
        step = 1e-4
        high, low = self.logarithm(p, growth + step), self.logarithm(p, growth - step)
        return (high - low) / (2.0 * step)


def _reading_covariance(
    body: _Body, readings: TrialReadings, p: Array, measured: Array, grown: Array
) -> Array:
    """Covariance of ln p at the readings: gauge, tape, the common first size, shape."""
    u = float(readings.circumference_std / body.cylinder.outside_circumference)
    sideways = body.steepness(p, grown) * u
    own = (readings.pressure_std / measured) ** 2 + sideways**2
    return np.asarray(np.diag(own) + np.outer(sideways, sideways) + likeness(grown, grown))


def _least(
    body: _Body, prior: _Prior, matrix: Array, measured: Array, grown: Array
) -> tuple[Array, Array]:
    from scipy.optimize import least_squares

    whitener = np.linalg.inv(np.linalg.cholesky(matrix))
    wanted = np.log(measured)

    def residual(p: Array) -> Array:
        own = whitener @ (body.logarithm(p, grown) - wanted)
        return np.concatenate([own, (p - prior.mean) / prior.std])

    start = prior.mean.copy()
    start[0] += float(np.median(wanted - body.logarithm(start, grown)))
    answer = least_squares(residual, start, x_scale=prior.std, jac="3-point")
    if not answer.success or not np.all(np.isfinite(answer.x)):
        raise NoSolution(
            "trial cylinder",
            "no strength and slope fit its readings",
            "check pressures and wall",
        )
    return answer.x, body.sensitivity(answer.x, grown)


def _effective(
    body: _Body, p: Array, covariance: Array, sensitivity: Array, shape: ShapeTerm
) -> tuple[float, float, Array]:
    """Strength and slope at 5 % with the shape term in them, and the joint covariance."""
    gap = 0.1  # in ln strain: the slope of the shape term by a difference
    growth = np.expm1(_PIVOT * np.exp([0.0, gap, -gap]) / p[2])
    own = float(np.asarray(body.base.slope(_PIVOT))) * _PIVOT / float(body.base.stress(_PIVOT))
    take = np.array([[1.0, 0.0, 0.0], [0.0, 0.5, -0.5]])
    take[1] /= gap * own
    term = take @ mean_logarithm(shape, growth)
    plain = np.array([[1.0, 0.0, 0.0], [0.0, np.exp(p[1]), 0.0], [0.0, 0.0, 1.0]])
    back = likeness(growth, shape.strain) @ shape.inverse @ sensitivity
    gradient = plain - np.vstack([take @ back, np.zeros(3)])
    joint = gradient @ covariance @ gradient.T
    joint[:2, :2] += take @ remaining(shape, growth) @ take.T
    joint = 0.5 * (joint + joint.T)
    return float(np.exp(p[0] + term[0])), float(np.exp(p[1]) + term[1]), joint


def _growths(cylinder: TrialCylinder, readings: TrialReadings) -> Array:
    growth = readings.circumference / cylinder.outside_circumference - 1.0
    if float(np.min(growth)) < -0.005:
        raise InputError(
            "trial cylinder",
            f"a circumference is {-100 * float(np.min(growth)):.2g} % below the one before forming",
            "give outside circumferences throughout, and the one before forming from the same tape",
        )
    if float(np.max(growth)) > 0.4:
        raise InputError(
            "trial cylinder",
            f"growth of {100 * float(np.max(growth)):.3g} %: more than a cylinder can bear",
            "check the unit and the circumference before forming",
        )
    if np.any(growth < np.maximum.accumulate(growth) - 0.004):
        raise InputError(
            "trial cylinder",
            "the circumference falls while pressure rises",
            "give only readings under pressure while it rises, one line each: 24.0, 1893.5",
        )
    return np.asarray(growth, dtype=np.float64)


def _refuse_poor(
    growth: Array, kept: "np.ndarray[tuple[int, ...], np.dtype[np.bool_]]"
) -> None:
    if np.count_nonzero(kept) < _FEWEST:
        raise InputError(
            "trial cylinder",
            f"{np.count_nonzero(kept)} readings above {100 * _LEAST_GROWTH:g} % growth",
            f"at least {_FEWEST} readings between 0.3 % and the largest growth",
        )
    if float(np.max(growth)) < 0.008:
        raise InputError(
            "trial cylinder",
            f"the largest growth is {100 * float(np.max(growth)):.2g} %: no word on the slope",
            "readings up to at least 0.8 % growth, better half the target",
        )


def _findings(p: Array, prior: _Prior, misfit: Array, growth: Array) -> tuple[str, ...]:
    away = np.abs(p - prior.mean) / prior.std
    tests = {
        "strength_far_from_known": away[0] > 2.0,
        "steepness_far_from_known": away[1] > 2.0,
        "readings_scatter": float(np.sqrt(np.mean(misfit**2))) > _SCATTER,
        "short_of_half_a_target": float(growth.max()) < 0.02,
    }
    return tuple(code for code, holds in tests.items() if holds)

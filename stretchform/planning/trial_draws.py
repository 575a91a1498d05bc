"""Draws of strength, slope and criterion as a trial cylinder left them: bound to each other.

A forecast that drew them apart would add again what the trial has taken away: pressure holds
strength times criterion, and that product is known far better than either. The slowness of
forming is in the trial's strength, so no rate factor acts on these draws.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.planning.likely import Judged
from stretchform.planning.trial import triangular_median
from stretchform.si import Array
from stretchform.steel.curve import Curve
from stretchform.steel.grade import TrialJoint as TrialJoint

SOURCES = ("own-derivation",)

_PIVOT = 0.05
_LOWEST_C, _HIGHEST_C = 1.0, 1.2  # Tresca, and a little above von Mises


@dataclass(frozen=True, slots=True)
class TrialFactors:
    """Factors on the curve of the trial's steel file, one for each draw; rate factor 1."""

    strength: Array
    steepness: Array
    criterion: Array


def forecast_factors(
    joint: TrialJoint, curve: Curve, judged: Judged, normals: Array
) -> TrialFactors:
    """Factors on the steel file's curve for draws of three standard normal numbers each.

        (ln f, h, C) = mean + L z,  L L' = covariance;
        strength = f / f_mean * r_likely (C_likely / C_mean)^(1 + n),  steepness = h / h_mean

    n is the logarithmic slope of `curve` at 5 %: it carries the curve, whose strains are
    counted with the likely C, over to the trial's own C. C is kept between 1 and 1.2.

    Source: own-derivation, joint normal parameters of the trial.
    Checked: tests/unit/planning/test_fit_trial_draws.py
    """
    lower = np.linalg.cholesky(joint.covariance + 1e-14 * np.eye(3))
    return _factors(joint, curve, judged, np.asarray(normals, dtype=np.float64) @ lower.T)


def factors_given_criterion(
    joint: TrialJoint, curve: Curve, judged: Judged, criterion: Array, normals: Array
) -> TrialFactors:
    """The same where C is drawn already, for two standard normal numbers a draw.

        (C, ln f, h) = mean + L z,  L L' = covariance in this order, z1 = (C - mean) / L11

    So the courses of one tank share their C, and each coil keeps its bond to it.

    Source: own-derivation, conditional normal parameters of the trial.
    Checked: tests/unit/planning/test_fit_trial_draws.py
    """
    order = [2, 0, 1]
    lower = np.linalg.cholesky(joint.covariance[np.ix_(order, order)] + 1e-14 * np.eye(3))
    shift = np.asarray(criterion, dtype=np.float64) - joint.criterion
    rows = np.column_stack([shift / lower[0, 0], normals]) @ lower.T
    return _factors(joint, curve, judged, rows[:, [1, 2, 0]])


def criteria(joint: TrialJoint, normals: Array) -> Array:
    """C of a trial, one for each standard normal number, kept between 1 and 1.2.

        C = mean + std z

    Source: own-derivation, marginal of the joint normal parameters.
    Checked: tests/unit/planning/test_fit_trial_draws.py
    """
    spread = np.sqrt(joint.covariance[2, 2]) * np.asarray(normals, dtype=np.float64)
    return np.asarray(np.clip(joint.criterion + spread, _LOWEST_C, _HIGHEST_C))


def _factors(joint: TrialJoint, curve: Curve, judged: Judged, shift: Array) -> TrialFactors:
    c = judged.criterion
    likely = triangular_median(c.low.value, c.likely.value, c.high.value)
    n = float(curve.slope(_PIVOT)) * _PIVOT / float(curve.stress(_PIVOT))
    level = judged.rate.likely.value * (likely / joint.criterion) ** (1.0 + n)
    steepness = np.maximum(joint.steepness + shift[:, 1], 0.2 * joint.steepness)
    criterion = np.clip(joint.criterion + shift[:, 2], _LOWEST_C, _HIGHEST_C)
    return TrialFactors(
        strength=np.asarray(level * np.exp(shift[:, 0])),
        steepness=np.asarray(steepness / joint.steepness),
        criterion=np.asarray(criterion),
    )

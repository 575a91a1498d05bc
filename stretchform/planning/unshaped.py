"""What a family of curves cannot follow: a smooth unknown factor on top of the fitted curve.

Steels differ in the shape of their curves, not only in strength and slope. The logarithm of a
factor on the flow stress is taken as a smooth random function of ln(strain + 0.5 %): its size
is 6 % and values 1.4 apart in that logarithm are little alike. Readings then speak for the
strains near them, and what lies further on is as uncertain as it should be.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.si import Array, Ratio, Strain

SOURCES = ("own-derivation", "own-judgement")

_SIZE = 0.06
_REACH = 1.4
_OFFSET = 0.005


@dataclass(frozen=True, slots=True)
class ShapeTerm:
    """The factor's logarithm as the readings leave it."""

    strain: Array  # of the readings
    weights: Array  # inverse covariance times residual
    inverse: Array  # inverse covariance of the readings, their own likeness included


def likeness(first: Strain, second: Strain) -> Array:
    """Prior covariance of the factor's logarithm between two sets of strains.

        0.06^2 exp(-(u - v)^2 / (2 1.4^2)),  u = ln(strain + 0.005)

    Source: own-judgement, size and reach judged from the spread of laws in use.
    Checked: tests/unit/planning/test_fit_trial.py
    """
    u = np.log(np.atleast_1d(first) + _OFFSET)
    v = np.log(np.atleast_1d(second) + _OFFSET)
    gap = (u[:, None] - v[None, :]) / _REACH
    return np.asarray(_SIZE**2 * np.exp(-0.5 * gap * gap))


def mean_logarithm(term: ShapeTerm, strain: Strain) -> Ratio:
    """Most probable logarithm of the factor at a strain.

        k' S^-1 residual

    Source: own-derivation, conditional mean of joint normal values.
    Checked: tests/unit/planning/test_fit_trial.py
    """
    return np.asarray(likeness(strain, term.strain) @ term.weights)


def remaining(term: ShapeTerm, strain: Strain) -> Array:
    """Covariance that the factor's logarithm keeps among strains, parameters known.

        k(x, x) - k' S^-1 k

    Source: own-derivation, conditional covariance of joint normal values.
    Checked: tests/unit/planning/test_fit_trial.py
    """
    across = likeness(strain, term.strain)
    return likeness(strain, strain) - across @ term.inverse @ across.T

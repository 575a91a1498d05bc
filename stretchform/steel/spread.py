"""How far the flow stress of a steel may lie from its curve, strength and slope together.

Two factors that know nothing of each other: one on strength, one on the logarithmic slope, both
log-normal with the half-widths of the steel. At the pivot strain only the strength counts.
"""

import numpy as np

from stretchform.si import Array, Ratio, Strain
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation",)
_PIVOT = 0.05  # as in curve.Scaled


def stress_band(
    curve: Curve, strength_half_width: Ratio, steepness_half_width: Ratio, strain: Strain
) -> tuple[Array, Array]:
    """5 and 95 % of the flow stress at a strain, from the half-widths of strength and slope.

        s exp(-a) and s exp(b),  a, b = sqrt(ln(1 + w)^2 + (d ln(s(x) / s(pivot)))^2)

    w of the strength, v of the slope; the pivot lies at 5 % strain; d is v or 1 - 1/(1 + v),
    whichever turns the curve to that side.

    Source: own-derivation, sum of two independent log-normal factors.
    Checked: tests/unit/steel/test_spread.py (quantiles of 40,000 scaled curves).
    """
    stress = np.asarray(curve.stress(strain), dtype=np.float64)
    distance = np.log(stress / curve.stress(_PIVOT))
    steeper = steepness_half_width * distance
    flatter = (1.0 / (1.0 + steepness_half_width) - 1.0) * distance
    strength = np.log1p(strength_half_width)
    down = np.hypot(strength, np.minimum(steeper, flatter))
    up = np.hypot(strength, np.maximum(steeper, flatter))
    return stress * np.exp(-down), stress * np.exp(up)

"""Against zhu-leis-2006: Tresca bounds burst from below, von Mises from above.

Source: zhu-leis-2006, abstract read: for defect-free pipes the Tresca prediction is the lower
and the von Mises prediction the upper bound, the average-shear-stress prediction the mean of
the data. The abstract gives an order, not numbers; its formula is from memory.
Counts: as an order of three predictions, two of them our own maxima of the pressure found by
search, for every hardening exponent. It measures no tank.
Would fail for: mean diameter taken for radius (factor 2), the two criteria exchanged, the
exponent n + 1 lost, or a criterion applied to the pressure and not inside the curve.
"""

import numpy as np
import pytest

from stretchform.forming import burst, criterion, membrane
from stretchform.forming.criterion import Shape
from stretchform.forming.membrane import RIGID
from stretchform.steel.curve import Hollomon

MPA = 1e6
EXPONENTS = [0.05, 0.10, 0.15, 0.20, 0.30, 0.45, 0.55]  # pipe steels to annealed austenitic


def highest(state, exponent):
    curve = Hollomon(1000.0 * MPA, exponent)
    return float(membrane.maximum(0.25, 0.005, curve, state, RIGID).pressure)


def average_shear(exponent):
    tensile = 1000.0 * MPA * (exponent / np.e) ** exponent
    return float(burst.zhu_leis(0.25, 0.005, tensile, exponent))


@pytest.mark.parametrize("exponent", EXPONENTS)
def test_average_shear_stress_lies_between_our_two_maxima(exponent):
    lower = highest(criterion.tresca(Shape.CLOSED), exponent)
    upper = highest(criterion.mises(Shape.CLOSED), exponent)
    assert lower < average_shear(exponent) < upper


@pytest.mark.parametrize("exponent", EXPONENTS)
@pytest.mark.parametrize("factor", [1.03, 1.13])
def test_the_judged_factors_stay_within_the_published_bounds(exponent, factor):
    ours = highest(criterion.general(Shape.CLOSED, factor), exponent)
    assert highest(criterion.tresca(Shape.CLOSED), exponent) < ours
    assert ours < highest(criterion.mises(Shape.CLOSED), exponent)

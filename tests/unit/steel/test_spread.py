"""The band of the flow stress against curves that are really drawn."""

from statistics import NormalDist

import numpy as np
import pytest

from stretchform.steel.curve import Ludwik, Scaled
from stretchform.steel.spread import stress_band

LAW = Ludwik(250e6, 1300e6, 0.75, strain_limit=0.5)  # invented


@pytest.mark.parametrize("strain", [0.002, 0.05, 0.12, 0.30])
def test_the_band_holds_nine_of_ten_drawn_curves(strain):
    rng = np.random.default_rng(7)
    one = 1.0 / NormalDist().inv_cdf(0.95)
    strength = np.exp(np.log(1.10) * one * rng.standard_normal(40_000))
    steepness = np.exp(np.log(1.20) * one * rng.standard_normal(40_000))
    drawn = Scaled(LAW, strength, steepness).stress(strain)
    low, high = stress_band(LAW, 0.10, 0.20, strain)
    # 0.4 %: sampling of a 5 % quantile (0.15 %) and the slope's factor to first order
    assert float(low) == pytest.approx(np.quantile(drawn, 0.05), rel=4e-3)
    assert float(high) == pytest.approx(np.quantile(drawn, 0.95), rel=4e-3)


def test_only_the_strength_counts_at_the_pivot():
    low, high = stress_band(LAW, 0.15, 0.50, 0.05)
    stress = LAW.stress(0.05)
    # rounding only: the logarithm of one is zero
    assert float(high / stress) == pytest.approx(1.15, rel=1e-12)
    assert float(low * 1.15) == pytest.approx(stress, rel=1e-12)

"""Against ASME VIII-2 4.3.6 (FROM MEMORY, not read): buckling of a torispherical knuckle.

Expected values computed by an independent program from the same remembered formulas.
"""

import numpy as np
import pytest

from stretchform.forming.heads import Torisphere, knuckle_buckling


def test_thin_head():
    result = knuckle_buckling(Torisphere(1.2, 1.2, 0.12, 3e-3), 240e6, 195e9)
    # five digits were kept; 0.1 % asked for
    assert result.equivalent_radius == pytest.approx(0.70572, rel=1e-4)
    assert result.elastic == pytest.approx(6.0002e6, rel=1e-3)
    assert result.yielding == pytest.approx(0.43814e6, rel=1e-3)
    assert result.elastic / result.yielding == pytest.approx(13.695, rel=1e-3)
    assert result.collapse == pytest.approx(0.87838e6, rel=1e-3)
    assert result.allowable == pytest.approx(0.58558e6, rel=1e-3)


def test_elastic_buckling_rules_where_it_comes_before_yield():
    result = knuckle_buckling(Torisphere(1.2, 1.2, 0.12, 3e-3), 24000e6, 195e9)
    assert result.collapse == pytest.approx(0.6 * result.elastic)


def test_a_wide_knuckle_wave_takes_the_tank_radius():
    walls = np.array([3e-3, 40e-3])
    result = knuckle_buckling(Torisphere(1.2, 1.2, 0.12, walls), 240e6, 195e9)
    assert result.equivalent_radius[1] == pytest.approx(0.6)

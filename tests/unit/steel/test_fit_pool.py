"""Several coupons of one coil."""

import numpy as np
import pytest

from stretchform.steel.curve import Swift
from stretchform.steel.pool import coil_error, curve_rows, half_width, pool
from stretchform.steel.tensile import Record, engineering_from_true, evaluate


def coupon(scale, seed):
    rng = np.random.default_rng(seed)
    plastic = np.concatenate([[0.0], np.geomspace(1e-6, 0.42, 8000)])
    true = Swift(1400e6 * scale, 0.05, 0.55).stress(plastic)
    total = np.concatenate([[0.0], plastic + true / 196e9])
    strain, stress = engineering_from_true(total, np.concatenate([[0.0], true]))
    grid = np.concatenate([np.linspace(0, 0.01, 400), np.linspace(0.0101, 0.45, 2000)])
    load = np.interp(grid, strain, stress) * (1 + 0.002 * rng.normal(size=len(grid)))
    return evaluate(Record(f"coupon {seed}", grid, load))


def test_the_pooled_curve_lies_in_the_middle():
    pooled = pool((coupon(0.97, 1), coupon(1.0, 2), coupon(1.03, 3)))
    middle = Swift(1400e6, 0.05, 0.55)
    strain = np.array([0.02, 0.10, 0.25])
    # a third of the noise of one test and the choice of law
    np.testing.assert_allclose(
        pooled.fit.chosen.curve.stress(strain), middle.stress(strain), rtol=3e-3
    )
    assert pooled.count == 3


def test_scatter_is_the_spread_between_coupons():
    pooled = pool((coupon(0.97, 1), coupon(1.0, 2), coupon(1.03, 3)))
    np.testing.assert_allclose(pooled.scatter, 0.03, rtol=0.1)  # noise of each single fit
    error = coil_error(pooled, 0.05)
    assert error > 0.03
    assert half_width(pooled, 0.04) == pytest.approx(1.645 * float(error[0]), rel=1e-3)


def test_one_coupon_keeps_the_judged_width_and_has_no_scatter():
    pooled = pool((coupon(1.0, 4),))
    assert len(pooled.scatter) == 0
    assert half_width(pooled, 0.04) == 0.04


def test_the_order_of_the_coupons_does_not_matter():
    first, second = coupon(0.98, 5), coupon(1.02, 6)
    one, other = pool((first, second)), pool((second, first))
    stress = one.fit.chosen.curve.stress(0.10)
    assert other.fit.chosen.curve.stress(0.10) == pytest.approx(stress, rel=1e-6)
    assert one.proof_02 == pytest.approx(other.proof_02, rel=1e-12)


def test_the_table_of_a_curve_holds_stress_slope_and_band():
    pooled = pool((coupon(0.97, 1), coupon(1.0, 2), coupon(1.03, 3)))
    rows = curve_rows(pooled, np.array([0.05, 0.10]))
    assert rows.shape == (2, 5)
    step = 1e-5
    ahead = curve_rows(pooled, np.array([0.05 + step]))[0, 1]
    assert rows[0, 2] == pytest.approx((ahead - rows[0, 1]) / step, rel=1e-3)  # a difference
    half = 1.645 * coil_error(pooled, np.array([0.05]))[0]
    assert rows[0, 4] / rows[0, 1] - 1.0 == pytest.approx(half, rel=1e-3)
    assert np.all(rows[:, 3] < rows[:, 1])

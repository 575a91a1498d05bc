"""Relations between the closed formulas of arms."""

import numpy as np
import pytest

from stretchform.plates import arms
from stretchform.steel.curve import Hollomon, Ludwik

STEEL = Ludwik(230e6, 1256e6, 0.66)  # invented


def test_hardening_of_a_power_law_is_its_exponent():
    assert arms.hardening(Hollomon(1.2e9, 0.31)) == pytest.approx(0.31, rel=1e-12)


def test_weakly_hardening_steel_raises_the_strain_factor():
    assert arms.strain_factor(Hollomon(1e9, 0.10)) > arms.strain_factor(STEEL) == 7.5


def test_needed_length_gives_back_the_strain_limit():
    length = arms.single_length(0.007, 0.015, 0.15, 7.5)
    assert arms.single_strain(0.007, length, 0.015, 7.5) == pytest.approx(0.15, rel=1e-12)
    length = arms.bridge_length(0.008, 0.0175, 0.15)
    assert arms.bridge_strain(0.008, length, 0.0175) == pytest.approx(0.15, rel=1e-12)


def test_slope_limit_governs_slender_arms():
    length = arms.single_length(0.0005, 0.02, 0.15, 7.5)
    assert 0.02 / length == pytest.approx(arms.SLOPE_SINGLE, rel=1e-12)


def test_two_limbs_shorten_a_folded_arm_by_root_two():
    one = arms.single_length(0.007, 0.015, 0.15, 7.5)
    two = arms.single_length(0.007, 0.015, 0.15, 7.5, limbs=2)
    assert one / two == pytest.approx(2**0.5, rel=1e-12)


def test_no_concentric_bridge_spans_five_per_cent_growth():
    assert np.isinf(arms.bridge_length(0.008, 0.0175, 0.15, radius=0.35))


def test_concentric_bridge_at_half_a_per_cent_meets_both_limits():
    length = arms.bridge_length(0.006, 0.00175, 0.15, radius=0.35)
    strain = arms.bridge_strain(0.006, length, 0.00175, radius=0.35)
    slope = arms.effective_slope(length, 0.00175, 0.35)
    assert strain <= 0.15 * (1 + 1e-12)
    assert slope <= arms.SLOPE_BRIDGE * (1 + 1e-12)


def test_least_effective_slope_of_a_concentric_arm():
    lengths = np.linspace(0.02, 0.4, 4001)
    least = np.min(arms.effective_slope(lengths, 0.0175, 0.35))
    assert least == pytest.approx((2 * 0.0175 / 0.35) ** 0.5, rel=1e-5)  # grid of lengths


def test_stalk_follows_the_exact_arc():
    exact = 0.35 - (0.35**2 - 0.095**2) ** 0.5
    shallow = arms.stalk(0.095, 0.35, 0.0)
    assert shallow == pytest.approx(exact, rel=0.02)  # next term of the arc: (l/R)²/4


def test_forces_grow_with_depth_squared_for_single_arms():
    factor = arms.bending_factor(Hollomon(1e9, 1e-9))
    assert factor > 1e8
    slim, deep = (
        arms.root_moment(depth, 0.1, 0.01, 0.0015, Hollomon(1e9, 1e-12), 7.5)
        for depth in (0.005, 0.010)
    )
    assert deep / slim == pytest.approx(4.0, rel=1e-9)  # ideally plastic: Mp = S t b²/4
    assert slim == pytest.approx(1e9 * 0.0015 * 0.005**2 / 4, rel=1e-9)

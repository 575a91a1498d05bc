"""The flow-stress laws: slopes, arrays, scaling, tables and kinks."""

import numpy as np
import pytest
from laws import LAWS, MPA

from stretchform.steel.curve import Hollomon, Ludwigson, Scaled, Swift, Voce, kinks

LUDWIGSON = Ludwigson(1389.0 * MPA, 0.473, np.log(MPA) + 5.18, -18.9)
SMOOTH = {
    **{name: LAWS[name] for name in ("H", "S", "V", "VL", "M2")},
    "Ludwigson": LUDWIGSON,
    "Scaled": Scaled(LAWS["S"], 1.07, 0.9),
    "Scaled twice": Scaled(Scaled(LAWS["VL"], 0.95, 1.1), 1.02, 0.97, pivot=0.08),
}


@pytest.mark.parametrize("name", list(SMOOTH))
def test_slope_is_the_derivative_of_the_stress(name):
    curve, step = SMOOTH[name], 1e-6
    strain = np.linspace(0.005, 0.5, 60)
    difference = (curve.stress(strain + step) - curve.stress(strain - step)) / (2.0 * step)
    # rounding 1e-16·s/step (1e-9 of a slope of s/10) and curvature step²·s'''/6 (below 1e-8)
    np.testing.assert_allclose(curve.slope(strain), difference, rtol=1e-7)


@pytest.mark.parametrize("name", [*SMOOTH, "T"])
def test_an_array_gives_what_single_strains_give(name):
    curve = {**SMOOTH, "T": LAWS["T"]}[name]
    strain = np.array([0.0, 0.01, 0.05, 0.2])
    stress, slope = curve.stress(strain), curve.slope(strain)
    for place, x in enumerate(strain):
        assert stress[place] == pytest.approx(float(curve.stress(x)), rel=1e-15)
        assert slope[place] == pytest.approx(float(curve.slope(x)), rel=1e-15)


def test_laws_take_the_stress_they_promise_at_zero_strain():
    assert LAWS["H"].stress(0.0) == 0.0
    assert LAWS["S"].stress(0.0) == pytest.approx(1400.0 * MPA * 0.04**0.55, rel=1e-15)
    assert LAWS["V"].stress(0.0) == 260.0 * MPA
    assert LAWS["M2"].stress(0.0) == 240.0 * MPA
    assert LUDWIGSON.stress(0.0) == pytest.approx(np.exp(5.18) * MPA, rel=1e-13)


def test_a_power_law_is_infinitely_steep_at_zero_without_a_warning():
    assert LAWS["H"].slope(np.array([0.0]))[0] == np.inf
    assert LAWS["M2"].slope(np.array([0.0]))[0] == np.inf


def test_voce_saturates_and_its_linear_rest_goes_on():
    plain = Voce(230.0 * MPA, 180.0 * MPA, 18.0)
    assert plain.stress(5.0) == pytest.approx(410.0 * MPA, rel=1e-12)  # exp(−90) is nothing
    rest = LAWS["VL"].stress(5.0) - plain.stress(5.0)
    assert rest == pytest.approx(1500.0 * MPA * 5.0, rel=1e-12)


def test_a_table_meets_its_points_and_carries_its_last_line_on():
    table = LAWS["T"]
    np.testing.assert_allclose(table.stress(table.strains), table.stresses, rtol=1e-15)
    assert table.stress(0.08) == pytest.approx(488.0 * MPA, rel=1e-14)  # midway 446 to 530
    assert table.slope(0.08) == pytest.approx(84.0 / 0.04 * MPA, rel=1e-13)
    assert table.stress(0.50) == pytest.approx((960.0 + 127.5) * MPA, rel=1e-14)
    assert table.strain_limit == 0.40


def test_the_slope_on_a_corner_of_a_table_is_that_of_the_line_behind_it():
    table = LAWS["T"]
    assert table.slope(0.06) == table.slope(0.0601)
    assert table.slope(0.06) != table.slope(0.0599)


def test_kinks_are_the_points_of_a_table_even_below_a_scaling():
    assert np.array_equal(kinks(LAWS["T"]), LAWS["T"].strains)
    assert np.array_equal(kinks(Scaled(Scaled(LAWS["T"], 1.1), 0.9)), LAWS["T"].strains)
    assert len(kinks(LAWS["S"])) == 0


def test_scaling_by_one_changes_nothing():
    strain = np.linspace(0.001, 0.4, 20)
    same = Scaled(LAWS["S"], 1.0)
    np.testing.assert_allclose(same.stress(strain), LAWS["S"].stress(strain), rtol=1e-15)
    np.testing.assert_allclose(same.slope(strain), LAWS["S"].slope(strain), rtol=1e-15)


def test_at_the_pivot_only_the_strength_acts_and_the_logarithmic_slope_scales_everywhere():
    base = LAWS["VL"]
    scaled = Scaled(base, 1.08, 1.2)
    assert scaled.stress(0.05) == pytest.approx(1.08 * float(base.stress(0.05)), rel=1e-14)
    strain = np.linspace(0.01, 0.3, 15)
    ratio = (scaled.slope(strain) / scaled.stress(strain)) / (
        base.slope(strain) / base.stress(strain)
    )
    np.testing.assert_allclose(ratio, 1.2, rtol=1e-13)


def test_a_scaled_curve_keeps_the_range_of_its_base():
    scaled = Scaled(Hollomon(1275.0 * MPA, 0.45, strain_start=0.03, strain_limit=0.25), 1.1)
    assert (scaled.strain_start, scaled.strain_limit) == (0.03, 0.25)


def test_parameters_may_be_one_per_draw():
    strength = np.array([0.9, 1.0, 1.1])[:, None]
    strain = np.array([0.02, 0.05])
    many = Scaled(LAWS["S"], strength).stress(strain)
    assert many.shape == (3, 2)
    np.testing.assert_allclose(many[1], LAWS["S"].stress(strain), rtol=1e-15)
    power = Swift(1400.0 * MPA * strength, 0.04, np.array([0.5, 0.55, 0.6])[:, None])
    assert power.slope(strain).shape == (3, 2)
    assert power.stress(strain)[2, 1] == pytest.approx(1540.0 * MPA * 0.09**0.6, rel=1e-14)

"""A trial cylinder: what it finds, what it refuses, and how its parts fit together."""

import numpy as np
import pytest

from stretchform.errors import InputError
from stretchform.files.judged import load_judged
from stretchform.files.steels import load_steel
from stretchform.forming import membrane
from stretchform.forming.criterion import Shape, general
from stretchform.forming.surface import outside_from_mid
from stretchform.planning.trial import (
    TrialCylinder,
    TrialReadings,
    fit_trial,
    flow_points,
    points_before_factors,
    trial_pressure,
    triangular_median,
)
from stretchform.planning.unshaped import ShapeTerm, likeness, mean_logarithm, remaining
from stretchform.steel.curve import Scaled
from stretchform.steel.grade import Certificate

JUDGED = load_judged()
STEEL = load_steel("1.4307", Certificate(295e6, 650e6), "test", JUDGED)
CYLINDER = TrialCylinder(outside_circumference=1.885, wall=2.0e-3)
ELASTIC = membrane.Elastic(STEEL.youngs_modulus.value, STEEL.poisson_ratio.value)


def readings(strength=0.95, steepness=1.0, criterion=1.11, top=0.026, closed=True, noise=0.0):
    curve = Scaled(STEEL.curve, strength, steepness)
    shape = Shape.CLOSED if closed else Shape.OPEN
    state = general(shape, criterion)
    strain = np.linspace(0.004, top * 1.1, 14)
    radius = float(CYLINDER.radius)
    grown = membrane.grown(radius, CYLINDER.wall, strain, curve, state, ELASTIC)
    outside = outside_from_mid(shape, radius, CYLINDER.wall, grown.growth_under_pressure)
    rng = np.random.default_rng(5)
    around = CYLINDER.outside_circumference * (1.0 + np.asarray(outside))
    pressure = np.asarray(grown.pressure) * (1.0 + noise * rng.normal(size=len(strain)))
    return TrialReadings(pressure, around, 5e3, 0.2e-3)


def test_readings_that_agree_with_what_was_known_change_little():
    fit = fit_trial(CYLINDER, readings(), STEEL, JUDGED)
    assert fit.strength == pytest.approx(0.95, rel=0.01)  # prior medians and exact readings
    assert fit.steepness == pytest.approx(1.0, rel=0.05)
    assert fit.findings == ()
    assert np.max(np.abs(fit.residuals)) < 0.003


@pytest.mark.parametrize("strength", [0.85, 1.05])
def test_strength_times_criterion_is_found_though_neither_is(strength):
    fit = fit_trial(CYLINDER, readings(strength=strength), STEEL, JUDGED)
    product = fit.strength * fit.criterion / (strength * 1.11)
    # the part bound by the readings; what is left is the small shift of strain with C
    assert product == pytest.approx(1.0, rel=0.01)
    spread = np.sqrt(np.diag(fit.covariance))
    likeness_of_both = fit.covariance[0, 2] / (spread[0] * spread[2])
    assert likeness_of_both < -0.6  # more strength means less criterion
    assert spread[2] == pytest.approx(0.029, abs=0.004)  # the judged triangle stays


@pytest.mark.parametrize("steepness", [0.85, 1.15])
def test_a_steeper_coil_is_found(steepness):
    fit = fit_trial(CYLINDER, readings(steepness=steepness, top=0.04), STEEL, JUDGED)
    assert (fit.steepness - 1.0) * (steepness - 1.0) > 0.0
    known, after = 0.18, np.sqrt(fit.covariance[1, 1])
    assert after < known
    assert abs(fit.steepness - steepness) < 2.0 * after


def test_readings_to_a_larger_growth_tell_more():
    short = fit_trial(CYLINDER, readings(top=0.012), STEEL, JUDGED)
    long = fit_trial(CYLINDER, readings(top=0.040), STEEL, JUDGED)
    std = [trial_pressure(fit, 0.05)[1][0] for fit in (short, long)]
    assert std[1] < 0.6 * std[0]
    assert "short_of_half_a_target" in short.findings


def test_scattered_readings_are_named():
    fit = fit_trial(CYLINDER, readings(noise=0.02), STEEL, JUDGED)
    assert "readings_scatter" in fit.findings


def test_a_coil_far_from_its_paper_is_named():
    fit = fit_trial(CYLINDER, readings(strength=0.70), STEEL, JUDGED)
    assert "strength_far_from_known" in fit.findings


def test_an_open_cylinder_does_not_speak_of_the_criterion():
    open_ended = TrialCylinder(1.885, 2.0e-3, closed=False)
    fit = fit_trial(open_ended, readings(closed=False), STEEL, JUDGED)
    known = (1.03 + 1.13 + 1.17) / 3.0
    assert fit.criterion == pytest.approx(known, abs=1e-6)


def test_readings_near_yield_are_left_out_and_counted():
    plain = readings()
    early = TrialReadings(
        np.concatenate([[5e5], plain.pressure]),
        np.concatenate([[1.8855], plain.circumference]),
        5e3,
        0.2e-3,
    )
    fit = fit_trial(CYLINDER, early, STEEL, JUDGED)
    assert fit.left_out >= 1
    assert fit.used + fit.left_out == len(early.pressure)


def test_the_points_for_a_forecast_give_the_trial_s_hoop_stress():
    fit = fit_trial(CYLINDER, readings(), STEEL, JUDGED)
    c = JUDGED.criterion
    likely = triangular_median(c.low.value, c.likely.value, c.high.value)
    hoop = np.array([0.01, 0.03, 0.05])
    forecast = likely * JUDGED.rate.likely.value
    forecast = forecast * points_before_factors(fit, JUDGED, likely * hoop)
    np.testing.assert_allclose(
        forecast, fit.criterion * flow_points(fit, fit.criterion * hoop), rtol=1e-12
    )


@pytest.mark.parametrize(
    ("change", "problem"),
    [
        (lambda r: (r.pressure[:3], r.circumference[:3]), "readings above"),
        (lambda r: (r.pressure, r.circumference * 0.9), "below the one before"),
        (lambda r: (r.pressure, r.circumference * 1.5), "more than a cylinder"),
        (lambda r: (r.pressure, r.circumference[::-1]), "falls while pressure rises"),
        (
            lambda r: (r.pressure[:5], 1.885 * np.linspace(1.003, 1.006, 5)),
            "no word on the slope",
        ),
    ],
)
def test_readings_that_are_no_trial_are_refused(change, problem):
    plain = readings()
    pressure, around = change(plain)
    with pytest.raises(InputError, match=problem):
        fit_trial(CYLINDER, TrialReadings(pressure, around, 5e3, 0.2e-3), STEEL, JUDGED)


def test_the_median_of_a_triangle_halves_it():
    draws = np.random.default_rng(1).triangular(1.03, 1.13, 1.17, 400_000)
    # a quarter of a million draws: 1e-4
    assert triangular_median(1.03, 1.13, 1.17) == pytest.approx(np.median(draws), abs=2e-4)
    low = np.random.default_rng(2).triangular(0.0, 0.1, 1.0, 400_000)
    assert triangular_median(0.0, 0.1, 1.0) == pytest.approx(np.median(low), abs=3e-3)


def test_the_shape_term_follows_exact_readings_and_forgets_far_ones():
    at = np.array([0.005, 0.010, 0.020])
    matrix = likeness(at, at) + 1e-10 * np.eye(3)
    inverse = np.linalg.inv(matrix)
    told = np.array([0.02, -0.01, 0.03])
    term = ShapeTerm(at, inverse @ told, inverse)
    np.testing.assert_allclose(mean_logarithm(term, at), told, atol=1e-4)
    left = np.sqrt(np.abs(np.diag(remaining(term, np.array([0.010, 0.05, 1e6])))))
    assert left[0] < 1e-3 < left[1] < left[2]
    assert left[2] == pytest.approx(0.06, rel=0.01)  # all of its size, far away

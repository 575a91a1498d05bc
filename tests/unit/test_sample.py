"""The sampled unknowns: their quantiles, their seed, and what courses share."""

from dataclasses import replace
from statistics import NormalDist

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import forecast, outcome, sample
from stretchform.planning.job import Gauge, Model

SHARES = (0.05, 0.5, 0.95)
# 512 evenly filled probabilities: a quantile is off by at most one place in 512 where the
# density is lowest; for the factors here that is below 0.2 %
EVEN = 2e-3
LOOSE = 0.08  # correlation that a lattice of 512 places leaves; chance would leave 0.13


def draws(**fields):
    return sample.draw(jobs.job(**fields), jobs.JUDGED)


def quantiles(values):
    return np.quantile(values, SHARES)


def test_strength_is_log_normal_with_the_half_width_of_its_steel():
    half = jobs.steel().strength_half_width
    expected = [1.0 / (1.0 + half), 1.0, 1.0 + half]
    assert quantiles(draws().strength[:, 0]) == pytest.approx(expected, rel=EVEN)


def test_steepness_is_log_normal_and_independent_of_strength():
    found = draws()
    half = jobs.steel().steepness_half_width
    expected = [1.0 / (1.0 + half), 1.0, 1.0 + half]
    assert quantiles(found.steepness[:, 0]) == pytest.approx(expected, rel=EVEN)
    correlation = np.corrcoef(found.strength[:, 0], found.steepness[:, 0])[0, 1]
    assert abs(correlation) < LOOSE


@pytest.mark.parametrize("name", ["rate", "gained"])
def test_two_sided_factors_meet_their_three_judged_values(name):
    judged = getattr(jobs.JUDGED, name)
    expected = [judged.low.value, judged.likely.value, judged.high.value]
    assert quantiles(getattr(draws(), name)) == pytest.approx(expected, rel=EVEN)


@pytest.mark.parametrize("name", ["criterion", "springback"])
def test_triangular_factors_follow_the_triangle(name):
    judged = getattr(jobs.JUDGED, name)
    low, mode, high = judged.low.value, judged.likely.value, judged.high.value
    found = getattr(draws(), name)
    assert low < found.min() and found.max() < high
    share_below_mode = np.mean(found < mode)
    assert share_below_mode == pytest.approx((mode - low) / (high - low), abs=1 / 512)
    # mean of a triangle; the midpoint rule of 512 places is good to a few 1e-6
    assert np.mean(found) == pytest.approx((low + mode + high) / 3.0, rel=1e-5)


def test_walls_are_normal_within_their_tolerance():
    one = jobs.course()
    expected = [one.wall - one.wall_tolerance, one.wall, one.wall + one.wall_tolerance]
    assert quantiles(draws().wall[:, 0]) == pytest.approx(expected, rel=EVEN)
    spread = np.std(draws().wall[:, 0])
    by_hand = one.wall_tolerance / NormalDist().inv_cdf(0.95)
    assert spread == pytest.approx(by_hand, rel=0.01)  # the outermost 1/1024 tails are cut


def test_diameters_water_and_tape_are_normal_about_neutral():
    found = draws()
    half = jobs.JUDGED.diameter_tolerance.value
    for index in range(2):
        expected = [1.0 - half, 1.0, 1.0 + half]
        # relative to the half-width: 512 places leave 1 % of it
        assert quantiles(found.diameter_of(index)) == pytest.approx(expected, abs=0.01 * half)
    judged = jobs.JUDGED
    soft = judged.softening.value * judged.water_tolerance.value
    assert quantiles(found.warmth) == pytest.approx([1 - soft, 1, 1 + soft], abs=0.01 * soft)
    tape = 1.645 * sample.tape_uncertainty(jobs.job())
    assert quantiles(found.tape) == pytest.approx([-tape, 0.0, tape], abs=0.01 * tape)


def test_tape_uncertainty_is_that_of_two_readings():
    before = 2.0 * np.pi * 0.322
    single = (0.5e-3 / np.sqrt(3.0)) ** 2 + 0.06e-3**2 + (2e-5 * before) ** 2
    by_hand = np.sqrt(2.0 * single) / before
    # the tape's thickness takes 0.03 % off the length
    assert sample.tape_uncertainty(jobs.job()) == pytest.approx(by_hand, rel=1e-3)


def test_a_gauge_spreads_evenly_between_its_limits_and_none_is_neutral():
    assert np.all(draws().gauge == 1.0)
    found = draws(gauge=Gauge(4e6, 1.0, 0.5)).gauge
    off = np.max(np.abs(found - 1.0))
    likely = outcome.forming_band(forecast.forecast(jobs.job(), jobs.JUDGED, quick=True)).likely
    # the pressure near the target is a closed form of nominal sizes: a few per cent off
    assert off == pytest.approx(0.04e6 / likely, rel=0.06)
    assert np.std(found) == pytest.approx(off / np.sqrt(3.0), rel=0.02)
    finer = draws(gauge=Gauge(4e6, 1.0, 0.5), second_gauge=Gauge(4e6, 0.25, 0.5)).gauge
    assert np.std(finer) == pytest.approx(0.25 * np.std(found), rel=0.05)


def test_the_same_seed_gives_the_same_draws_and_another_gives_others():
    first, again = draws(), draws()
    other = draws(model=Model(seed=2))
    for name in ("criterion", "rate", "springback", "gained", "strength", "steepness", "wall"):
        assert np.array_equal(getattr(first, name), getattr(again, name)), name
        assert not np.array_equal(getattr(first, name), getattr(other, name)), name


def test_courses_of_one_coil_share_strength_and_wall():
    found = draws()
    assert np.array_equal(found.strength[:, 0], found.strength[:, 1])
    assert np.array_equal(found.wall[:, 0], found.wall[:, 1])


def test_courses_of_two_coils_are_independent():
    other = jobs.course("upper", steel=jobs.steel(certificate=jobs.WEAK_COIL))
    found = draws(courses=[jobs.course(), other])
    for values in (found.strength, found.steepness, found.wall):
        assert abs(np.corrcoef(values[:, 0], values[:, 1])[0, 1]) < LOOSE


def test_two_sheets_of_one_coil_share_strength_but_not_wall():
    found = draws(courses=[jobs.course(), jobs.course("upper", wall=2.5e-3)])
    assert np.array_equal(found.strength[:, 0], found.strength[:, 1])
    assert abs(np.corrcoef(found.wall[:, 0], found.wall[:, 1])[0, 1]) < LOOSE


def test_without_spread_one_draw_of_medians_is_left():
    found = draws(model=Model(spread=False))
    assert found.count == 1
    one = jobs.course()
    # exact medians, only rounding
    assert found.strength[0, 0] == pytest.approx(1.0, rel=1e-12)
    assert found.wall[0, 0] == pytest.approx(one.wall, rel=1e-12)
    assert found.rate[0] == pytest.approx(jobs.JUDGED.rate.likely.value, rel=1e-12)
    assert found.criterion[0] == pytest.approx(np.median(draws().criterion), rel=1e-4)


def test_a_wider_steel_gives_wider_draws():
    wide = replace(jobs.steel(), strength_half_width=0.3)
    found = draws(courses=[jobs.course(steel=wide)])
    assert quantiles(found.strength[:, 0])[2] == pytest.approx(1.3, rel=2 * EVEN)


def test_all_columns_of_a_tank_with_many_coils_are_loose():
    columns = np.array([sample._column(1, sample.DRAWS, number) for number in range(16)])
    assert np.all(np.sort(columns, axis=1) == np.sort(columns[0]))  # each evenly filled
    others = np.corrcoef(columns) - np.eye(len(columns))
    assert np.max(np.abs(others)) < LOOSE


def test_columns_beyond_the_lattice_are_shuffled_and_still_even():
    first, last = (sample._column(1, sample.DRAWS, number) for number in (0, 128))
    assert np.array_equal(np.sort(first), np.sort(last))
    assert not np.array_equal(first, last)  # the 128th power of the lattice would repeat it
    assert abs(np.corrcoef(first, last)[0, 1]) < 0.13  # three standard errors of chance

"""Growth in a hold and the rule that ends it."""

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import holds

A, RATE = 0.0012, 1e-5


def test_growth_in_hold_starts_at_the_arrival_rate_and_ends_logarithmic():
    # after a second the curve has bent by v t/2A = 0.4 %
    assert holds.growth_in_hold(A, RATE, 1.0) == pytest.approx(RATE, rel=5e-3)
    late = holds.growth_in_hold(A, RATE, np.array([1e6, np.e * 1e6]))
    # one e-fold of time; the 120 s before it count 0.01 %
    assert late[1] - late[0] == pytest.approx(A, rel=2e-4)


def test_growth_in_hold_is_the_integral_of_its_rate():
    time = np.linspace(0.0, 3600.0, 200_001)
    rate = RATE / (1.0 + RATE * time / A)
    summed = np.sum(0.5 * (rate[1:] + rate[:-1])) * (time[1] - time[0])  # trapezoids, 1e-9
    assert holds.growth_in_hold(A, RATE, 3600.0) == pytest.approx(summed, rel=1e-7)


@pytest.mark.parametrize("per_e_fold", [0.0005, 0.0012, 0.003])
def test_until_kept_the_mean_rate_of_the_last_half_hour_is_the_limit(per_e_fold):
    end = holds.until_kept(per_e_fold, RATE)
    grown = holds.growth_in_hold(per_e_fold, RATE, np.array([end - holds.WINDOW, end]))
    assert (grown[1] - grown[0]) / holds.WINDOW == pytest.approx(holds.RATE_LIMIT, rel=1e-9)


def test_until_kept_is_never_shorter_than_its_own_window():
    assert holds.until_kept(1e-5, RATE) == holds.WINDOW


def test_the_hold_plan_shows_the_judged_prior_in_rising_times():
    found = holds.hold_plan(jobs.JUDGED)
    assert (found.per_e_fold.low, found.per_e_fold.high) == (0.0005, 0.003)
    assert 1800.0 < found.until_kept.low < found.until_kept.likely < found.until_kept.high
    likely = [item.growth.likely for item in found.growth]
    assert np.all(np.diff(likely) > 0.0)
    assert all(item.growth.low < item.growth.likely < item.growth.high for item in found.growth)

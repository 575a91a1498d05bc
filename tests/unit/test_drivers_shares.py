"""Shares of variance: known sums, squares, and columns that stand still."""

from dataclasses import replace

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import drivers, forecast, outcome
from stretchform.steel.grade import Basis, TrialJoint

RANDOM = np.random.default_rng(5)
X = RANDOM.normal(size=(4000, 3))


def test_shares_of_a_sum_are_the_squares_of_its_factors():
    found = drivers.shares(X, 3.0 * X[:, 0] + 4.0 * X[:, 1])
    # 4000 chance draws: variances are known to 2 %
    assert found == pytest.approx([9.0 / 25.0, 16.0 / 25.0, 0.0], abs=0.03)


def test_shares_see_a_square_and_leave_out_what_acts_only_together():
    found = drivers.shares(X, X[:, 0] ** 2 + X[:, 1] * X[:, 2])
    assert found == pytest.approx([2.0 / 3.0, 0.0, 0.0], abs=0.05)  # var(x²) = 2, var(x y) = 1


def test_shares_of_a_still_column_or_result_are_nothing():
    still = np.column_stack([X[:, 0], np.ones(len(X))])
    assert drivers.shares(still, X[:, 0])[1] == 0.0
    assert np.all(drivers.shares(X, np.ones(len(X))) == 0.0)


def test_drivers_name_each_unknown_once_and_add_up_to_about_one():
    other = jobs.course("upper", steel=jobs.steel(certificate=jobs.WEAK_COIL))
    job = jobs.job(courses=[jobs.course(), other])
    made = forecast.forecast(job, jobs.JUDGED, quick=True)
    found = drivers.drivers(job, made, outcome.forming_band(made))
    names = [(item.unknown, item.courses) for item in found]
    assert len(set(names)) == len(names)
    assert (drivers.CURVE, ("lower",)) in names and (drivers.CURVE, ("upper",)) in names
    assert (drivers.DIAMETER, ()) in names
    # what two coils do only together, and columns that correlate by chance
    assert sum(item.of_pressure for item in found) == pytest.approx(1.0, abs=0.12)
    assert [item.of_pressure for item in found] == sorted(
        (item.of_pressure for item in found), reverse=True
    )


def test_courses_of_one_coil_are_one_driver():
    job = jobs.job()
    made = forecast.forecast(job, jobs.JUDGED, quick=True)
    found = drivers.drivers(job, made, outcome.forming_band(made))
    curve = [item for item in found if item.unknown == drivers.CURVE]
    assert [item.courses for item in curve] == [("lower", "upper")]
    bought = drivers.information(job, jobs.JUDGED, made, outcome.forming_band(made), found)
    half = {item.measurement: item.pressure for item in bought}
    assert half[drivers.TRIAL] < half[drivers.COUPON] < half[drivers.PLANNED]
    assert half[drivers.MAP] < half[drivers.PLANNED]


def test_columns_that_are_bound_to_each_other_count_together():
    bound = np.column_stack([X[:, 0], X[:, 1] - 0.9 * X[:, 0], X[:, 2]])
    result = bound[:, 0] + bound[:, 1] + X[:, 2]  # = 0.1 x0 + x1 + x2
    together = drivers.shares(bound, result, [0, 0, 1])
    # 4000 chance draws: variances are known to 2 %
    assert together == pytest.approx([1.01 / 2.01, 1.0 / 2.01], abs=0.03)


def test_what_a_trial_left_is_one_driver_and_all_shares_add_up_to_about_one():
    bond = np.array([[9e-4, 0.0, -7.3e-4], [0.0, 6.4e-3, 0.0], [-7.3e-4, 0.0, 7.84e-4]])
    steel = replace(jobs.steel(), basis=Basis.TRIAL, joint=TrialJoint(0.9, 1.0, 1.1, bond))
    job = jobs.job(courses=[jobs.course(length=3.0, steel=steel)])
    made = forecast.forecast(job, jobs.JUDGED, quick=True)
    found = drivers.drivers(job, made, outcome.forming_band(made))
    names = [item.unknown for item in found]
    assert names.count(drivers.BOUND) == 1
    assert not {drivers.RULE, drivers.CURVE, drivers.SLOPE} & set(names)
    # what unknowns do only together, and columns that correlate by chance
    assert sum(item.of_pressure for item in found) == pytest.approx(1.0, abs=0.12)

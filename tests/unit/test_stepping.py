"""What each step brings: chances, go-on values, water, holds and readings."""

from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import forecast, outcome, schedule, stepping
from stretchform.planning.job import Supply

WEAK = jobs.steel(certificate=jobs.WEAK_COIL)
CASES = {
    "released 5 %": jobs.growth(0.05),
    "under pressure 3 %": jobs.growth(0.03, under_pressure=True),
    "station of the strong course": jobs.growth(0.02, station="middle of lower"),
}
HAND = Supply("hand pump", stroke=13e-6, relief_pressure=2.75e6)
SHARE = jobs.JUDGED.overshoot.value


@cache
def planned(case):
    courses = [jobs.course(), jobs.course("upper", steel=WEAK)]
    job = jobs.job(courses=courses, target=CASES[case], supply=HAND)
    made = forecast.forecast(job, jobs.JUDGED, quick=True)
    forming = outcome.forming_band(made)
    chosen = schedule.pressures(job, made, forming, CASES[case].value, 0.005)
    return job, made, chosen


@cache
def steps(case):
    job, made, chosen = planned(case)
    goal = job.target.value
    return stepping.steps(job, jobs.JUDGED, made, chosen, goal, goal + 0.01, 0.002, 3000.0)


@cache
def course(case):
    job, made, chosen = planned(case)
    return stepping.course_of(job, jobs.JUDGED, made, chosen, job.target.value)


@pytest.mark.parametrize("case", list(CASES))
def test_the_chance_to_be_past_the_target_grows_from_nothing_to_nearly_one(case):
    chances = [step.chance_over_target for step in steps(case)]
    assert chances[0] == chances[2] == 0.0
    assert np.all(np.diff(chances) >= 0.0)
    _, made, chosen = planned(case)
    forming = outcome.forming_band(made)
    if chosen[-1] == forming.high:
        assert chances[-1] == pytest.approx(0.95, abs=0.01)  # the 95 % pressure
    else:  # the low maximum comes first
        assert chances[-1] < 0.95


@pytest.mark.parametrize("case", list(CASES))
def test_chance_of_overshoot_is_small_for_all_that_kept_the_go_on_value(case):
    assert all(step.chance_of_overshoot <= SHARE for step in steps(case))


@pytest.mark.parametrize("case", list(CASES))
def test_chance_of_overshoot_is_small_at_the_go_on_value_itself(case):
    """The tanks that read just below it, a third of a step at most, not only all together."""
    found = course(case)
    past = near = 0
    for index in range(3, len(found.pressures) - 1):
        reading, limit = found.meant[:, index], found.go_on[index]
        just = ~found.past[:, index] & (reading <= limit) & (reading > limit - 0.0017)
        near += int(np.sum(just))
        past += int(np.sum(found.past[just, index + 1]))
    assert near > 150
    # the share itself and two standard errors of its count
    assert past / near < SHARE + 2.0 * np.sqrt(SHARE / near)


@pytest.mark.parametrize("case", list(CASES))
def test_the_go_on_value_lies_below_the_target_and_the_stop_value(case):
    for step in steps(case)[:-1]:
        for station in step.stations:
            assert station.go_on_below <= station.stop_above
    assert all(station.go_on_below is None for station in steps(case)[-1].stations)


def test_circumferences_are_in_order_and_released_ones_are_smaller():
    for step in steps("released 5 %"):
        for station in step.stations:
            band, back = station.circumference, station.released
            assert band.low <= band.likely <= band.high
            assert back.likely < band.likely
            assert station.stop_above == pytest.approx(2 * np.pi * 0.322 * 1.062, rel=1e-12)


def test_holds_are_long_once_the_target_may_be_near():
    found = steps("released 5 %")
    assert [step.yielding for step in found[:4]] == [False, False, False, True]
    assert {step.hold for step in found if not step.yielding} == {120.0}
    for step in found[3:]:
        assert step.full_hold == (step.chance_over_target >= SHARE)
        assert step.hold == (1800.0 if step.full_hold else 900.0)


def test_gauge_reading_counts_the_water_above_the_gauge():
    for step in steps("released 5 %"):
        assert step.gauge_reading - step.pressure == pytest.approx(3000.0, rel=1e-9)


def test_water_rises_and_strokes_follow_from_it():
    found = steps("released 5 %")
    amounts = [step.water_in.likely for step in found[:12]]
    assert np.all(np.diff(amounts) > 0.0)
    for step in found:
        assert step.strokes == pytest.approx(step.water_in.likely / 13e-6)
        assert step.pumping is None


def test_the_chance_over_the_share_of_the_maximum_is_counted():
    job, made, _ = planned("released 5 %")
    for step in steps("released 5 %")[:5]:
        assert step.chance_over_share == 0.0
    high = np.array([outcome.band(made.maximum_pressure).high])
    one = stepping.steps(job, jobs.JUDGED, made, high, 0.05, 0.06, 0.002, 0.0)[0]
    assert one.chance_over_share > 0.9


def test_the_likely_pressure_passes_the_target_in_half_of_the_draws():
    job, made, _ = planned("released 5 %")
    at = np.array([outcome.forming_band(made).likely])
    one = stepping.steps(job, jobs.JUDGED, made, at, 0.05, 0.06, 0.002, 0.0)[0]
    assert one.chance_over_target == pytest.approx(0.5, abs=0.01)  # ties at one draw of 512


def test_a_tank_that_is_there_is_not_pumped_further():
    """What is expected at a step counts only draws that the step before left below target."""
    _, made, chosen = planned("released 5 %")
    loaded = forecast.growth_at(made, chosen[-2:])[0]
    going = ~course("released 5 %").past[:, -2]
    expected = outcome.band(loaded[going, 1, 0])
    found = steps("released 5 %")[-1].stations[0].circumference
    before = 2.0 * np.pi * 0.322
    assert found.likely == pytest.approx(before * (1.0 + expected.likely), rel=1e-12)
    assert expected.high < outcome.band(loaded[:, 1, 0]).high

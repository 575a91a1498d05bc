"""The pressure steps: small, rising, and honest about the chance to pass the target."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import forecast, outcome, schedule, walls
from stretchform.planning.tank import Station

STEP = 0.005
WEAK = jobs.steel(certificate=jobs.WEAK_COIL)
CASES = {
    "released 5 %": jobs.growth(0.05),
    "under pressure 3 %": jobs.growth(0.03, under_pressure=True),
    "released 12 %": jobs.growth(0.12),
    "station of the strong course": jobs.growth(0.02, station="middle of lower"),
}


@cache
def planned(case):
    courses = [jobs.course(), jobs.course("upper", steel=WEAK)]
    job = jobs.job(courses=courses, target=CASES[case])
    made = jobs.closed(job)
    forming = outcome.forming_band(made)
    chosen = schedule.pressures(job, made, forming, CASES[case].value, STEP)
    return job, made, forming, chosen


def test_first_yield_is_the_pressure_at_two_tenths_of_a_per_cent():
    _, made, _, _ = planned("released 5 %")
    found = schedule.first_yield(made)
    assert np.all(found < made.target_pressure)
    strains = [
        np.ravel(walls.strain_at_pressure(wall, (found + head)[:, None]))
        for wall, head in zip(made.walls, made.heads_of_water[-2:], strict=True)
    ]
    assert np.max(strains, axis=0) == pytest.approx(np.full(len(found), 0.002), rel=1e-9)


@pytest.mark.parametrize("case", list(CASES))
def test_pressures_rise_from_quarters_of_first_yield_to_the_end_of_the_steps(case):
    job, made, forming, chosen = planned(case)
    assert np.all(np.diff(chosen) > 0.0)
    start = min(outcome.band(schedule.first_yield(made)).low, forming.low)
    assert chosen[:4] == pytest.approx(start * np.array([0.25, 0.5, 0.75, 1.0]))
    assert chosen[-1] == schedule.end_of_steps(job, made, forming)


def test_valve_and_low_maximum_end_the_steps():
    job, made, forming, _ = planned(next(iter(CASES)))
    lowest = outcome.band(made.maximum_pressure).low
    bare = replace(job, supply=replace(job.supply, relief_pressure=None))
    assert schedule.end_of_steps(bare, made, forming) == min(forming.high, lowest)
    valve = replace(job, supply=replace(job.supply, relief_pressure=0.9 * forming.low))
    end = schedule.end_of_steps(valve, made, forming)
    assert 0.95 * 0.9 * forming.low < end < 0.9 * forming.low  # a little below the valve
    chosen = schedule.pressures(valve, made, forming, 0.05, STEP)
    assert chosen[-1] == end


@pytest.mark.parametrize("case", list(CASES))
def test_no_step_grows_more_than_allowed(case):
    """95 of 100 draws that have not reached the target grow by at most half a point.

    Where a strong course is meant the weak one passes the target long before: it is counted.
    """
    job, made, _, chosen = planned(case)
    released = forecast.growth_at(made, chosen)[1]
    meant, anywhere = outcome.at_target(job, made, released), outcome.largest(released)
    for index in range(3, len(chosen) - 1):
        if chosen[index + 1] <= 1.0021 * chosen[index]:
            continue  # the least rise: the wall runs away there
        going = (meant[:, index] < job.target.value) & ~np.isnan(anywhere[:, index])
        rise = np.nan_to_num(anywhere[going, index + 1], nan=np.inf) - anywhere[going, index]
        ordered = np.sort(rise)
        # straight lines between 49 levels: at 12 % the curve bends by a fifth of a step between
        assert ordered[int(0.95 * (len(ordered) - 1))] <= 1.25 * STEP


def test_near_the_maximum_the_steps_still_end():
    stiff = jobs.steel("1.4318", jobs.Certificate(480e6, 700e6))  # invented: it hardens little
    one = jobs.course(length=3.0, steel=stiff)
    job = jobs.job(
        courses=[one], target=jobs.growth(0.11), stations=[Station("middle", 1.5, "lower")]
    )
    made = jobs.closed(job)
    forming = outcome.forming_band(made)
    chosen = schedule.pressures(job, made, forming, 0.11, STEP)
    assert chosen[-1] == schedule.end_of_steps(job, made, forming)
    assert len(chosen) < 350  # 0.2 % a step from first yield would be that many

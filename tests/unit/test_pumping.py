"""Water that goes in: by hand below yield, more with growth, and an upper bound without ends."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import forecast, outcome, pumping, size
from stretchform.planning.job import Water
from stretchform.water import properties, supply

JOB = jobs.one_course(water=Water(air=0.0))


@cache
def made():
    return forecast.forecast(JOB, jobs.JUDGED, quick=True)


def water(pressures, job=JOB):
    at = np.array(pressures)
    released = forecast.growth_at(made(), at)[1]
    return pumping.water_in(job, jobs.JUDGED, made(), at, released)


def test_elastic_swelling_is_that_of_one_closed_course():
    course = JOB.tank.courses[0]
    modulus = float(np.median(made().walls[0].elastic.youngs_modulus))
    ratio = course.steel.poisson_ratio.value
    by_hand = course.radius / (modulus * course.wall) * (2.5 - 2.0 * ratio)
    assert pumping.elastic_swelling(JOB, made()) == pytest.approx(by_hand, rel=1e-12)


def test_below_yield_water_in_is_compliance_times_pressure():
    at = 0.4e6
    volume = size.volume(JOB.tank)
    stiff = properties.isothermal_stiffness(20.0, 0.0)
    by_hand = volume * at * (1.0 / stiff + pumping.elastic_swelling(JOB, made()))
    # the water's stiffness rises by 0.05 % up to 0.4 MPa, half of that on the mean
    assert water([at])[0, 0] == pytest.approx(by_hand, rel=1e-3)
    give = pumping.compliance(JOB, jobs.JUDGED, made())
    assert give * at == pytest.approx(by_hand, rel=1e-12)


def test_volume_now_of_one_course_is_that_of_its_grown_bore():
    at = np.array([outcome.forming_band(made()).likely])
    released = forecast.growth_at(made(), at)[1]
    found = pumping.volume_now(JOB, made(), at, released)[:, 0]
    course, growth = JOB.tank.courses[0], released[:, 0, -1]
    outer, inner = course.radius + 0.5 * course.wall, course.radius - 0.5 * course.wall
    # closed ends: no plastic change of length, so the section of the wall is kept
    bore2 = (outer * (1.0 + growth)) ** 2 - (outer**2 - inner**2)
    by_hand = size.volume(JOB.tank) + np.pi * (bore2 - inner**2) * course.length
    good = np.isfinite(found)
    assert found[good] == pytest.approx(by_hand[good], rel=1e-9)


def test_water_in_rises_with_pressure_and_is_an_upper_bound_without_ends():
    amounts = water(np.linspace(0.2e6, outcome.forming_band(made()).low, 12))
    steps = np.diff(amounts, axis=1)
    assert np.all(steps[np.isfinite(steps)] > 0.0)
    assert pumping.upper_bound(made())


def test_air_and_hose_take_water_of_their_own():
    airy = replace(JOB, water=Water(air=0.001))
    volume, at = size.volume(JOB.tank), 0.4e6
    more = water([at], airy)[0, 0] - water([at])[0, 0]
    assert more == pytest.approx(0.001 * volume * at / (at + 101_325.0), rel=1e-9)
    line = replace(JOB.supply, hose_length=10.0, hose_bore=8e-3)
    hosed = replace(JOB, supply=line)
    give = pumping.hose_give(hosed, jobs.JUDGED)
    swelling = jobs.JUDGED.hose_swelling.value
    assert give == supply.hose_compliance(10.0, 8e-3, swelling, 20.0)
    more = water([at], hosed)[0, 0] - water([at])[0, 0]
    assert more == pytest.approx(give * at, rel=1e-9)
    assert pumping.hose_give(JOB, jobs.JUDGED) == 0.0

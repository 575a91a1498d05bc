"""Gauges, relief valve and pump, told in growth."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import forecast, instruments, outcome, size
from stretchform.planning.job import Gauge
from stretchform.planning.tank import Attitude

GAUGE = Gauge(4e6, 1.0, 0.5)
JOB = jobs.job(gauge=GAUGE, second_gauge=Gauge(6e6, 0.6, 3.0))


@cache
def made():
    return forecast.forecast(jobs.job(), jobs.JUDGED, quick=True)


def found(job=JOB, points=0.3):
    return instruments.instruments(job, made(), outcome.forming_band(made()), points)


def test_a_class_one_gauge_of_four_megapascals_is_worth_its_error_on_the_slope():
    first, second = found().gauges
    likely = outcome.forming_band(made()).likely
    assert first.limit == pytest.approx(0.04e6)
    assert first.growth == pytest.approx(0.3 * 0.04e6 / likely)  # 0.3 points for 1 %
    assert first.range_share == pytest.approx(4e6 / likely)
    assert (first.name, second.name) == ("first", "second")
    assert second.limit == pytest.approx(0.036e6)


def test_gauge_head_is_the_water_from_the_top_of_the_tank_to_the_gauge():
    top = size.top_height(JOB.tank)
    assert instruments.gauge_head(JOB, GAUGE) == pytest.approx(9789.0 * (top - 0.5), rel=1e-4)
    above = instruments.gauge_head(JOB, Gauge(4e6, 1.0, top + 1.0))
    assert above == pytest.approx(-9789.0, rel=1e-4)
    assert instruments.gauge_head(JOB, None) == 0.0
    lying = jobs.job(attitude=Attitude.LYING)
    assert instruments.gauge_head(lying, GAUGE) == 0.0


def test_the_relief_valve_is_told_by_growth_at_eleven_tenths_of_its_setting():
    at = np.array([1.1 * 2.75e6])
    growth = outcome.largest(forecast.growth_at(made(), at)[1])[:, 0]
    assert found().relief_growth == outcome.band(growth)
    assert (
        found(jobs.job(supply=replace(jobs.PUMP, relief_pressure=None))).relief_growth is None
    )


def test_relief_capacity_and_reaction_follow_from_the_flows():
    line = replace(jobs.PUMP, kind="motor pump", flow=2e-5, relief_flow=5e-5)
    made_of = found(jobs.job(supply=line))
    assert made_of.relief_share == pytest.approx(2.5)
    by_hand = 2e-5 * 10.0 / (2.0 * size.volume(JOB.tank))
    assert made_of.reaction_growth == pytest.approx(by_hand)
    hand = found(jobs.job(supply=replace(jobs.PUMP, stroke=40e-6)))
    assert hand.reaction_growth == pytest.approx(2.0 * by_hand)  # a stroke a second
    assert found().reaction_growth is None and found().relief_share is None

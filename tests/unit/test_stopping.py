"""Stops: water between target and limit, the drum, the rise of pressure and the leak."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import forecast, outcome, pumping, stopping

JOB = jobs.job()


@cache
def made():
    return forecast.forecast(JOB, jobs.JUDGED, quick=True)


def stops(limit=0.06):
    return stopping.stops(JOB, jobs.JUDGED, made(), 0.05, limit, 0.002)


def test_the_drum_holds_the_likely_need_and_never_the_water_of_the_limit():
    found = stops()
    need = found.water_at_target
    assert need.low <= need.likely <= need.high
    assert found.drum == min(need.likely, found.water)
    assert need.likely < found.water
    tight = stops(limit=0.0505)
    assert tight.water < found.water and tight.drum <= tight.water


def test_the_water_at_the_target_is_that_of_the_forecast_there():
    at = made().target_pressure[:, None]
    released = forecast.growth_at(made(), at)[1]
    direct = pumping.water_in(JOB, jobs.JUDGED, made(), at, released)[:, 0]
    # straight lines between 49 levels, where a level is half a point of growth
    assert stops().water_at_target.likely == pytest.approx(np.nanmedian(direct), rel=5e-3)


def test_a_litre_raises_the_pressure_as_two_close_forecasts_say():
    low, high = (
        stopping.stops(JOB, jobs.JUDGED, made(), growth, 0.08, 0.0).water_at_target.likely
        for growth in (0.045, 0.055)
    )
    growth = outcome.largest(made().growth_released)
    rows = [row for row in growth if np.isfinite(row).all() or np.nanmax(row) > 0.06]
    pressures = [
        [
            np.interp(value, row[np.isfinite(row)], made().pressures[np.isfinite(row)])
            for value in (0.045, 0.055)
        ]
        for row in rows
    ]
    rise = np.median(np.diff(pressures, axis=1)) / (high - low)
    # one level against two points that lie a point of growth apart on a bent curve
    assert stops().rise_per_water == pytest.approx(rise, rel=0.1)


def test_a_leak_of_a_millilitre_a_minute_is_divided_by_the_compliance():
    found = stops()
    assert found.compliance == pumping.compliance(JOB, jobs.JUDGED, made())
    assert found.leak_fall * 60.0 == pytest.approx(1e-6 / found.compliance, rel=1e-12)


def test_a_target_that_no_draw_reaches_leaves_endless_water():
    lost = replace(made(), growth_released=made().growth_released * 0.1)
    found = stopping.stops(JOB, jobs.JUDGED, lost, 0.05, 0.06, 0.002)
    assert found.water == np.inf and found.rise_per_water == 0.0

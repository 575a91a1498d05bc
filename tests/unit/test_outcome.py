"""Bands over the draws, and what the tank becomes at its target."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import forecast, outcome, sample
from stretchform.planning.tank import Station


@cache
def made():
    return jobs.closed(jobs.job())


@cache
def stations():
    return outcome.stations(jobs.job(), made())


def test_a_band_is_the_5_50_and_95_per_cent_quantile():
    found = outcome.band(np.arange(101.0)[::-1])
    assert (found.low, found.likely, found.high) == (5.0, 50.0, 95.0)
    values = np.random.default_rng(1).normal(size=777)
    found = outcome.band(values)
    expected = np.quantile(values, [0.05, 0.5, 0.95])  # numpy's default is the same definition
    assert [found.low, found.likely, found.high] == pytest.approx(expected, rel=1e-12)


def test_a_draw_without_an_answer_counts_as_endless():
    values = np.arange(101.0)
    values[[3, 50, 70, 71, 72, 73]] = np.nan  # six of 101: beyond the 95 % place
    found = outcome.band(values)
    assert found.high == np.inf
    assert np.isfinite(found.low) and np.isfinite(found.likely)


def test_one_endless_value_at_the_very_place_is_not_mixed_in():
    values = np.arange(101.0)
    values[96:] = np.nan  # the 95 % place is index 95 exactly
    assert outcome.band(values).high == 95.0


def test_a_draw_without_an_answer_forms_at_its_maximum():
    target = made().target_pressure.copy()
    target[:] = np.nan
    blind = replace(made(), target_pressure=target)
    assert outcome.forming_band(blind) == outcome.band(made().maximum_pressure)
    assert outcome.forming_band(made()) == outcome.band(made().target_pressure)


def test_the_largest_growth_is_taken_over_the_points():
    values = np.array([[[0.01, 0.03], [0.02, np.nan]]])
    found = outcome.largest(values)
    assert found[0, 0] == 0.03
    assert np.isnan(found[0, 1])


def test_growth_where_the_target_is_meant():
    values = made().growth_released
    named = jobs.job(target=jobs.growth(station="middle of upper"))
    assert np.array_equal(
        outcome.at_target(named, made(), values), values[..., 1], equal_nan=True
    )
    most = outcome.at_target(jobs.job(), made(), values)
    assert np.array_equal(most, outcome.largest(values), equal_nan=True)


def test_growth_at_the_forecasts_own_levels_is_the_forecast():
    loaded, released = forecast.growth_at(made(), made().pressures)
    assert np.array_equal(loaded, made().growth_under_pressure, equal_nan=True)
    assert np.array_equal(released, made().growth_released, equal_nan=True)


@pytest.mark.parametrize(
    ("height", "near"),
    [
        (0.0, True),
        (0.3851, True),
        (0.3853, False),
        (1.5, False),
        (2.6647, False),
        (2.6649, True),
    ],
)
def test_a_station_within_1_2_radii_of_a_head_is_near_it(height, near):
    # 1.2 radii are 0.3852 m; the tank is 3.05 m long between its tangent lines
    assert outcome.near_head(jobs.job(), height, jobs.course()) is near


def test_the_station_of_the_target_ends_on_the_target():
    job = jobs.job(target=jobs.growth(station="middle of lower"))
    found = outcome.stations(job, jobs.closed(job))[0]
    band = found.growth_released
    # the tape shows the target; its error leaves a band of 1.645 standard uncertainties
    off = 1.645 * sample.tape_uncertainty(job)
    ends = [0.05 - off, 0.05, 0.05 + off]
    assert [band.low, band.likely, band.high] == pytest.approx(ends, abs=0.03 * off)
    under = jobs.job(target=jobs.growth(under_pressure=True, station="middle of lower"))
    found = outcome.stations(under, jobs.closed(under))[0]
    band = found.growth_under_pressure
    assert [band.low, band.likely, band.high] == pytest.approx(ends, abs=0.03 * off)
    assert found.growth_released.likely < 0.05


def test_a_station_keeps_the_volume_of_its_wall():
    one = stations()[0]
    growth = one.growth_released.likely
    # circumference and wall change against each other; outside for mid-wall is t/(2r) = 0.3 %
    # of the growth, and medians of the two differ by less
    assert one.wall_released * (1.0 + growth) == pytest.approx(one.wall_before, rel=5e-4)
    assert one.wall_under_pressure < one.wall_released < one.wall_before


def test_circumferences_follow_from_growth():
    for one in stations():
        assert one.circumference_before == pytest.approx(2.0 * np.pi * 0.322, rel=1e-12)
        assert one.circumference_released.high == pytest.approx(
            one.circumference_before * (1.0 + one.growth_released.high), rel=1e-12
        )
        assert one.circumference_under_pressure.low == pytest.approx(
            one.circumference_before * (1.0 + one.growth_under_pressure.low), rel=1e-12
        )


def test_gained_yield_is_the_share_of_the_flow_stress_reached():
    one = stations()[0]
    strain = 1.113 * np.log1p(one.growth_released.likely)  # median C of the judged triangle
    flow = float(jobs.steel().curve.stress(strain))
    # medians of products and the mapping to mid-wall leave 1 %
    assert one.gained_yield.likely == pytest.approx(0.95 * flow, rel=0.01)
    assert one.yield_before == jobs.steel().proof_02
    assert one.gained_yield.low < one.gained_yield.likely < one.gained_yield.high


def test_at_a_stated_pressure_every_draw_is_taken_there():
    pressure = float(np.median(made().target_pressure))
    found = outcome.stations(jobs.job(), made(), pressure)[0]
    at = forecast.growth_at(made(), np.array([pressure]))[1][:, 0, 0]
    good = at[~np.isnan(at)]
    assert found.growth_released.likely == pytest.approx(np.median(good), rel=1e-9)  # same sum
    assert found.growth_released.high - found.growth_released.low > 0.01


def test_without_an_answer_a_station_has_no_sizes_and_no_warning():
    blind = replace(made(), target_pressure=np.full(made().draws.count, np.nan))
    found = outcome.stations(jobs.job(), blind)[0]
    assert found.growth_released.likely == np.inf
    assert np.isnan(found.wall_released)


def test_stations_near_a_head_are_marked():
    places = [Station("end", 0.1, "lower"), Station("middle", 1.5, "lower")]
    job = jobs.job(courses=[jobs.course(length=3.0)], stations=places)
    found = outcome.stations(job, jobs.closed(job))
    assert [one.near_head for one in found] == [True, False]

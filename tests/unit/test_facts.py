"""What the cautions are told of a forecast."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import basis, facts, forecast, outcome, plating
from stretchform.planning.tank import Station

BASE = jobs.job(plates=(jobs.plate(heights=(0.1, 1.0)),))


@cache
def made():
    return jobs.closed(BASE)


def known(job=BASE, forecast_made=None):
    found = forecast_made or made()
    forming = outcome.forming_band(found)
    return facts.facts(
        job,
        jobs.JUDGED,
        found,
        forming,
        basis.basis(job, jobs.JUDGED, found, forming),
        outcome.stations(job, found),
        plating.plates(job, found, forming, 0.06),
        (),
        0.06,
    )


def of(**fields):
    job = jobs.job(**fields)
    return known(job, jobs.closed(job))


def test_the_share_of_pressure_is_the_median_share():
    shares = made().target_pressure / made().maximum_pressure
    assert known().share_of_pressure == pytest.approx(np.median(shares), rel=1e-12)  # same sum
    assert 0.7 < known().share_of_pressure < 0.95


def test_the_share_of_growth_counts_growth_at_the_likely_pressure():
    likely = np.array([outcome.forming_band(made()).likely])
    growth = outcome.largest(forecast.growth_at(made(), likely)[1])[:, 0]
    shares = np.where(np.isnan(growth), np.inf, growth) / made().growth_at_maximum
    assert known().share_of_growth == pytest.approx(np.median(shares), rel=1e-12)  # same sum


def test_draws_without_an_answer_have_reached_their_maximum():
    lost = made().target_pressure.copy()
    lost[:400] = np.nan
    found = known(forecast_made=replace(made(), target_pressure=lost))
    assert found.no_answer == 400 / 512
    assert found.share_of_pressure == 1.0


def test_growth_over_relief_is_taken_at_eleven_tenths_of_the_setting():
    at = np.array([1.1 * 2.75e6])
    growth = outcome.largest(forecast.growth_at(made(), at)[1])[:, 0]
    assert known().growth_over_relief == outcome.band(growth).likely
    high = of(supply=replace(jobs.PUMP, relief_pressure=6e6))
    assert high.growth_over_relief == np.inf
    assert of(supply=replace(jobs.PUMP, relief_pressure=None)).growth_over_relief == 0.0


def test_hoop_stress_over_flow_stress_is_near_one_for_the_plan():
    ratio = known().stress_over_flow["forming pressure"]
    # C 1.11 times rate 0.95 on the grown radius and the thinned wall; the median of the product
    # lies 0.6 % below that of the factors, and elastic thinning takes 0.4 %
    assert ratio == pytest.approx(1.113 * 0.95, rel=0.015)


@pytest.mark.parametrize("factor", [0.0689, 0.1, 10.0, 14.5])
def test_a_relief_pressure_in_another_unit_stands_out(factor):
    """bar for psi, MPa for bar: far outside what a wall that flows can have."""
    wrong = of(supply=replace(jobs.PUMP, relief_pressure=2.75e6 * factor))
    ratio = wrong.stress_over_flow["relief pressure"]
    assert ratio == pytest.approx(
        factor * known().stress_over_flow["relief pressure"], rel=1e-9
    )
    assert not 0.7 <= ratio <= 1.5


def test_nothing_is_said_of_stresses_where_no_draw_reaches_the_target():
    blind = replace(made(), target_pressure=np.full(made().draws.count, np.nan))
    assert known(forecast_made=blind).stress_over_flow == {}


@pytest.mark.parametrize(("length", "short"), [(1.283, True), (1.285, False)])
def test_a_shell_below_two_diameters_is_short(length, short):
    assert of(courses=[jobs.course(length=length)]).short is short  # 4 radii are 1.284 m


def test_stations_and_plates_near_a_head_are_named_once():
    assert known().plates_near_head == ("ring",)
    assert known().near_head == ()
    ends = [Station("end", 0.1, "lower"), Station("other end", 2.9, "upper")]
    assert of(stations=ends).near_head == ("end", "other end")


def test_a_plate_that_fails_its_checks_is_named():
    tight = jobs.plate("tight", (1.0,), tab_clearance=0.0, arm=None)
    assert of(plates=(tight,)).plates_failing == ("tight",)


def test_the_thickest_wall_counts():
    pair = of(courses=[jobs.course(), jobs.course("upper", wall=3e-3)])
    assert pair.thinnest == pytest.approx(0.321 / 3e-3, rel=1e-12)  # rounding

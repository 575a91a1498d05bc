"""Heads and openings of a plan; every tank here is invented."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import ends, forecast, outcome
from stretchform.planning.tank import HeadShape, Opening

THIN = jobs.head(HeadShape.TORISPHERE, wall=2.0e-3, crown_radius=0.64, knuckle_radius=0.064)


@cache
def made(kind, quick=False):
    head = THIN if kind is HeadShape.TORISPHERE else jobs.head(kind)
    job = jobs.job(tank=jobs.tank(bottom=head, top=head))
    return job, forecast.forecast(job, jobs.JUDGED, quick)


def plans(kind):
    job, found = made(kind)
    return ends.head_plans(job, found, outcome.forming_band(found))


def test_a_thin_torisphere_is_flagged_with_pressures_of_every_rule():
    for head in plans(HeadShape.TORISPHERE):
        assert head.lowest_hoop_stress < -100e6  # the knuckle is pressed together
        assert head.wrinkling is not None
        assert head.wrinkling.collapse_galletly == pytest.approx(
            1.5 * head.wrinkling.allowable_galletly  # 120 over 80
        )
        limit = 1.5 * head.wrinkling.allowable_en
        forming = outcome.forming_band(made(HeadShape.TORISPHERE)[1]).likely
        assert head.wrinkling.forming_over_limit == pytest.approx(forming / limit)


def test_a_hemisphere_is_not_flagged_and_hardly_moves():
    for head in plans(HeadShape.HEMISPHERE):
        assert head.wrinkling is None
        assert abs(head.depth_change) < 3e-3  # metres; the knuckled heads move 5 to 40 mm


def test_heads_yield_before_the_forming_pressure_and_the_thin_one_first():
    thin = plans(HeadShape.TORISPHERE)[0].first_yield_pressure
    ellipsoid = plans(HeadShape.ELLIPSOID)[0].first_yield_pressure
    forming = outcome.forming_band(made(HeadShape.ELLIPSOID)[1]).likely
    assert thin < ellipsoid < forming


def test_the_quick_form_knows_no_heads_and_no_profile():
    job, found = made(HeadShape.ELLIPSOID, quick=True)
    assert ends.head_plans(job, found, outcome.forming_band(found)) == ()
    assert ends.profile(job, found) is None


def test_tied_ends_are_no_heads():
    job, found = made(HeadShape.TIED)
    assert ends.head_plans(job, found, outcome.forming_band(found)) == ()


def test_each_kind_of_head_has_its_torisphere():
    assert ends.equivalent(jobs.head(HeadShape.HEMISPHERE), 0.64) is None
    assert ends.equivalent(jobs.head(HeadShape.TIED), 0.64) is None
    ellipsoid = ends.equivalent(jobs.head(HeadShape.ELLIPSOID), 0.64)
    assert ellipsoid.crown_radius == pytest.approx(0.9 * 0.64)
    own = ends.equivalent(THIN, 0.64)
    assert (own.crown_radius, own.knuckle_radius) == (0.64, 0.064)


def test_the_profile_falls_to_the_heads_and_reaches_the_target():
    job, found = made(HeadShape.ELLIPSOID)
    profile = ends.profile(job, found)
    assert profile.released_likely[0] < 0.2 * np.max(profile.released_likely)
    # the largest growth lies between two of 25 heights: at most 0.1 points above the highest
    assert np.max(profile.released_likely) == pytest.approx(job.target.value, abs=1e-3)
    assert np.all(profile.released_low <= profile.released_high)


def test_an_opening_flags_what_stands_within_half_a_radius():
    job, found = made(HeadShape.ELLIPSOID, quick=True)
    station = job.tank.stations[0]
    course = next(item for item in job.tank.courses if item.name == station.course)
    reach = 0.02 + ends.KEEP_OUT * float(course.radius)

    def flagged(shift):
        port = Opening("port", course.name, 0.04, station.height + shift)
        at = replace(job, tank=replace(job.tank, openings=(port,)))
        return ends.opening_plans(at, outcome.forming_band(found))[0]

    near, far = flagged(0.99 * reach), flagged(1.01 * reach)
    assert station.name in near.stations and station.name not in far.stations
    forming = outcome.forming_band(found)
    assert near.thrust == pytest.approx(np.pi * 0.02**2 * forming.high)  # p A on its cover

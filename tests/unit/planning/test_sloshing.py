"""Slosh of a plan against the functions of the plates' folder."""

import planning_jobs as jobs
import pytest

from stretchform.planning import sloshing
from stretchform.planning.job import Contents
from stretchform.plates import slosh

MM = 1e-3
CONTENTS = Contents(liquid_density=1000.0, level=1.5, acceleration=9.80665)


def plan(*rows, **fields):
    return jobs.plan(jobs.job(plates=rows, contents=CONTENTS, **fields))


def test_with_rings_counts_each_ring_below_the_surface():
    found = plan(jobs.plate(heights=(1.0, 1.4, 1.7)))
    first, second, dry = found.plates
    deep = CONTENTS.level - 1.4
    alone = slosh.ring_damping(0.32, 60 * MM, deep, 0.1 * 0.32, 1 * MM)
    assert second.damping.before == pytest.approx(alone, rel=1e-12)
    assert dry.damping is None
    state = found.slosh.before
    total = first.damping.before + second.damping.before + state.mode.smooth_damping
    assert state.damping == pytest.approx(total, rel=1e-12)


def test_growth_lowers_level_frequency_and_the_spacing_that_damps_enough():
    found = plan(jobs.plate(heights=(1.0, 1.3)))
    before, after = found.slosh.before, found.slosh.after
    assert after.level == pytest.approx(before.level * (before.radius / after.radius) ** 2)
    assert after.radius == pytest.approx(0.32 * 1.05, rel=2e-3)  # inside grows a little more
    assert after.mode.frequency < before.mode.frequency
    assert after.spacing < before.spacing


def test_the_bottom_head_counts_as_a_length_of_the_same_volume():
    """2:1 ellipsoid: two thirds of its depth, R/2; flange and first course as they are."""
    state = plan(jobs.plate()).slosh.before
    assert state.depth == pytest.approx(CONTENTS.level + 2 / 3 * 0.16, rel=1e-6)


def test_spacing_keeps_the_damping_that_is_wanted():
    found = plan(jobs.plate(heights=(1.0,)))
    state = found.slosh.before
    kept = slosh.ring_damping(state.radius, 60 * MM, state.spacing, 0.1 * state.radius, 1 * MM)
    assert kept == pytest.approx(sloshing.WANTED, rel=1e-9)


def test_full_plates_are_not_evaluated():
    full = jobs.plate("full", heights=(0.5,), ring_width=None)
    found = plan(full, jobs.plate(heights=(1.2,)))
    assert found.slosh.not_evaluated == ("full",)
    assert found.slosh.before.damping is None
    assert found.plates[0].damping is None


def test_no_contents_no_slosh():
    found = jobs.plan(jobs.job(plates=(jobs.plate(),)))
    assert found.slosh is None
    assert found.plates[0].damping is None


def test_rings_outside_the_range_are_said():
    found = plan(jobs.plate(heights=(1.49,), ring_width=80 * MM))
    assert found.slosh.outside == ("wide-ring", "near-surface")


def test_a_ring_that_growth_brings_near_the_surface_is_said():
    """0.1 m below the surface before; the level falls by 9 % of 1.5 m."""
    found = plan(jobs.plate(heights=(1.35,)))
    assert found.slosh.after.level - 1.35 < 0.1 * found.slosh.after.radius
    assert found.slosh.outside == ("near-surface",)

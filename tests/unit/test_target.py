"""Every kind of target against the others, and what cannot be asked."""

from dataclasses import replace

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.errors import NoSolution
from stretchform.planning import sample, target, walls
from stretchform.planning.job import Target, TargetKind

COURSE = jobs.course()
OUTSIDE = COURSE.radius + 0.5 * COURSE.wall
INSIDE = COURSE.radius - 0.5 * COURSE.wall
GAINED = 0.95


def growth_for(kind, value, **fields):
    job = jobs.without_spread(target=Target(kind, value, False, "largest"), **fields)
    wall = walls.walls_of(job, sample.draw(job, jobs.JUDGED))[0]
    return float(target.growth(job, job.tank.courses[0], wall, GAINED))


def inside_after(growth):
    outer = OUTSIDE * (1.0 + growth)
    return 2.0 * np.sqrt(outer**2 - (OUTSIDE**2 - INSIDE**2))


def strength_after(growth):
    job = jobs.without_spread()
    wall = walls.walls_of(job, sample.draw(job, jobs.JUDGED))[0]
    strain = walls.strain_at_outside(wall, growth, under_pressure=False)[0, 0]
    return GAINED * float(COURSE.steel.curve.stress(strain))


@pytest.mark.parametrize("growth", [0.01, 0.05, 0.12])
@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (TargetKind.GROWTH, lambda growth: growth),
        (TargetKind.OUTSIDE_DIAMETER, lambda growth: 2.0 * OUTSIDE * (1.0 + growth)),
        (TargetKind.OUTSIDE_CIRCUMFERENCE, lambda g: 2.0 * np.pi * OUTSIDE * (1.0 + g)),
        (TargetKind.INSIDE_DIAMETER, inside_after),
        (TargetKind.GAINED_YIELD_STRENGTH, strength_after),
    ],
)
def test_every_kind_of_target_gives_the_same_growth(growth, kind, value):
    # 60 halvings and the differences of near sizes leave 1e-12 of growth
    assert growth_for(kind, value(growth)) == pytest.approx(growth, abs=1e-12)


def test_the_inside_grows_more_than_the_outside():
    same = growth_for(TargetKind.INSIDE_DIAMETER, 2.0 * INSIDE * 1.05)
    assert same < 0.05
    assert same == pytest.approx(0.05 * (INSIDE / OUTSIDE) ** 2, rel=2e-3)  # second order


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (TargetKind.GROWTH, 0.0),
        (TargetKind.GROWTH, -0.01),
        (TargetKind.GROWTH, 0.201),
        (TargetKind.GROWTH, float("nan")),
        (TargetKind.OUTSIDE_DIAMETER, 2.0 * OUTSIDE),
        (TargetKind.OUTSIDE_DIAMETER, OUTSIDE),
        (TargetKind.INSIDE_DIAMETER, 2.0 * INSIDE * 0.999),
        (TargetKind.OUTSIDE_CIRCUMFERENCE, 2.0 * OUTSIDE),
        (TargetKind.GAINED_YIELD_STRENGTH, 100e6),
        (TargetKind.GAINED_YIELD_STRENGTH, 2e9),
    ],
)
def test_what_is_no_growth_from_0_to_20_per_cent_is_refused(kind, value):
    with pytest.raises(NoSolution, match=r"\[target\]"):
        growth_for(kind, value)


@pytest.mark.parametrize("strain", [0.003, 0.05, 0.3])
def test_strain_at_a_stress_is_the_inverse_of_the_curve(strain):
    curve = COURSE.steel.curve
    stress = float(curve.stress(np.float64(strain)))
    assert target.strain_at_stress(curve, stress) == pytest.approx(
        strain, rel=1e-12
    )  # halvings


@pytest.mark.parametrize("stress", [50e6, 3e9])
def test_a_stress_that_the_curve_never_has_is_refused(stress):
    with pytest.raises(NoSolution, match="flow stress"):
        target.strain_at_stress(COURSE.steel.curve, stress)


def test_only_the_course_of_a_named_station_has_a_target():
    """A diameter that the other course has already passed is no mistake then."""
    wide = jobs.course("upper", radius=0.36)
    goal = Target(TargetKind.OUTSIDE_DIAMETER, 2.0 * OUTSIDE * 1.05, False, "middle of lower")
    job = jobs.without_spread(courses=[COURSE, wide], target=goal)
    made = walls.walls_of(job, sample.draw(job, jobs.JUDGED))
    assert target.course_of(job) == 0
    found = target.growths(job, made, GAINED)
    assert found[0] == pytest.approx(0.05, rel=1e-12)  # rounding
    assert np.isnan(found[1])
    with pytest.raises(NoSolution, match="upper"):
        target.growths(replace(job, target=replace(goal, station="largest")), made, GAINED)


def test_true_growth_of_a_growth_differs_by_the_error_of_the_tape():
    job = jobs.job()
    draws = sample.draw(job, jobs.JUDGED)
    found = target.true_growth(job, draws, 0, 0.05)
    assert found.shape == (draws.count, 1)
    assert found[:, 0] == pytest.approx(0.05 - draws.tape, rel=1e-12)


def test_true_growth_of_a_size_counts_the_diameter_too():
    job = jobs.job(target=Target(TargetKind.OUTSIDE_DIAMETER, 0.676, False, "largest"))
    draws = sample.draw(job, jobs.JUDGED)
    wanted = 0.676 / 0.644 - 1.0
    exact = (1.0 + wanted) / draws.diameter_of(0) - 1.0 - draws.tape
    # the product of two errors is left out: below 1e-6
    assert target.true_growth(job, draws, 0, wanted)[:, 0] == pytest.approx(exact, abs=2e-6)

"""Many draws at once: each as if alone, none spoils another, coarse ones good for the spread."""

import numpy as np
import pytest
from laws import LAWS
from shell_cases import ELASTIC, one_steel, simple

from stretchform.forming.shell import (
    COARSE,
    PLAN,
    Material,
    Support,
    Target,
    Weight,
    WithCriterion,
    at_pressure,
    solve,
)
from stretchform.shape.meridian import Course, Form, Head, tank
from stretchform.steel.curve import Scaled

TANK = simple(0.5, 3e-3, 1.5)
HEIGHTS = 1.5 - 0.5 * np.array([0.0, 0.1, 0.3, 0.75, 1.5])


def drawn(count, seed=0):
    """Strength, steepness, criterion and wall of some draws; judged spreads."""
    rng = np.random.default_rng(seed)
    strength = np.exp(0.06 * rng.normal(size=count))
    steepness = np.exp(0.06 * rng.normal(size=count))
    criterion = rng.triangular(1.03, 1.13, 1.17, count)
    wall = np.exp(0.01 * rng.normal(size=count))
    return strength, steepness, criterion, wall


def batch(count, fineness, growth=0.05, weight=None):
    strength, steepness, criterion, wall = drawn(count)
    curve = WithCriterion(Scaled(LAWS["S"], strength, steepness), criterion)
    material = one_steel(TANK, curve, count, wall)
    return solve(TANK, material, Target(growth=growth), HEIGHTS, weight or Weight(), fineness)


@pytest.mark.parametrize("weight", [Weight(), Weight(Support.STANDING)])
def test_every_draw_is_solved_as_if_it_were_alone(weight):
    together = batch(5, COARSE, weight=weight)
    strength, steepness, criterion, wall = drawn(5)
    for number in range(5):
        base = Scaled(LAWS["S"], float(strength[number]), float(steepness[number]))
        curve = WithCriterion(base, float(criterion[number]))
        material = one_steel(TANK, curve, 1, float(wall[number]))
        alone = solve(TANK, material, Target(growth=0.05), HEIGHTS, weight, COARSE)
        last = np.flatnonzero(np.isfinite(together.pressure[number]))[-1]
        # residual tolerance 1e-6 of the wall's force, on slightly other yardsticks
        assert together.pressure[number, last] == pytest.approx(alone.pressure[0, -1], rel=1e-5)
        assert together.midwall[number, last] == pytest.approx(alone.midwall[0, -1], abs=2e-6)
        assert together.midwall_released[number, last] == pytest.approx(
            alone.midwall_released[0, -1], abs=1e-5
        )


def test_coarse_draws_give_the_quantiles_of_plan_quality_draws():
    pressure = np.array([1.6e6, 2.0e6])
    rows = []
    for fineness in (COARSE, PLAN):
        trace = batch(60, fineness, 0.08)
        rows.append(at_pressure(trace, trace.growth, pressure))
    quantiles = [np.nanquantile(row, [0.05, 0.5, 0.95], axis=0) for row in rows]
    # a tenth of a point is asked for; the coarse mesh alone errs by 0.03
    assert np.max(np.abs(quantiles[0] - quantiles[1])) < 1e-3


def test_draws_that_never_reach_the_target_are_told_from_those_that_do():
    head = Head(Form.ELLIPSOID, 3e-3)
    meridian = tank(head, (Course("shell", 4.0, 0.5, 3e-3),), head)
    steepness = np.array([1.0, 0.3])  # the second hardens too little for ten per cent
    curve = Scaled(LAWS["V"], 1.0, steepness)
    material = Material((curve,) * 3, ELASTIC, 2)
    trace = solve(meridian, material, Target(growth=0.10), [2.0], fineness=COARSE)
    assert trace.end == ("reached", "past maximum")
    assert np.all(np.isfinite(trace.pressure[0, :5]))
    answer = at_pressure(trace, trace.growth, np.array([float(trace.highest[1]) * 1.001]))
    assert np.isfinite(answer[0, 0, 0])
    assert np.isnan(answer[1, 0, 0])


def test_released_growth_lies_below_growth_under_pressure_all_the_way():
    trace = batch(8, COARSE)
    far = trace.midwall[..., -1] - trace.midwall_released[..., -1]
    grown = np.nan_to_num(trace.midwall[..., -1]) > 0.01
    springback = far[grown]
    assert np.all((springback > 1.0e-3) & (springback < 3.5e-3))  # sigma_h (1 - nu/2) / E


@pytest.mark.campaign
def test_five_hundred_draws_agree_between_coarse_and_plan_quality():
    traces = [batch(500, fineness, 0.08) for fineness in (COARSE, PLAN)]
    pressure = np.array([1.2e6, 1.6e6, 2.0e6, 2.2e6])
    rows = [at_pressure(trace, trace.growth, pressure) for trace in traces]
    quantiles = [np.nanquantile(row, [0.05, 0.5, 0.95], axis=0) for row in rows]
    assert np.max(np.abs(quantiles[0] - quantiles[1])) < 1e-3  # a tenth of a point

"""The walk: states, records, goals, release and what is kept of them."""

import numpy as np
import pytest
from laws import LAWS

from stretchform.forming.membrane import Elastic
from stretchform.forming.shell import COARSE, Material, Target, Weight, solve
from stretchform.forming.shell.build import ready
from stretchform.forming.shell.path import walk
from stretchform.forming.shell.state import (
    Control,
    State,
    balance,
    flow_rows,
    node_growth,
    put_rows,
    unformed,
)
from stretchform.forming.shell.trace import flat, flat_arrays, last_rows, release, traced
from stretchform.forming.shell.walking import End, Goal, begin
from stretchform.shape.meridian import Course, Form, Head, tank

ELASTIC = Elastic(193e9, 0.29)
END = Head(Form.ELLIPSOID, 3e-3)
TANK = tank(END, (Course("shell", 1.5, 0.5, 3e-3),), END)
STEP = 2.0 * COARSE.step


def shell(draws=1):
    material = Material((LAWS["S"],) * 3, ELASTIC, draws, np.linspace(1.0, 1.02, draws))
    return ready(TANK, material, Weight(), COARSE)


@pytest.fixture(scope="module")
def walked():
    here = shell(2)
    goal = Goal(growth=np.array([0.02, 0.03]))
    return here, walk(here.problem, unformed(here.problem), goal, STEP, COARSE.tolerance)


def test_an_unformed_tank_is_in_balance_without_pressure():
    here = shell()
    start = unformed(here.problem)
    nothing = np.zeros(1, dtype=np.bool_)
    nodes = np.zeros((1, 4), dtype=np.intp)
    control = Control(nothing, nothing, np.zeros(1), nodes, np.zeros((1, 4)))
    guess = np.zeros_like(start.flow.sum)
    state = balance(here.problem, start.moves, start.pressure, start.flow, guess, control)
    assert state.norm[0] < 1e-12  # round-off over the force of the flowing wall
    assert state.gap[0] == pytest.approx(0.0, abs=1e-14)
    assert np.all(
        start.flow.yield_stress * 193e9 == pytest.approx(LAWS["S"].stress(0.0), rel=1e-4)
    )


def test_a_walk_begins_with_a_small_step_on_the_volume():
    here = shell()
    start = unformed(here.problem)
    going = begin(here.problem, start, Goal(growth=np.array([0.02])), STEP, COARSE.tolerance)
    assert going.step[0] == pytest.approx(0.04 * STEP)
    assert not going.control.by_pressure[0]


def test_a_walk_ends_exactly_on_each_draws_growth(walked):
    here, going = walked
    largest = np.max(node_growth(here.problem, going.settled.moves), axis=1)
    assert list(going.end) == [End.REACHED, End.REACHED]
    assert largest == pytest.approx([0.02, 0.03], rel=1e-5)  # tolerance of a landing


def test_a_walk_to_a_pressure_or_a_volume_ends_there():
    here = shell()
    start = unformed(here.problem)
    for goal in (Goal(pressure=np.array([1e-5])), Goal(volume=np.array([0.03]))):
        going = walk(here.problem, start, goal, STEP, COARSE.tolerance)
        assert going.end[0] == End.REACHED
    assert going.value[0] == pytest.approx(0.03, abs=1e-8)
    reached = walk(here.problem, start, Goal(pressure=np.array([1e-5])), STEP, 1e-6)
    assert reached.settled.pressure[0] == pytest.approx(1e-5, rel=1e-9)


def test_release_takes_the_pressure_off_and_leaves_the_plastic_part(walked):
    here, going = walked
    after = release(here, going.settled, np.arange(2), COARSE.tolerance)
    assert np.all(after.pressure == 0.0)
    before = np.max(node_growth(here.problem, going.settled.moves), axis=1)
    back = before - np.max(node_growth(here.problem, after.moves), axis=1)
    assert np.all((back > 1e-3) & (back < 3e-3))
    assert np.max(np.abs(after.flow.strain - going.settled.flow.strain)) < 2e-3  # elastic


def test_records_of_a_walk_lie_flat_in_the_order_of_settling(walked):
    here, going = walked
    draw, pressure, volume, moves, flow = flat_arrays(going)
    states = flat(here, going)
    assert len(draw) == len(pressure) == len(volume) == len(moves) == flow.sum.shape[1]
    assert np.array_equal(states.draw, draw)
    ends = last_rows(draw, 2, 1)
    assert np.array_equal(moves[ends], going.settled.moves)
    assert np.all(last_rows(draw, 2, 2) < ends)


def test_rows_of_a_plastic_state_are_picked_and_put_back(walked):
    _, going = walked
    flow = going.settled.flow
    picked = flow_rows(flow, np.array([1]))
    assert np.array_equal(picked.strain[:, 0], flow.strain[:, 1])
    copy = State(
        going.settled.moves.copy(),
        going.settled.pressure.copy(),
        flow_rows(flow, np.array([0, 1])),
    )
    put_rows(copy.flow, np.array([0]), picked, np.array([0]))
    assert np.array_equal(copy.flow.strain[:, 0], flow.strain[:, 1])


def test_a_trace_pads_short_draws_with_nan(walked):
    here, going = walked
    trace = traced(here, going, np.array([0.75]))
    counts = np.sum(np.isfinite(trace.pressure), axis=1)
    assert counts[1] == trace.pressure.shape[1] > counts[0]
    assert np.all(np.diff(trace.volume[1]) > 0.0)


def test_a_target_of_volume_is_met_by_the_whole_tank():
    material = Material((LAWS["S"],) * 3, ELASTIC)
    trace = solve(TANK, material, Target(volume=0.04), [0.75], fineness=COARSE)
    assert trace.volume[0, -1] / trace.volume_before == pytest.approx(0.04, abs=1e-7)

"""Solving a whole tank: one plan-quality answer, or many draws at once."""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError, NoSolution
from stretchform.forming.shell.build import Material, Ready, Weight, folded, ready
from stretchform.forming.shell.mesh import PLAN, Fineness, positions
from stretchform.forming.shell.path import walk
from stretchform.forming.shell.report import States
from stretchform.forming.shell.results import Trace
from stretchform.forming.shell.state import Rows, State, flow_rows, node_growth, unformed
from stretchform.forming.shell.trace import flat, flat_arrays, last_rows, release, traced
from stretchform.forming.shell.walking import End, Goal, Walk
from stretchform.shape.meridian import Meridian
from stretchform.si import Array, Growth, Metre, Pascal, Ratio, Strain

SOURCES = ("own-derivation",)


@dataclass(frozen=True, slots=True)
class Target:
    """Where forming ends; exactly one of growth, pressure or volume, or none: the maximum.

    `growth` is of the mid-wall radius, under pressure unless `released`; it is that of the
    largest place of the shell, or at the height `at` above the lower tangent line. Values
    may be arrays of one per draw.
    """

    growth: Growth | None = None
    at: Metre | None = None
    released: bool = False
    pressure: Pascal | None = None  # gauge, at the top of the tank
    volume: Ratio | None = None  # change of the enclosed volume over the volume before
    beyond: bool = False  # go on where the pressure has passed its maximum
    strain_limit: Strain | None = None  # None: the least of the curves


def solve(
    meridian: Meridian,
    material: Material,
    target: Target,
    heights: Metre,
    weight: Weight = Weight(),  # noqa: B008 - frozen
    fineness: Fineness = PLAN,
) -> Trace:
    """Course of forming of a whole tank up to a target, with its release.

    Growth, walls and stresses follow from the equilibrium of a layered shell of revolution
    at every settled step; `heights` are the stations, above the lower tangent line.

    Source: own-derivation, method in `element`, `material` and `path`.
    Checked: tests/verification/test_shell_whole_tank.py, test_shell_solid.py.
    Raises NoSolution when a single draw does not reach its target (several draws come back
    with their `end` and NaN), InputError for impossible input.
    """
    _check(meridian, target, heights)
    shell = ready(meridian, material, weight, fineness)
    going = _walked(shell, target, fineness)
    trace = traced(shell, going, np.atleast_1d(np.asarray(heights, dtype=np.float64)))
    if material.draws == 1 and trace.end[0] != "reached":
        raise _no_solution(meridian, trace, target)
    return trace


def maximum_pressure(
    meridian: Meridian,
    material: Material,
    weight: Weight = Weight(),  # noqa: B008 - frozen
    fineness: Fineness = PLAN,
) -> tuple[Pascal, Growth]:
    """Highest pressure a tank can carry and its largest mid-wall growth there, per draw.

        the top of the parabola through the highest settled state and its neighbours

    NaN where the curve's strain limit comes first.

    Source: own-derivation, volume control past the maximum.
    Checked: tests/verification/test_shell_closed_form.py.
    """
    from dataclasses import replace

    shell = ready(meridian, material, weight, replace(fineness, step=max(0.01, fineness.step)))
    going = _walked(shell, Target(), replace(fineness, step=0.01))
    top = np.full(material.draws, np.nan)
    growth = np.full(material.draws, np.nan)
    states = flat(shell, going)
    for draw in np.flatnonzero(going.end == End.REACHED):
        rows = np.flatnonzero(states.draw == draw)
        top[draw], growth[draw] = _peak(shell, states, rows)
    return top * float(material.elastic.youngs_modulus), growth


def _check(meridian: Meridian, target: Target, heights: Metre) -> None:
    """Refuse targets that are none and stations that do not stand on the shell."""
    given = [target.growth, target.pressure, target.volume]
    wanted = [value for value in given if value is not None]
    if len(wanted) > 1:
        raise InputError("target", "more than one target is given", "growth = 0.05")
    if wanted and not np.all(np.greater(wanted[0], 0.0)):
        raise InputError("target", "the target is not positive", "growth = 0.05")
    low, high = meridian.tangent_heights
    places = [np.asarray(heights, dtype=np.float64).ravel()]
    if target.at is not None:
        places.append(np.asarray(target.at, dtype=np.float64).ravel())
    every = np.concatenate(places)
    slack = 1e-6 * float(meridian.radius)
    outside = every[~((every >= low - slack) & (every <= high + slack))]
    if outside.size:
        raise InputError(
            "station",
            f"a height of {outside[0] * 1e3:.4g} mm does not lie on the shell, which reaches "
            f"from 0 to {high * 1e3:.4g} mm above the lower tangent line",
            f'height = "{high * 500.0:.4g} mm"',
        )


def _peak(shell: Ready, states: States, rows: Rows) -> tuple[float, float]:
    pressure = states.pressure[rows]
    volume = states.volume[rows]
    largest = np.max(node_growth(shell.problem, states.moves[rows]), axis=1)
    at = int(np.clip(np.argmax(pressure), 1, len(rows) - 2))
    three = slice(at - 1, at + 2)
    curve = np.polyfit(volume[three] - volume[at], pressure[three], 2)
    best = -curve[1] / (2.0 * curve[0]) if curve[0] < 0.0 else 0.0
    best = float(np.clip(best, volume[at - 1] - volume[at], volume[at + 1] - volume[at]))
    return float(np.polyval(curve, best)), float(np.interp(best + volume[at], volume, largest))


def _walked(shell: Ready, target: Target, fineness: Fineness) -> Walk:
    """Walk to the target; a released growth is met by correcting the loaded one twice."""
    goal = _goal(shell, target)
    step, tolerance = 2.0 * float(fineness.step), float(fineness.tolerance)
    start = unformed(shell.problem)
    if not target.released or goal.growth is None:
        return walk(shell.problem, start, goal, step, tolerance)
    wanted = goal.growth
    goal.growth = wanted + _springback_guess(shell, wanted)
    going = walk(shell.problem, start, goal, step, tolerance)
    for _ in range(3):
        done = np.flatnonzero(going.end == End.REACHED)
        if not done.size:
            break
        after = release(shell, going.settled.chosen(done), done, tolerance)
        missing = wanted[done] - _measured(shell, goal, after.moves)
        if np.max(np.abs(missing)) < 1e-7:
            break
        goal.growth = goal.growth.copy()
        goal.growth[done] += missing
        going = _adjusted(shell, going, goal, done, step, tolerance)
    return going


def _adjusted(
    shell: Ready, going: Walk, goal: Goal, done: Rows, step: float, tolerance: float
) -> Walk:
    """Walk again over the last step of every draw, to a goal that has moved a little."""
    record = going.record
    draw = np.concatenate(record.draw)
    last_but_one = last_rows(draw, len(going.end), 2)
    states = flat_arrays(going)
    rows = last_but_one[done]
    part = shell.problem.chosen(done)
    if np.any(np.bincount(draw, minlength=len(going.end))[done] < 2):
        start = unformed(part)
    else:
        start = State(states[3][rows], states[1][rows], flow_rows(states[4], rows))
    assert goal.growth is not None
    nearer = Goal(
        growth=goal.growth[done],
        nodes=goal.nodes,
        weights=goal.weights,
        beyond=goal.beyond,
        strain=goal.strain,
    )
    again = walk(part, start, nearer, step, tolerance)
    _splice(going, again, done)
    return going


def _splice(going: Walk, again: Walk, done: Rows) -> None:
    """Put the repeated last steps in place of the old ones."""
    from stretchform.forming.shell.state import put_rows

    draw = np.concatenate(going.record.draw)
    old = set(last_rows(draw, len(going.end), 1)[done].tolist())
    keep = np.asarray([row not in old for row in range(len(draw))])
    start = 0
    record = going.record
    for number in range(len(record.draw)):
        count = len(record.draw[number])
        mine = np.flatnonzero(keep[start : start + count])
        start += count
        record.draw[number] = record.draw[number][mine]
        record.pressure[number] = record.pressure[number][mine]
        record.volume[number] = record.volume[number][mine]
        record.moves[number] = record.moves[number][mine]
        record.flow[number] = flow_rows(record.flow[number], mine)
    fresh = again.record
    record.draw += [done[rows] for rows in fresh.draw]
    record.pressure += fresh.pressure
    record.volume += fresh.volume
    record.moves += fresh.moves
    record.flow += fresh.flow
    going.settled.moves[done] = again.settled.moves
    going.settled.pressure[done] = again.settled.pressure
    put_rows(going.settled.flow, done, again.settled.flow, np.arange(len(done)))
    going.end[done] = again.end
    going.rounds += again.rounds


def _goal(shell: Ready, target: Target) -> Goal:
    draws = shell.material.draws
    limit = target.strain_limit
    if limit is None:
        limit = min(float(curve.strain_limit) for curve in shell.material.curves)
    goal = Goal(beyond=target.beyond, strain=float(limit))
    if target.growth is not None:
        goal.growth = np.array(np.broadcast_to(np.asarray(target.growth, float), (draws,)))
        if target.at is not None:
            nodes, weights = positions(shell.mesh, folded(shell, target.at))
            goal.nodes = nodes[0]
            goal.weights = weights[0] / shell.problem.loads.radius[nodes[0]]
    elif target.pressure is not None:
        modulus = float(shell.material.elastic.youngs_modulus)
        pressure = np.asarray(target.pressure, dtype=np.float64) / modulus
        goal.pressure = np.array(np.broadcast_to(pressure, (draws,)))
    elif target.volume is not None:
        goal.volume = np.array(np.broadcast_to(np.asarray(target.volume, float), (draws,)))
    return goal


def _measured(shell: Ready, goal: Goal, moves: Array) -> Array:
    if goal.nodes is None or goal.weights is None:
        return np.asarray(np.max(node_growth(shell.problem, moves), axis=1))
    return np.asarray(moves[:, goal.nodes, 0] @ goal.weights)


def _springback_guess(shell: Ready, growth: Array) -> Array:
    """Springback of a long closed cylinder, sigma_h (1 - nu/2) / E, at the middle course."""
    material = shell.material
    curve = material.curves[len(material.curves) // 2]
    x = 2.0 / np.sqrt(3.0) * np.log1p(growth)
    stress = np.asarray([float(np.mean(curve.stress(float(value)))) for value in x])
    share = 2.0 / np.sqrt(3.0) * (1.0 - float(material.elastic.poisson_ratio) / 2.0)
    return np.asarray((1.0 + growth) * share * stress / material.elastic.youngs_modulus)


def _no_solution(meridian: Meridian, trace: Trace, target: Target) -> NoSolution:
    """The cause of a path that ended before its target, in the words of the trade."""
    reached = float(np.nanmax(trace.largest))
    highest = float(np.asarray(trace.highest)[0])
    place = _busiest(meridian, trace)
    if trace.end[0] == "past maximum":
        problem = (
            f"the pressure passes its maximum of {highest / 1e6:.4g} MPa before the target; "
            f"the {place} runs ahead (largest growth of the shell so far {reached:.2%})"
        )
    elif trace.end[0] == "strained":
        problem = (
            f"the {place} strains to {float(np.nanmax(trace.largest_strain)):.3f}, beyond "
            f"what its curve covers, before the target (growth so far {reached:.2%})"
        )
    else:
        problem = f"no equilibrium found beyond a growth of {reached:.2%} in the {place}"
    return NoSolution("tank", problem, f'growth = "{max(reached * 40.0, 0.1):.2g} %"')


def _busiest(meridian: Meridian, trace: Trace) -> str:
    part = int(trace.ahead[0])
    halved = float(np.min(trace.along.height)) > 0.0
    if halved and part == meridian.parts - 1:
        return "head at either end"
    if part == 0:
        return "lower head"
    if part == meridian.parts - 1:
        return "upper head"
    return f'course "{meridian.courses[part - 1].name}"'

"""Solving a whole tank: one plan-quality answer, or many draws at once."""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import NoSolution
from stretchform.forming.shell import report
from stretchform.forming.shell.build import Material, Ready, Weight, folded, ready
from stretchform.forming.shell.material import Flow
from stretchform.forming.shell.mesh import PLAN, Fineness, positions
from stretchform.forming.shell.path import End, Goal, Walk, walk
from stretchform.forming.shell.report import States
from stretchform.forming.shell.results import Trace
from stretchform.forming.shell.state import Rows, State, flow_rows, node_growth, unformed
from stretchform.shape.meridian import Meridian
from stretchform.si import Array, Growth, Metre, Pascal, Ratio, Strain

SOURCES = ("own-derivation",)
_WORDS = {
    End.REACHED: "reached",
    End.PAST_MAXIMUM: "past maximum",
    End.STRAINED: "strained",
    End.FAILED: "failed",
}


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
    shell = ready(meridian, material, weight, fineness)
    going = _walked(shell, target, fineness)
    trace = _traced(shell, going, np.atleast_1d(np.asarray(heights, dtype=np.float64)))
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
    states = _flat(shell, going)
    for draw in np.flatnonzero(going.end == End.REACHED):
        rows = np.flatnonzero(states.draw == draw)
        top[draw], growth[draw] = _peak(shell, states, rows)
    return top * float(material.elasticity.modulus), growth


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
        after = _release(shell, going.settled.chosen(done), done, tolerance)
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
    last_but_one = _last_rows(draw, len(going.end), 2)
    states = _flat_arrays(going)
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
    old = set(_last_rows(draw, len(going.end), 1)[done].tolist())
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


def _last_rows(draw: Rows, draws: int, back: int) -> Rows:
    """Row of the last (back = 1) or last but one (2) record of every draw."""
    rows = np.zeros(draws, dtype=np.intp)
    for number in range(draws):
        mine = np.flatnonzero(draw == number)
        rows[number] = mine[-min(back, len(mine))] if mine.size else 0
    return rows


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
        modulus = float(shell.material.elasticity.modulus)
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
    share = 2.0 / np.sqrt(3.0) * (1.0 - float(material.elasticity.poisson) / 2.0)
    return np.asarray((1.0 + growth) * share * stress / material.elasticity.modulus)


def _release(shell: Ready, start: State, draw: Rows, tolerance: float) -> State:
    """States with the pressure gone (the water stays in)."""
    problem = shell.problem.chosen(draw)
    going = walk(problem, start, Goal(release=True), 1.0, tolerance)
    failed = np.flatnonzero(going.end != End.REACHED)
    going.settled.moves[failed] = np.nan
    return going.settled


def _flat_arrays(going: Walk) -> tuple[Rows, Array, Array, Array, Flow]:
    record = going.record
    return (
        np.concatenate(record.draw),
        np.concatenate(record.pressure),
        np.concatenate(record.volume),
        np.concatenate(record.moves),
        Flow(
            np.concatenate([flow.sum for flow in record.flow], axis=1),
            np.concatenate([flow.difference for flow in record.flow], axis=1),
            np.concatenate([flow.strain for flow in record.flow], axis=1),
            np.concatenate([flow.yield_stress for flow in record.flow], axis=1),
        ),
    )


def _flat(shell: Ready, going: Walk) -> States:
    draw, pressure, volume, moves, flow = _flat_arrays(going)
    return report.examined(shell, draw, pressure, volume, moves, flow)


def _traced(shell: Ready, going: Walk, heights: Array) -> Trace:
    """All that is told of a walk: pads the draws' states to one length."""
    states = _flat(shell, going)
    released, chosen = _released(shell, going, states)
    draws = shell.material.draws
    midwall = report.midwall_growth(shell, states.moves, heights)
    wall = report.at_heights(shell, report.walls(shell, states), heights)
    outside = report.outside_growth(shell, midwall, wall, states.draw, heights)
    back_mid = report.midwall_growth(shell, released.moves, heights)
    back_wall = report.at_heights(shell, report.walls(shell, released), heights)
    back_out = report.outside_growth(shell, back_mid, back_wall, released.draw, heights)
    spring_mid = _spread(states, chosen, midwall[chosen] - back_mid)
    spring_out = _spread(states, chosen, outside[chosen] - back_out)
    last_rows = _last_rows(states.draw, draws, 1)
    last, last_released = _rows(states, last_rows), _rows_of(released, chosen, last_rows)
    modulus = float(shell.material.elasticity.modulus)
    unit = shell.scale**3 * shell.problem.volume * (2.0 if shell.halved else 1.0)
    largest = np.max(node_growth(shell.problem, states.moves), axis=1)
    strain = np.max(states.flow.strain, axis=(0, 2))

    def padded(values: Array) -> Array:
        return _padded(states.draw, draws, values)

    return Trace(
        heights=heights,
        pressure=padded(states.pressure * modulus),
        volume=padded(states.volume * unit),
        growth=padded(outside),
        released=padded(outside - spring_out),
        midwall=padded(midwall),
        midwall_released=padded(midwall - spring_mid),
        wall=padded(wall),
        largest=padded(largest),
        largest_strain=padded(strain),
        end=tuple(_WORDS[End(int(value))] for value in going.end),
        highest=going.highest * modulus,
        volume_before=unit,
        heads=(
            report.head(shell, states, last, last_released, upper=False),
            report.head(shell, states, last, last_released, upper=True),
        ),
        along=report.along(shell, last, last_released),
        outline=report.outline(shell, last, last_released),
        work=report.work(shell, states, last),
        corrections=going.rounds,
    )


def _released(shell: Ready, going: Walk, states: States) -> tuple[States, Rows]:
    """Released states: of twelve states of a single draw, of four of each of many draws."""
    chosen = _chosen(states.draw, shell.material.draws)
    start = State(
        states.moves[chosen], states.pressure[chosen], flow_rows(states.flow, chosen)
    )
    draw = states.draw[chosen]
    after = _release(shell, start, draw, going.tolerance)
    pressure = np.zeros(len(chosen))
    return report.examined(
        shell, draw, pressure, states.volume[chosen], after.moves, after.flow
    ), chosen


def _chosen(draw: Rows, draws: int) -> Rows:
    rows, most = [], 12 if draws == 1 else 4
    for number in range(draws):
        mine = np.flatnonzero(draw == number)
        picks = np.unique(np.linspace(0, len(mine) - 1, most).round().astype(np.intp))
        rows.append(mine[picks] if mine.size else mine)
    return np.concatenate(rows)


def _spread(states: States, chosen: Rows, spring: Array) -> Array:
    """Springback of all states from that of the chosen ones, over pressure."""
    answer = np.empty((len(states.draw), spring.shape[1]))
    for number in np.unique(states.draw):
        rows = np.flatnonzero(states.draw == number)
        mine = np.flatnonzero(states.draw[chosen] == number)
        if len(mine) == len(rows):
            answer[rows] = spring[mine]
            continue
        x = np.concatenate(([0.0], states.volume[chosen[mine]]))
        for column in range(spring.shape[1]):
            y = np.concatenate(([0.0], spring[mine, column]))
            answer[rows, column] = np.interp(states.volume[rows], x, y)
    return answer


def _rows(states: States, rows: Rows) -> States:
    from stretchform.forming.shell.element import Inner
    from stretchform.forming.shell.material import Answer

    seen, flow = states.seen, flow_rows(states.flow, rows)
    answer = seen.answer
    picked = Answer(
        answer.sum[:, rows],
        answer.difference[:, rows],
        answer.tangent[:, :, rows],
        flow,
        answer.step[:, rows],
    )
    inner = Inner(
        seen.force[rows],
        seen.tangent[rows],
        seen.sections[:, rows],
        picked,
        seen.strains[:, rows],
    )
    return States(
        states.draw[rows],
        states.pressure[rows],
        states.volume[rows],
        states.moves[rows],
        flow,
        inner,
    )


def _rows_of(released: States, chosen: Rows, rows: Rows) -> States:
    """The released states that belong to rows of the loaded ones."""
    return _rows(released, np.searchsorted(chosen, rows))


def _padded(draw: Rows, draws: int, values: Array) -> Array:
    counts = np.bincount(draw, minlength=draws)
    answer = np.full((draws, int(counts.max()), *values.shape[1:]), np.nan)
    order = np.argsort(draw, kind="stable")
    place = np.arange(len(draw)) - np.repeat(np.cumsum(counts) - counts, counts)
    answer[draw[order], place] = values[order]
    return answer


def _no_solution(meridian: Meridian, trace: Trace, target: Target) -> NoSolution:
    """The cause of a path that ended before its target, in the words of the trade."""
    reached = float(np.nanmax(trace.largest))
    highest = float(trace.highest[0])
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
    part = int(trace.along.part[np.nanargmax(trace.along.plastic_strain[0])])
    if part == 0:
        return "lower head"
    if part == meridian.parts - 1:
        return "upper head"
    return f'course "{meridian.courses[part - 1].name}"'

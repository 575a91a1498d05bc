"""From a finished walk to what is told of it: padded histories, releases, last states."""

import numpy as np

from stretchform.forming.shell import report
from stretchform.forming.shell.build import Ready
from stretchform.forming.shell.material import Flow
from stretchform.forming.shell.path import walk
from stretchform.forming.shell.report import Seen, States
from stretchform.forming.shell.results import Trace
from stretchform.forming.shell.state import Rows, State, flow_rows, node_growth
from stretchform.forming.shell.walking import End, Goal, Walk
from stretchform.si import Array, Ratio

SOURCES = ("own-derivation",)
_WORDS = {
    End.REACHED: "reached",
    End.PAST_MAXIMUM: "past maximum",
    End.STRAINED: "strained",
    End.FAILED: "failed",
}


def traced(shell: Ready, going: Walk, heights: Array) -> Trace:
    """All that is told of a walk: pads the draws' states to one length.

    Source: own-derivation, collection of the report functions.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    states = flat(shell, going)
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
    ends = last_rows(states.draw, draws, 1)
    last, last_released = _rows(states, ends), _rows_of(released, chosen, ends)
    modulus = float(shell.material.elastic.youngs_modulus)
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
        ahead=_ahead(shell, states, ends),
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


def _ahead(shell: Ready, states: States, ends: Rows) -> Rows:
    """Part whose mean plastic strain rose most over the last step of every draw."""
    before = last_rows(states.draw, shell.material.draws, 2)
    rise = np.mean(states.flow.strain[:, ends] - states.flow.strain[:, before], axis=0)
    return np.asarray(shell.mesh.part[np.argmax(rise, axis=1)], dtype=np.intp)


def _released(shell: Ready, going: Walk, states: States) -> tuple[States, Rows]:
    """Released states: of twelve states of a single draw, of four of each of many draws."""
    chosen = _chosen(states, shell.material.draws)
    start = State(states.moves[chosen], states.pressure[chosen], flow_rows(states.flow, chosen))
    draw = states.draw[chosen]
    after = release(shell, start, draw, going.tolerance)
    pressure = np.zeros(len(chosen))
    return report.examined(
        shell, draw, pressure, states.volume[chosen], after.moves, after.flow
    ), chosen


def _chosen(states: States, draws: int) -> Rows:
    """Rows of the states to release; those before any pressure stay as they are."""
    rows, most = [], 12 if draws == 1 else 4
    for number in range(draws):
        mine = np.flatnonzero((states.draw == number) & (states.pressure > 0.0))
        picks = np.unique(np.linspace(0, len(mine) - 1, most).round().astype(np.intp))
        rows.append(mine[picks] if mine.size else mine)
    return np.sort(np.concatenate(rows))


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
    seen = states.seen
    return States(
        states.draw[rows],
        states.pressure[rows],
        states.volume[rows],
        states.moves[rows],
        flow_rows(states.flow, rows),
        Seen(seen.strains[:, rows], seen.sum[:, rows], seen.difference[:, rows]),
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


def release(shell: Ready, start: State, draw: Rows, tolerance: Ratio) -> State:
    """States with the pressure gone (the water stays in).

    Source: own-derivation, elastic unloading with flow allowed.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    problem = shell.problem.chosen(draw)
    going = walk(problem, start, Goal(release=True), 1.0, tolerance)
    failed = np.flatnonzero(going.end != End.REACHED)
    going.settled.moves[failed] = np.nan
    return going.settled


def flat_arrays(going: Walk) -> tuple[Rows, Array, Array, Array, Flow]:
    """Draw, pressure, volume, moves and plastic state of all settled states.

    Source: own-derivation, order of settling.
    Checked: tests/unit/forming/test_shell_state.py.
    """
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


def flat(shell: Ready, going: Walk) -> States:
    """All settled states of a walk, with their stresses.

    Source: own-derivation, order of settling.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    draw, pressure, volume, moves, flow = flat_arrays(going)
    return report.examined(shell, draw, pressure, volume, moves, flow)


def last_rows(draw: Rows, draws: int, back: int) -> Rows:
    """Row of the last (back = 1) or last but one (2) record of every draw.

    Source: own-derivation, order of settling.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    rows = np.zeros(draws, dtype=np.intp)
    for number in range(draws):
        mine = np.flatnonzero(draw == number)
        rows[number] = mine[-min(back, len(mine))] if mine.size else 0
    return rows

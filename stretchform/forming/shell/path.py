"""Following the tank through forming: steps that keep to the physical branch.

Every draw walks at its own pace and is corrected together with the others. Steps are taken
on the enclosed volume, which keeps rising past the maximum pressure, and land on the goal
exactly. A step that jumps in strain or turn is refused and cut, so that a converged state
on a false branch is never kept.
"""

import numpy as np
from numpy.typing import NDArray

from stretchform.forming.shell.banded import solve
from stretchform.forming.shell.state import (
    Balance,
    Problem,
    Rows,
    State,
    balance,
    flow_rows,
    node_growth,
    put_rows,
)
from stretchform.forming.shell.walking import End, Goal, Walk, begin
from stretchform.si import Array, Ratio

SOURCES = ("own-derivation",)
_STRAIN_JUMP = 0.02  # largest plastic strain of a step; more is refused
_TURN_JUMP = 0.15  # rad, likewise
_TURN_STEP = 0.1  # rad, largest turn of one correction
_CUT, _STRETCH = 0.4, 1.5
_EASY, _MOST = 5, 14  # corrections of an easy step, most corrections
_SMALLEST = 1e-4  # of the largest step: below this the path has failed
_FALL = 5e-3  # a pressure this far below the highest lies beyond the maximum


def walk(problem: Problem, start: State, goal: Goal, step: Ratio, tolerance: Ratio) -> Walk:
    """Follow every draw from a settled state to its goal.

    Source: own-derivation, bordered Newton corrections with adaptive steps.
    Checked: tests/unit/forming/test_shell_state.py (walk), test_shell_campaign.py.
    """
    going = begin(problem, start, goal, float(step), float(tolerance))
    _aim(going, np.arange(len(going.end)))
    while True:
        rows = np.flatnonzero(going.end == End.WALKING)
        if not rows.size:
            return going
        _round(going, rows)
        going.rounds += 1


def _aim(going: Walk, rows: Rows) -> None:
    """Set the next target of draws and the first trial."""
    going.landing[rows] = False
    going.control.by_radius[rows] = False
    going.control.by_pressure[rows] = going.goal.release
    if going.goal.release:
        target = np.maximum(going.value[rows] - going.step[rows], 0.0)
    else:
        target = going.value[rows] + going.step[rows]
        if going.goal.volume is not None:
            target = np.minimum(target, going.goal.volume[rows])
    going.control.target[rows] = target
    past = going.past_step[rows]
    ratio = np.where(
        going.plain[rows] | (past == 0.0),
        0.0,
        (target - going.value[rows]) / np.where(past == 0.0, 1.0, past),
    )
    _try(going, rows, ratio)


def _try(going: Walk, rows: Rows, ratio: Array) -> None:
    """First trial of a step: the last step again, `ratio` times."""
    going.trial[rows] = (
        going.settled.moves[rows] + ratio[:, None, None] * going.past_moves[rows]
    )
    going.pressure[rows] = going.settled.pressure[rows] + ratio * going.past_pressure[rows]
    going.guess[:, rows] = np.maximum(ratio, 0.0)[:, None] * going.past_guess[:, rows]
    going.corrections[rows] = 0.0
    going.back[rows] = 0.0
    going.last_norm[rows] = np.inf


def _round(going: Walk, rows: Rows) -> None:
    """One correction of all draws that still walk."""
    everyone = len(rows) == len(going.end)
    problem = going.problem if everyone else going.problem.chosen(rows)
    flow = going.settled.flow if everyone else flow_rows(going.settled.flow, rows)
    control = going.control if everyone else going.control.chosen(rows)
    guess = going.guess if everyone else going.guess[:, rows]
    with np.errstate(all="ignore"):
        state = balance(problem, going.trial[rows], going.pressure[rows], flow, guess, control)
    sound = np.isfinite(state.norm) & np.all(np.isfinite(state.inner.sections[0]), axis=-1)
    converged = sound & (state.norm < going.tolerance) & (np.abs(state.gap) < 1e-9)
    if going.goal.release:
        converged = sound & (state.norm < going.tolerance) & (state.gap == 0.0)
    lost = ~sound | _stuck(going, rows, state)
    shorten = ~converged & sound & _worse(going, rows, state)
    lost &= ~converged & ~shorten
    _cut(going, rows[lost])
    if converged.any():
        _settle(going, rows, np.flatnonzero(converged), state)
    if shorten.any():
        _shorten(going, rows[shorten])
    going_on = np.flatnonzero(~converged & ~lost & ~shorten)
    if going_on.size:
        _correct(going, rows, going_on, state)


def _stuck(going: Walk, rows: Rows, state: Balance) -> NDArray[np.bool_]:
    """Too many corrections, or a residual that does not fall."""
    count = going.corrections[rows]
    slow = (count > 6) & (state.norm > 0.5 * going.last_norm[rows]) & (state.norm > 1e-4)
    return np.asarray((count >= _MOST) | slow)


def _worse(going: Walk, rows: Rows, state: Balance) -> NDArray[np.bool_]:
    """A correction (not the first) that made the residual larger: take less of it."""
    worse = state.norm > 1.2 * going.last_norm[rows]
    return np.asarray(worse & (going.corrections[rows] > 1) & (going.back[rows] < 4))


def _shorten(going: Walk, rows: Rows) -> None:
    going.trial[rows] -= (1.0 - _CUT) * going.last_move[rows]
    going.pressure[rows] -= (1.0 - _CUT) * going.last_push[rows]
    going.last_move[rows] *= _CUT
    going.last_push[rows] *= _CUT
    going.back[rows] += 1


def _correct(going: Walk, rows: Rows, here: Rows, state: Balance) -> None:
    """One bordered Newton correction of some draws."""
    mine = rows[here]
    right = np.stack([-state.residual[here], state.unit[here]], axis=-1)
    x, sound = solve(state.tangent[here], right, going.problem.fixed)
    x1, x2 = x[..., 0], x[..., 1]
    gradient, gap = state.gradient[here], state.gap[here]
    with np.errstate(all="ignore"):
        push = (gap - np.einsum("bi,bi->b", gradient, x1)) / np.einsum("bi,bi->b", gradient, x2)
    push = np.where(going.control.by_pressure[mine], gap, push)
    move = (x1 + x2 * push[:, None]).reshape(len(mine), -1, 3)
    turn = np.max(np.abs(move[..., 2]), axis=1)
    sound &= np.isfinite(turn) & np.isfinite(push)
    share = np.minimum(1.0, _TURN_STEP / np.maximum(turn, 1e-30))
    share = np.where(going.control.by_pressure[mine], 1.0, share)
    move, push = move * share[:, None, None], push * share
    good = np.flatnonzero(sound)
    fine, lost = mine[good], mine[np.flatnonzero(~sound)]
    going.trial[fine] += move[good]
    going.pressure[fine] += push[good]
    going.last_move[fine], going.last_push[fine] = move[good], push[good]
    going.last_norm[fine] = state.norm[here][good]
    going.corrections[fine] += 1
    going.back[fine] = 0
    going.guess[:, fine] = state.inner.answer.step[:, here[good]]
    _cut(going, lost)


def _cut(going: Walk, rows: Rows) -> None:
    """Try a lost step again: first without extrapolation, then shorter."""
    if not rows.size:
        return
    again = ~going.plain[rows] & ~going.landing[rows] & (going.past_step[rows] != 0.0)
    shorter = rows[~again]
    going.step[shorter] *= _CUT
    going.plain[rows] = True
    given_up = going.step[rows] < _SMALLEST * going.largest
    going.end[rows[given_up]] = End.FAILED
    left = rows[~given_up]
    if left.size:
        _aim(going, left)


def _settle(going: Walk, rows: Rows, here: Rows, state: Balance) -> None:
    """Keep converged steps that stay on the branch; land on goals that were passed."""
    mine = rows[here]
    moved = going.trial[mine] - going.settled.moves[mine]
    strain = np.max(state.inner.answer.step[:, here], axis=(0, 2))
    jump = (strain > _STRAIN_JUMP) | (np.max(np.abs(moved[..., 2]), axis=1) > _TURN_JUMP)
    if jump.any():
        going.plain[mine[jump]] = True
        _cut(going, mine[jump])
    kept = ~jump
    passed = kept & _passed(going, mine)
    if passed.any():
        _land(going, mine[passed])
    kept &= ~passed
    if kept.any():
        _keep(going, mine[kept], here[kept], state)


def _passed(going: Walk, rows: Rows) -> NDArray[np.bool_]:
    """Draws whose trial lies beyond the goal."""
    goal = going.goal
    if goal.growth is not None:
        growth = _growth(going, rows, going.trial[rows])
        slack = 1e-9 + 1e-5 * going.landing[rows] * goal.growth[rows]
        return np.asarray(growth > goal.growth[rows] + slack)
    if goal.pressure is not None:
        return np.asarray(going.pressure[rows] > goal.pressure[rows] * (1.0 + 1e-9))
    return np.zeros(len(rows), dtype=np.bool_)


def _growth(going: Walk, rows: Rows, moves: Array) -> Array:
    """The growth that the goal counts."""
    goal = going.goal
    if goal.nodes is None or goal.weights is None:
        return np.asarray(np.max(node_growth(going.problem, moves), axis=1))
    return np.asarray(moves[:, goal.nodes, 0] @ goal.weights)


def _land(going: Walk, rows: Rows) -> None:
    """Take a passed step again so that it ends on the goal."""
    goal, control = going.goal, going.control
    trial = going.trial[rows]
    going.landing[rows] = True
    if goal.growth is not None:
        before = _growth(going, rows, going.settled.moves[rows])
        after = _growth(going, rows, trial)
        target = goal.growth[rows]
        control.by_radius[rows] = True
        if goal.nodes is not None and goal.weights is not None:
            control.nodes[rows], control.weights[rows] = goal.nodes, goal.weights
        else:
            widest = np.argmax(node_growth(going.problem, trial), axis=1)
            nodes = going.problem.shell[widest]
            control.nodes[rows] = nodes[:, None]
            control.weights[rows] = 0.25 / going.problem.loads.radius[nodes][:, None]
    else:
        assert goal.pressure is not None
        before, after = going.settled.pressure[rows], going.pressure[rows]
        target = goal.pressure[rows]
        control.by_pressure[rows] = True
    control.target[rows] = target
    share = (target - before) / (after - before)
    moved = trial - going.settled.moves[rows]
    going.trial[rows] = going.settled.moves[rows] + share[:, None, None] * moved
    push = going.pressure[rows] - going.settled.pressure[rows]
    going.pressure[rows] = going.settled.pressure[rows] + share * push
    if goal.pressure is not None:
        going.pressure[rows] = target
    going.guess[:, rows] *= share[:, None]
    going.corrections[rows] = 0.0
    going.back[rows] = 0.0
    going.last_norm[rows] = np.inf


def _keep(going: Walk, rows: Rows, here: Rows, state: Balance) -> None:
    """Settle a step: remember it, size the next one, end draws that have arrived."""
    value = going.pressure[rows] if going.goal.release else state.volume[here]
    going.past_step[rows] = value - going.value[rows]
    going.past_moves[rows] = going.trial[rows] - going.settled.moves[rows]
    going.past_pressure[rows] = going.pressure[rows] - going.settled.pressure[rows]
    going.past_guess[:, rows] = state.inner.answer.step[:, here]
    going.value[rows] = value
    going.settled.moves[rows] = going.trial[rows]
    going.settled.pressure[rows] = going.pressure[rows]
    put_rows(going.settled.flow, rows, state.inner.answer.flow, here)
    going.highest[rows] = np.maximum(going.highest[rows], going.pressure[rows])
    easy = going.corrections[rows] <= _EASY
    wider = np.minimum(going.step[rows] * np.where(easy, _STRETCH, 1.0), going.largest)
    going.step[rows] = wider
    going.plain[rows] = False
    _remember(going, rows, state.volume[here])
    _finish(going, rows)
    left = rows[going.end[rows] == End.WALKING]
    if left.size:
        _aim(going, left)


def _remember(going: Walk, rows: Rows, change: Array) -> None:
    record = going.record
    record.draw.append(rows)
    record.pressure.append(going.settled.pressure[rows])
    record.volume.append(change)
    record.moves.append(going.settled.moves[rows])
    record.flow.append(flow_rows(going.settled.flow, rows))


def _finish(going: Walk, rows: Rows) -> None:
    """Mark draws that reached the goal, fell off the maximum or strained too far."""
    goal = going.goal
    pressure = going.settled.pressure[rows]
    end = np.full(len(rows), End.WALKING, dtype=np.intp)
    strained = np.max(going.settled.flow.strain[:, rows], axis=(0, 2)) > goal.strain
    end[strained] = End.STRAINED
    if not goal.beyond and not goal.release:
        highest = going.highest[rows]
        end[(highest > 0.0) & (pressure < highest * (1.0 - _FALL))] = End.PAST_MAXIMUM
    if goal.release:
        reached = pressure <= 0.0
    elif goal.growth is not None:
        growth = _growth(going, rows, going.settled.moves[rows])
        reached = growth >= goal.growth[rows] * (1.0 - 1e-5) - 1e-12
    elif goal.pressure is not None:
        reached = pressure >= goal.pressure[rows] * (1.0 - 1e-9)
    elif goal.volume is not None:
        reached = going.value[rows] >= goal.volume[rows] - 1e-8
    else:
        reached = end == End.PAST_MAXIMUM
    end[reached] = End.REACHED
    going.end[rows] = end

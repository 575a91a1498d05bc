"""The state of a walk: where every draw stands, where it wants to go, what it has settled."""

from dataclasses import dataclass, field
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from stretchform.forming.shell.loads import volume
from stretchform.forming.shell.material import Flow
from stretchform.forming.shell.state import Control, Problem, Rows, State
from stretchform.si import Array, Ratio

SOURCES = ("own-derivation",)
_FIRST = 0.04  # of the largest step: well below the first yield of a knuckle


class End(IntEnum):
    """How a draw's path ended."""

    WALKING = 0
    REACHED = 1
    PAST_MAXIMUM = 2  # pressure fell before the goal was reached
    STRAINED = 3  # plastic strain beyond the limit before the goal
    FAILED = 4  # no converged step however small


@dataclass(slots=True)
class Goal:
    """Where the paths end; growth of the mid-wall radius, pressure over Young's modulus."""

    growth: Array | None = None  # (draws,)
    nodes: Rows | None = None  # (4,) growth is taken here; None: the largest of the shell
    weights: Array | None = None  # (4,)
    pressure: Array | None = None  # (draws,)
    volume: Array | None = None  # (draws,) change over the volume before forming
    release: bool = False  # walk the pressure down to nothing
    beyond: bool = False  # keep on beyond the maximum pressure
    strain: float = 1.0  # largest plastic strain allowed


@dataclass(slots=True)
class Record:
    """Settled states of all draws in the order of settling."""

    draw: list[Rows] = field(default_factory=list)
    pressure: list[Array] = field(default_factory=list)
    volume: list[Array] = field(default_factory=list)
    moves: list[Array] = field(default_factory=list)
    flow: list[Flow] = field(default_factory=list)


@dataclass(slots=True)
class Walk:
    """Mutable state of all draws on their way."""

    problem: Problem
    goal: Goal
    tolerance: float
    largest: float  # step of the control quantity
    settled: State
    value: Array  # control value of the settled state
    step: Array
    trial: Array
    pressure: Array
    guess: Array
    control: Control
    corrections: Array
    back: Array  # halvings of the last correction
    last_norm: Array
    last_move: Array
    last_push: Array
    past_moves: Array  # change over the last settled step
    past_pressure: Array
    past_step: Array
    past_guess: Array
    plain: NDArray[np.bool_]  # start from the settled state, without extrapolation
    landing: NDArray[np.bool_]
    end: NDArray[np.intp]
    highest: Array
    record: Record
    rounds: int = 0


def begin(problem: Problem, start: State, goal: Goal, step: Ratio, tolerance: Ratio) -> Walk:
    """A walk before its first step, which stays below the yield of a knuckle.

    Source: own-derivation, first step a twenty-fifth of the largest.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    draws = len(start.moves)
    settled = State(start.moves.copy(), start.pressure.copy(), _copied(start.flow))
    value = volume(problem.loads, start.moves)[0] / problem.volume - 1.0
    false = np.zeros(draws, dtype=np.bool_)
    control = Control(
        false.copy(),
        np.full(draws, goal.release),
        value.copy(),
        np.zeros((draws, 4), dtype=np.intp),
        np.zeros((draws, 4)),
    )
    largest = float(step)
    first = np.full(draws, _FIRST * step)
    if goal.release:
        value, largest = start.pressure.copy(), float(np.max(start.pressure, initial=0.0))
        first = start.pressure.copy()
    zero = np.zeros(draws)
    layers = start.flow.sum
    going = Walk(
        problem=problem,
        goal=goal,
        tolerance=float(tolerance),
        largest=largest,
        settled=settled,
        value=value,
        step=first,
        trial=start.moves.copy(),
        pressure=start.pressure.copy(),
        guess=np.zeros_like(layers),
        control=control,
        corrections=np.zeros(draws, dtype=np.float64),
        back=zero.copy(),
        last_norm=np.full(draws, np.inf),
        last_move=np.zeros_like(start.moves),
        last_push=zero.copy(),
        past_moves=np.zeros_like(start.moves),
        past_pressure=zero.copy(),
        past_step=zero.copy(),
        past_guess=np.zeros_like(layers),
        plain=np.ones(draws, dtype=np.bool_),
        landing=false.copy(),
        end=np.zeros(draws, dtype=np.intp),
        highest=start.pressure.copy(),
        record=Record(),
    )
    return going


def _copied(flow: Flow) -> Flow:
    return Flow(
        flow.sum.copy(), flow.difference.copy(), flow.strain.copy(), flow.yield_stress.copy()
    )

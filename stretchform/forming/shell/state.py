"""A shell ready to be solved, its settled state, and the records of a path.

Everything has a leading axis of draws. Lengths are over the tank radius, stresses and
pressures over Young's modulus.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from stretchform.forming.shell.element import Elements, Inner, inner
from stretchform.forming.shell.loads import (
    Loads,
    by_pressure,
    by_weight,
    stiffness,
    volume,
)
from stretchform.forming.shell.material import Flow
from stretchform.si import Array

SOURCES = ("own-derivation",)
Rows = NDArray[np.intp]


@dataclass(slots=True)
class Problem:
    """Elements, loads and supports of a batch of draws of one tank."""

    elements: Elements
    loads: Loads
    fixed: Rows  # unknowns that stay zero
    volume: float  # enclosed before forming
    lengths: Array  # (unknowns,): 1 for forces, edge length for moments
    force: float  # of the flowing wall: what the residual is measured against
    shell: Rows  # nodes whose growth counts as growth of the shell

    def chosen(self, rows: Rows) -> "Problem":
        return replace(self, elements=self.elements.chosen(rows), loads=self.loads.chosen(rows))


@dataclass(slots=True)
class State:
    """Nodal moves, pressure and plastic state of some draws."""

    moves: Array  # (draws, nodes, 3)
    pressure: Array  # (draws,)
    flow: Flow

    def chosen(self, rows: Rows) -> "State":
        return State(self.moves[rows], self.pressure[rows], flow_rows(self.flow, rows))


def flow_rows(flow: Flow, rows: Rows) -> Flow:
    """Plastic state of some draws.

    Source: own-derivation, choice of rows.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    return Flow(
        flow.sum[:, rows],
        flow.difference[:, rows],
        flow.strain[:, rows],
        flow.yield_stress[:, rows],
    )


def put_rows(flow: Flow, rows: Rows, new: Flow, source: Rows) -> None:
    """Copy rows of one plastic state into another.

    Source: own-derivation, choice of rows.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    flow.sum[:, rows] = new.sum[:, source]
    flow.difference[:, rows] = new.difference[:, source]
    flow.strain[:, rows] = new.strain[:, source]
    flow.yield_stress[:, rows] = new.yield_stress[:, source]


def unformed(problem: Problem) -> State:
    """The tank before forming.

    Source: own-derivation, start of the curves.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    draws, count = problem.elements.wall.shape
    shape = (problem.elements.layers, draws, count)
    nothing = np.zeros(shape)
    base = np.broadcast_to(problem.elements.base, shape)
    stress, _ = problem.elements.table.stress(base, nothing)
    flow = Flow(nothing.copy(), nothing.copy(), nothing.copy(), np.array(stress))
    return State(np.zeros((draws, count + 1, 3)), np.zeros(draws), flow)


class Kind(StrEnum):
    """What a step holds on to."""

    VOLUME = "volume"
    RADIUS = "radius"
    PRESSURE = "pressure"


@dataclass(slots=True)
class Control:
    """Per draw: which quantity reaches `target` at the end of the step."""

    by_radius: NDArray[np.bool_]
    by_pressure: NDArray[np.bool_]
    target: Array
    nodes: Rows  # (draws, 4): growth is a weighted sum over these nodes
    weights: Array  # (draws, 4), already over the radius before forming

    def chosen(self, rows: Rows) -> "Control":
        return Control(
            self.by_radius[rows],
            self.by_pressure[rows],
            self.target[rows],
            self.nodes[rows],
            self.weights[rows],
        )


@dataclass(slots=True)
class Balance:
    """Forces out of balance at a trial, and all that the next correction needs."""

    inner: Inner
    tangent: Array
    residual: Array  # (draws, unknowns)
    unit: Array  # forces of a unit pressure
    gap: Array  # of the control
    gradient: Array  # of the control
    norm: Array
    volume: Array  # change over the volume before forming


def balance(
    problem: Problem, moves: Array, pressure: Array, flow: Flow, guess: Array, control: Control
) -> Balance:
    """Residual, tangent and control equation at a trial state.

    Source: own-derivation, virtual work with a control equation.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    draws = len(moves)
    part = inner(problem.elements, moves, flow, guess)
    enclosed, gradient = volume(problem.loads, moves)
    unit = by_pressure(problem.loads, moves, gradient)
    outer = by_weight(problem.loads, moves, gradient)
    outer += pressure[:, None, None] * unit
    residual = -outer
    residual[:, :-1] += part.force[..., :3]
    residual[:, 1:] += part.force[..., 3:]
    flat = residual.reshape(draws, -1)
    flat[:, problem.fixed] = 0.0
    tangent = part.tangent + stiffness(problem.loads, moves, pressure)
    change = enclosed / problem.volume - 1.0
    gap, row = _control(problem, control, moves, pressure, change, gradient)
    norm = np.sqrt(np.einsum("bi,bi->b", flat / problem.lengths, flat / problem.lengths))
    return Balance(
        part,
        tangent,
        flat,
        unit.reshape(draws, -1),
        gap,
        row.reshape(draws, -1),
        norm / problem.force,
        change,
    )


def _control(
    problem: Problem,
    control: Control,
    moves: Array,
    pressure: Array,
    change: Array,
    gradient: Array,
) -> tuple[Array, Array]:
    """Gap of the control quantity and its gradient with the moves."""
    value, row = change, gradient / problem.volume
    if control.by_radius.any():
        here = np.flatnonzero(control.by_radius)
        picked = np.take_along_axis(moves[here, :, 0], control.nodes[here], axis=1)
        value = value.copy()
        value[here] = np.sum(picked * control.weights[here], axis=1)
        row[here] = 0.0
        for column in range(control.nodes.shape[1]):
            row[here, control.nodes[here, column], 0] += control.weights[here, column]
    if control.by_pressure.any():
        value = np.where(control.by_pressure, pressure, value)
    return control.target - value, row


def node_growth(problem: Problem, moves: Array) -> Array:
    """Growth of the mid-wall radius at the shell's nodes, (draws, shell nodes).

    Source: own-derivation, geometry.
    Checked: tests/unit/forming/test_shell_state.py.
    """
    nodes = problem.shell
    growth = moves[:, nodes, 0] / problem.loads.radius[nodes]
    return np.asarray(growth, dtype=np.float64)

"""A small design over the unknowns: the shells to solve, and each draw's place among them.

Row 0 holds the medians; two rows an unknown put it to its 5 and its 95 %. A quantity of any
draw then follows from the rows by a parabola in each unknown, one beside the other.
"""

from dataclasses import dataclass, fields

import numpy as np

from stretchform.planning.sample import Draws
from stretchform.si import Array

_LEVELS = (0.05, 0.5, 0.95)
_REACH = 1.6  # draws count as at most this many half-ranges from the middle


@dataclass(frozen=True, slots=True)
class Unknown:
    """One unknown: which columns of the draws it moves, its three levels, its values."""

    name: str
    columns: tuple[int, ...]  # courses that share it; empty for a factor of the whole tank
    levels: tuple[float, float, float]
    values: Array  # (N,)


def with_rate(draws: Draws) -> Draws:
    """The same draws with the rate factor moved into the strength.

    Source: own-derivation, both multiply the flow stress.
    Checked: tests/unit/test_design.py (product unchanged).
    """
    return _changed(
        draws,
        strength=draws.strength * draws.rate[:, None],
        rate=np.ones_like(draws.rate),
    )


def unknowns(draws: Draws) -> list[Unknown]:
    """Every factor of the wall's forming that differs between draws; equal columns once.

    Source: own-derivation, courses of one coil share their column.
    Checked: tests/unit/test_design.py (shared and own columns).
    """
    found = []
    if np.ptp(draws.criterion) > 0.0:
        found.append(_unknown("criterion", (), draws.criterion))
    for name in ("strength", "steepness", "wall"):
        columns = np.asarray(getattr(draws, name))
        for group in _equal(columns):
            if np.ptp(columns[:, group[0]]) > 0.0:
                found.append(_unknown(name, group, columns[:, group[0]]))
    return found


def rows(draws: Draws, every: list[Unknown]) -> Draws:
    """The design: medians, then low and high of each unknown.

    Source: own-derivation, design in the head of this module.
    Checked: tests/unit/test_design.py (one unknown moved a row).
    """
    count = 1 + 2 * len(every)
    made = {
        item.name: np.repeat(
            np.median(np.asarray(getattr(draws, item.name)), axis=0)[None, ...], count, axis=0
        )
        for item in fields(Draws)
    }
    for number, unknown in enumerate(every):
        for row, level in ((1 + 2 * number, 0), (2 + 2 * number, 2)):
            place = (row, list(unknown.columns)) if unknown.columns else row
            made[unknown.name][place] = unknown.levels[level]
    return Draws(**made)


def first(design: Draws) -> Draws:
    """Row 0 alone: the medians.

    Source: own-derivation, design in the head of this module.
    Checked: tests/unit/test_design.py (one row).
    """
    return Draws(**{item.name: getattr(design, item.name)[:1] for item in fields(Draws)})


def spread(quantity: Array, every: list[Unknown], count: int) -> Array:
    """A quantity of the design rows, (rows, ...), at every draw, (count, ...).

        q = q0 + sum over unknowns of the parabola through low, middle and high, less q0

    Source: own-derivation, Lagrange's parabola.
    Checked: tests/unit/test_design.py (exact for a sum of parabolas).
    """
    if not every:
        return np.repeat(quantity, count, axis=0)
    weights = np.concatenate([_weights(unknown) for unknown in every], axis=1)
    flat = quantity.reshape(len(quantity), -1)
    moved = flat[:1] + weights @ (flat[1:] - flat[:1])
    return np.asarray(moved.reshape(count, *quantity.shape[1:]))


def _weights(unknown: Unknown) -> Array:
    low, middle, high = unknown.levels
    value = np.clip(
        unknown.values,
        middle - _REACH * (middle - low),
        middle + _REACH * (high - middle),
    )
    of_low = (value - middle) * (value - high) / ((low - middle) * (low - high))
    of_high = (value - low) * (value - middle) / ((high - low) * (high - middle))
    return np.stack([of_low, of_high], axis=1)


def _unknown(name: str, columns: tuple[int, ...], values: Array) -> Unknown:
    low, middle, high = (float(np.quantile(values, share)) for share in _LEVELS)
    return Unknown(name, columns, (low, middle, high), values)


def _equal(columns: Array) -> list[tuple[int, ...]]:
    groups: list[list[int]] = []
    for index in range(columns.shape[1]):
        same = [g for g in groups if np.array_equal(columns[:, index], columns[:, g[0]])]
        if same:
            same[0].append(index)
        else:
            groups.append([index])
    return [tuple(group) for group in groups]


def _changed(draws: Draws, **new: Array) -> Draws:
    return Draws(**{f.name: new.get(f.name, getattr(draws, f.name)) for f in fields(Draws)})

"""Flow of the wall: von Mises plasticity in plane stress on logarithmic strains.

Hoop and meridian stay the principal directions, so logarithmic strains add up and the
small-strain update is exact at finite strain. The flow stress is Cauchy. Curves are put on
one table per part and draw, so that every law costs the same. Stresses are over Young's
modulus inside the solver.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stretchform.si import Array, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation",)
MISES = float(np.sqrt(4.0 / 3.0))  # hoop over uniaxial flow stress of a closed cylinder
_CELLS = 512
_LAST = 1.0  # largest tabulated plastic strain; straight beyond
_OFFSET = 1e-6  # strain at the first node: keeps the root law of a power curve finite
_ONSET = 4.0 * (1.0 + 1e-7)  # a settled point is elastic until it is loaded again


@dataclass(frozen=True, slots=True)
class WithCriterion:
    """A curve that makes the von Mises wall obey another yield criterion.

    s'(x) = (C/M) s(x C/M), M = 2/sqrt(3): a closed cylinder of this curve carries the hoop
    stress C s(C e) at the hoop strain e.
    """

    base: Curve
    factor: Ratio

    @property
    def strain_start(self) -> float:
        return float(self.base.strain_start / np.max(self.factor) * MISES)

    @property
    def strain_limit(self) -> float:
        return float(self.base.strain_limit / np.max(self.factor) * MISES)

    def stress(self, strain: Strain) -> Pascal:
        share = np.divide(self.factor, MISES)
        return share * self.base.stress(share * strain)

    def slope(self, strain: Strain) -> Pascal:
        share = np.divide(self.factor, MISES)
        return share * share * self.base.slope(share * strain)


@dataclass(frozen=True, slots=True)
class CurveTable:
    """Cubic pieces of every part's curve, for every draw, over Young's modulus."""

    pieces: Array  # (parts * draws * cells, 4)
    draws: int
    first: float  # root strain at the first node
    width: float  # of a cell, in root strain

    def stress(self, base: NDArray[np.intp], strain: Array) -> tuple[Array, Array]:
        """Flow stress and slope at plastic strains; `base` is the first cell of each."""
        capped = np.minimum(strain, _LAST)
        root = np.sqrt(capped + _OFFSET)
        place = (root - self.first) / self.width
        cell = np.minimum(place.astype(np.intp), _CELLS - 1)
        rest = place - cell
        c = np.take(self.pieces, base + cell, axis=0)
        c1, c2, c3 = c[..., 1], c[..., 2], c[..., 3]
        stress = c[..., 0] + rest * (c1 + rest * (c2 + rest * c3))
        slope = (c1 + rest * (2.0 * c2 + 3.0 * rest * c3)) / (2.0 * self.width * root)
        return stress + slope * (strain - capped), slope

    def base(self, part: NDArray[np.intp], draws: NDArray[np.intp]) -> NDArray[np.intp]:
        """First cells for draws (rows) and the parts of elements (columns)."""
        return (part[None, :] * self.draws + draws[:, None]) * _CELLS


def tabulated(curves: Sequence[Curve], draws: int, modulus: Pascal) -> CurveTable:
    """Table of curves, one per part; parameters may be arrays of one value per draw.

        cubic Hermite pieces in sqrt(x + 1e-6), 512 cells up to x = 1

    Source: own-derivation, Hermite interpolation.
    Checked: tests/unit/forming/test_shell_material.py.
    """
    ends = np.sqrt(np.array([0.0, _LAST]) + _OFFSET)
    root = np.linspace(ends[0], ends[1], _CELLS + 1)
    strain = np.maximum(root**2 - _OFFSET, _OFFSET)
    width = float(root[1] - root[0])
    rows = []
    for curve in curves:
        stress, slope = _sampled(curve, strain, draws)
        rise = slope * 2.0 * root * width
        drop = np.diff(stress, axis=-1)
        c0, c1 = stress[:, :-1], rise[:, :-1]
        c2 = 3.0 * drop - 2.0 * rise[:, :-1] - rise[:, 1:]
        c3 = rise[:, :-1] + rise[:, 1:] - 2.0 * drop
        rows.append(np.stack([c0, c1, c2, c3], axis=-1))
    pieces = np.stack(rows).reshape(-1, 4) / modulus
    return CurveTable(np.ascontiguousarray(pieces), draws, float(root[0]), width)


def _sampled(curve: Curve, strain: Array, draws: int) -> tuple[Array, Array]:
    """Stress and slope for (draws, strains), whether or not a curve has draws."""
    shape = (draws, len(strain))
    columns = _columned(curve)
    stress = np.broadcast_to(np.asarray(columns.stress(strain), dtype=np.float64), shape)
    slope = np.broadcast_to(np.asarray(columns.slope(strain), dtype=np.float64), shape)
    return stress, slope


def _columned(curve: Curve) -> Curve:
    """The same curve with every one-dimensional parameter made a column of draws."""
    from dataclasses import fields, is_dataclass, replace

    from stretchform.steel.curve import Table

    if isinstance(curve, Table) or not is_dataclass(curve):
        return curve
    changes: dict[str, object] = {}
    for field in fields(curve):
        value = getattr(curve, field.name)
        if is_dataclass(value):
            changes[field.name] = _columned(value)
        elif isinstance(value, np.ndarray) and value.ndim == 1:
            changes[field.name] = value[:, None]
    return replace(curve, **changes)


@dataclass(slots=True)
class Flow:
    """Plastic state of all layer points; arrays are (layers, draws, elements)."""

    sum: Array  # plastic strain, meridian + hoop
    difference: Array  # meridian - hoop
    strain: Array  # equivalent plastic
    yield_stress: Array  # flow stress there, over Young's modulus


@dataclass(slots=True)
class Answer:
    """Stress (sum, difference), tangents and the new plastic state of all layer points."""

    sum: Array
    difference: Array
    tangent: Array  # (3, ...): sum-sum, sum-difference (both ways), difference-difference
    flow: Flow
    step: Array  # increment of plastic strain: the first guess of the next call


def update(
    table: CurveTable,
    base: NDArray[np.intp],
    poisson: Ratio,
    strains: tuple[Array, Array],
    flow: Flow,
    guess: Array,
) -> Answer:
    """Return mapping of all layer points, with its consistent tangent.

        P = P_trial / (1 + a g), M = M_trial / (1 + b g), g = d / s(x + d)
        sqrt(P^2 + 3 M^2) / 2 = s(x + d); a = 1 / (2 (1 - nu)), b = 3 / (2 (1 + nu))

    P and M are sum and difference of meridian and hoop stress over Young's modulus.

    Source: own-derivation, backward Euler of J2 flow in plane stress.
    Checked: tests/unit/forming/test_shell_material.py (closed form, finite differences).
    """
    soft, hard = 1.0 / (1.0 - poisson), 1.0 / (1.0 + poisson)
    total = soft * (strains[0] - flow.sum)
    apart = hard * (strains[1] - flow.difference)
    tangent = np.empty((3, *total.shape))
    tangent[0], tangent[1], tangent[2] = soft, 0.0, hard
    step = np.zeros_like(total)
    new = Flow(flow.sum, flow.difference, flow.strain, flow.yield_stress)
    trial = total * total + 3.0 * apart * apart
    limit = _ONSET * flow.yield_stress * flow.yield_stress
    flat = np.flatnonzero(trial > limit)
    if flat.size:
        _flowing(table, base, poisson, (total, apart), flow, guess, flat, tangent, step, new)
    return Answer(total, apart, tangent, new, step)


def _flowing(
    table: CurveTable,
    base: NDArray[np.intp],
    poisson: Ratio,
    stresses: tuple[Array, Array],
    flow: Flow,
    guess: Array,
    flat: NDArray[np.intp],
    tangent: Array,
    step: Array,
    new: Flow,
) -> None:
    """Replace the trial values of the flowing points, in place."""
    soft, hard = 1.0 / (1.0 - poisson), 1.0 / (1.0 + poisson)
    total, apart = stresses[0].ravel()[flat], stresses[1].ravel()[flat]
    before = flow.strain.ravel()[flat]
    cells = np.broadcast_to(base, flow.strain.shape).ravel()[flat]
    d, stress, slope = _consistency(
        table, cells, poisson, total, apart, before, guess.ravel()[flat]
    )
    gain = d / stress
    low, high = 1.0 + 0.5 * soft * gain, 1.0 + 1.5 * hard * gain
    p, m = total / low, apart / high
    pull_p, pull_m = p / low, 3.0 * m / high
    quarter = 0.25 / stress
    rate = (1.0 - gain * slope) / stress
    bend = quarter * (0.5 * soft * p * pull_p + 1.5 * hard * m * pull_m)
    # dd = (pull_p dP + pull_m dM) quarter / below, from the consistency condition
    scale = quarter * rate / (slope + bend * rate)
    p_gain, m_gain = 0.5 * soft * p / low, 1.5 * hard * m / high
    new_tangent = (
        soft * (1.0 / low - p_gain * scale * pull_p),
        -hard * p_gain * scale * pull_m,
        hard * (1.0 / high - m_gain * scale * pull_m),
    )
    for row, value in enumerate(new_tangent):
        tangent[row].ravel()[flat] = value
    stresses[0].ravel()[flat] = p
    stresses[1].ravel()[flat] = m
    step.ravel()[flat] = d
    new.sum, new.difference = new.sum.copy(), new.difference.copy()
    new.strain, new.yield_stress = new.strain.copy(), new.yield_stress.copy()
    new.sum.ravel()[flat] += 0.5 * gain * p
    new.difference.ravel()[flat] += 1.5 * gain * m
    new.strain.ravel()[flat] = before + d
    new.yield_stress.ravel()[flat] = stress


def _consistency(
    table: CurveTable,
    cells: NDArray[np.intp],
    poisson: Ratio,
    total: Array,
    apart: Array,
    before: Array,
    guess: Array,
) -> tuple[Array, Array, Array]:
    """Plastic step, flow stress and slope at its end: Newton, monotone after one step."""
    soft, hard = 0.5 / (1.0 - poisson), 1.5 / (1.0 + poisson)
    d = guess.copy()
    for _ in range(40):
        stress, slope = table.stress(cells, before + d)
        gain = d / stress
        low, high = 1.0 + soft * gain, 1.0 + hard * gain
        p, m = total / low, apart / high
        pp, mm = p * p, 3.0 * m * m
        equivalent = 0.5 * np.sqrt(pp + mm)
        gap = equivalent - stress
        bend = 0.25 / equivalent * (soft * pp / low + hard * mm / high)
        fall = bend * (1.0 - gain * slope) / stress + slope
        if np.max(np.abs(gap) / stress) < 1e-10:
            break
        d = np.maximum(d + gap / fall, 0.0)
    return d, stress, slope

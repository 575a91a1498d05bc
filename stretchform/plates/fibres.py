"""A rectangular section of fibres that yield: force and moment from stretch and curvature.

Every fibre is pulled or pushed along itself: elastic, then along the flow-stress curve with
isotropic hardening, in logarithmic strain; its section shrinks as it stretches, so that its
volume stays. What a fibre went through is remembered, so unloading is elastic.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from stretchform.si import Array, Metre, Number, Pascal, Strain
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation",)

_GRID = np.concatenate([[0.0], np.geomspace(1e-7, 2.0, 400)])


@dataclass(frozen=True, slots=True)
class Flow:
    """A curve as straight lines, with total strain x + S(x)/E beside each plastic strain."""

    plastic: Array
    stress: Array
    total: Array
    modulus: float


class Memory(NamedTuple):
    """Plastic strain of each fibre, signed and accumulated."""

    strain: Array
    accumulated: Array


class Section(NamedTuple):
    """Forces of the sections of a beam and their derivatives, one row per element."""

    tension: Array
    moment: Array
    by_stretch: Array  # d tension / d stretch
    by_both: Array  # d tension / d curvature
    by_curvature: Array  # d moment / d curvature
    memory: Memory


def tabulate(curve: Curve, youngs_modulus: Pascal) -> Flow:
    """Flow-stress curve on a fixed grid, so that a yielding fibre needs no iteration.

        total strain = plastic strain + S / E, which rises with the plastic strain

    Beyond the last strain that the curve supports its last slope is carried on.

    Source: own-derivation, inverse of a rising function.
    Checked: tests/unit/plates/test_plates_fibres.py (against a root of the exact curve).
    Raises nothing.
    """
    modulus = float(youngs_modulus)
    last = float(curve.strain_limit)
    inside = np.minimum(_GRID, last)
    beyond = (_GRID - inside) * np.maximum(curve.slope(last), 0.0)
    stress = np.asarray(curve.stress(inside), dtype=np.float64) + beyond
    stress = np.maximum.accumulate(stress)
    return Flow(_GRID, stress, _GRID + stress / modulus, modulus)


def respond(strain: Strain, memory: Memory, flow: Flow) -> tuple[Pascal, Pascal, Memory]:
    """True stress, its slope and the new memory of fibres brought to a logarithmic strain.

        trial = strain - plastic strain;   yields where E |trial| > S(accumulated)
        then accumulated' + S(accumulated')/E = |trial| + accumulated

    Source: own-derivation, radial return in one dimension.
    Checked: tests/unit/plates/test_plates_fibres.py (loading, unloading, reverse yielding).
    Raises nothing.
    """
    trial = np.asarray(strain - memory.strain, dtype=np.float64)
    size = np.abs(trial)
    reach = size + memory.accumulated
    place = np.clip(np.searchsorted(flow.total, reach), 1, len(flow.total) - 1)
    width = flow.total[place] - flow.total[place - 1]
    plastic_width = flow.plastic[place] - flow.plastic[place - 1]
    reached = flow.plastic[place - 1] + (reach - flow.total[place - 1]) * plastic_width / width
    gain = np.maximum(reached - memory.accumulated, 0.0)
    yields = gain > 0.0
    stress = np.sign(trial) * flow.modulus * (size - gain)
    slope = np.where(yields, flow.modulus * (1.0 - plastic_width / width), flow.modulus)
    changed = Memory(memory.strain + np.sign(trial) * gain, memory.accumulated + gain)
    return stress, slope, changed


def places(depth: Metre, fibres: int) -> tuple[Array, Array]:
    """Heights of the fibres over the middle of the section and the depth each stands for.

        y = +- depth/2 t^2 with Gauss-Legendre points t on 0 to 1

    The middle is crowded: fibres there change from push to pull while the arm bends.

    Source: own-derivation, quadrature exact for an elastic section.
    Checked: tests/unit/plates/test_plates_fibres.py (area and inertia).
    Raises nothing.
    """
    points, weights = np.polynomial.legendre.leggauss(fibres // 2)
    along, half = 0.5 * (points + 1.0), float(depth) / 2.0
    above, each = half * along**2, half * along * weights
    return np.concatenate([-above[::-1], above]), np.concatenate([each[::-1], each])


def section(
    stretch: Strain,
    curvature: Number,
    bow: Number,
    heights: Array,
    areas: Array,
    memory: Memory,
    flow: Flow,
) -> Section:
    """Tension and moment of each section with their derivatives.

        fibre stretch = (1 + stretch - y * curvature) / (1 - y * bow)
        tension = sum(P dA),  moment = -sum(P y dA),  P = true stress / fibre stretch

    `curvature` is the whole one, `bow` that before loading; `areas` before loading.

    Source: own-derivation, work conjugate forces of a curved strip.
    Checked: tests/unit/plates/test_plates_fibres.py (elastic section, derivatives).
    Raises nothing.
    """
    start = 1.0 - np.multiply(heights, bow)
    fibre = (
        1.0 + np.asarray(stretch)[:, None] - np.asarray(curvature)[:, None] * heights
    ) / start
    with np.errstate(invalid="ignore", divide="ignore"):
        logarithm = np.log(fibre)  # not a number: a move too large, the caller halves it
    stress, slope, changed = respond(logarithm, memory, flow)
    nominal = stress / fibre
    stiffness = (slope - stress) / fibre**2 / start
    lever = areas * heights
    return Section(
        nominal @ areas,
        -(nominal @ lever),
        stiffness @ areas,
        -(stiffness @ lever),
        stiffness @ (lever * heights),
        changed,
    )


def outer_strain(stretch: Strain, curvature: Number, bow: Number, depth: Metre) -> Strain:
    """Largest engineering strain of the two outer fibres, without sign.

        |(stretch -+ depth/2 (curvature - bow)) / (1 -+ depth/2 bow)|

    Source: own-derivation, plane sections.
    Checked: tests/unit/plates/test_plates_fibres.py (pure bending).
    Raises nothing.
    """
    half = np.divide(depth, 2.0)
    turned = np.multiply(half, np.subtract(curvature, bow))
    upper = np.abs((stretch - turned) / (1.0 - np.multiply(half, bow)))
    lower = np.abs((stretch + turned) / (1.0 + np.multiply(half, bow)))
    return np.maximum(upper, lower)

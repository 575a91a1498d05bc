"""What a solved tank tells: the course of forming, the last state along the wall, heads.

Arrays have a leading axis of draws, then settled states; rows shorter than the longest are
filled with NaN. Growth is of the outside circumference unless it says mid-wall.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stretchform.si import Array, CubicMetre, Growth, Joule, Metre, Pascal, Strain

SOURCES = ("own-derivation",)


@dataclass(frozen=True, slots=True)
class Head:
    """What one head does, one value per draw; NaN for a tied end."""

    first_yield: Pascal  # pressure at which a layer of the head first yields
    depth_change: Metre  # tangent line to pole, under the last pressure
    depth_change_released: Metre
    lowest_hoop: Pascal  # lowest membrane hoop stress on the way; compression is negative
    lowest_hoop_at: Pascal  # pressure at which it occurs
    largest_strain: Strain  # equivalent plastic, any layer, at the end


@dataclass(frozen=True, slots=True)
class Wall:
    """The last state along the wall: values at mid element, from below, (draws, elements).

    Inside and outside are the surfaces; strains are logarithmic, stresses Cauchy.
    """

    height: Metre  # (elements,) before forming
    radius: Metre  # (elements,) before forming
    part: NDArray[np.intp]
    growth: Growth  # of the mid-wall radius, under pressure
    released_growth: Growth  # of the mid-wall radius
    wall: Metre  # under pressure
    released_wall: Metre
    hoop_stress: Pascal  # mean through the wall, under pressure
    meridian_stress: Pascal
    hoop_strain_inside: Strain
    hoop_strain_outside: Strain
    meridian_strain_inside: Strain
    meridian_strain_outside: Strain
    hoop_stress_inside: Pascal
    hoop_stress_outside: Pascal
    meridian_stress_inside: Pascal
    meridian_stress_outside: Pascal
    plastic_strain: Strain  # equivalent, mean through the wall
    plastic_strain_largest: Strain  # equivalent, any layer


@dataclass(frozen=True, slots=True)
class Outline:
    """Nodes of the meridian before forming, under the last pressure and released."""

    radius: Metre  # (nodes,)
    height: Metre
    radius_under_pressure: Metre  # (draws, nodes)
    height_under_pressure: Metre
    radius_released: Metre
    height_released: Metre


@dataclass(frozen=True, slots=True)
class Work:
    """Energies of the last state, one value per draw."""

    outer: Joule  # done by pressure and weight
    stored: Joule  # elastic, in the wall
    plastic: Joule


@dataclass(frozen=True, slots=True)
class Trace:
    """The whole course of forming, and its last state."""

    heights: Metre  # (stations,)
    pressure: Pascal  # (draws, states), gauge at the top of the tank
    volume: CubicMetre  # (draws, states), change of the enclosed volume
    growth: Growth  # (draws, states, stations), under pressure
    released: Growth  # (draws, states, stations)
    midwall: Growth  # (draws, states, stations), under pressure
    midwall_released: Growth
    wall: Metre  # (draws, states, stations), under pressure
    largest: Growth  # (draws, states): largest mid-wall growth of the shell
    largest_strain: Strain  # (draws, states): largest equivalent plastic strain
    end: tuple[str, ...]  # per draw: reached | past maximum | strained | failed
    highest: Pascal  # (draws,): highest pressure on the way
    ahead: NDArray[np.intp]  # (draws,): part that strained most in the last step
    volume_before: CubicMetre
    heads: tuple[Head, Head]  # lower, upper
    along: Wall
    outline: Outline
    work: Work
    corrections: int  # of all draws together, for the record


def at_pressure(trace: Trace, values: Array, pressure: Pascal) -> Array:
    """Values of a trace, (draws, states, ..), at pressures on the rising branch.

        straight lines between the settled states, from nothing at no pressure; NaN above
        the highest pressure that the draw reached

    Source: own-derivation, interpolation.
    Checked: tests/verification/test_shell_batch.py.
    """
    wanted = np.atleast_1d(np.asarray(pressure, dtype=np.float64))
    flat = values.reshape(*values.shape[:2], -1)
    answer = np.full((len(flat), len(wanted), flat.shape[2]), np.nan)
    for draw, (pushed, row) in enumerate(zip(np.asarray(trace.pressure), flat, strict=True)):
        rising = _rising(pushed)
        x = np.concatenate(([0.0], pushed[rising]))
        for column in range(flat.shape[2]):
            y = np.concatenate(([0.0], row[rising, column]))
            answer[draw, :, column] = np.interp(wanted, x, y, right=np.nan)
    return answer.reshape(len(flat), len(wanted), *values.shape[2:])


def _rising(pressure: Array) -> NDArray[np.bool_]:
    """States up to the highest pressure whose pressure is above all before."""
    filled = np.where(np.isfinite(pressure), pressure, -np.inf)
    before = np.maximum.accumulate(np.concatenate(([0.0], filled[:-1])))
    return np.asarray(filled > before)

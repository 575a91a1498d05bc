"""Slosh of a liquid in an upright cylinder, and how rings damp it.

First lateral mode over a flat bottom, small waves. Ring damping holds for rings up to about a
fifth of the radius wide, deeper than the wave is high, waves up to a fifth of the radius.
Full plates split the liquid and are not evaluated. Formulas partly from memory, see each.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.si import (
    Array,
    Hertz,
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecondSquared,
    Number,
    Pascal,
    Ratio,
)

SOURCES = ("own-derivation", "nasa-sp-106", "miles-1958", "nasa-sp-8009", "keulegan-carpenter")

FIRST_ROOT = 1.8411837813406593  # of the derivative of the Bessel function J1
GAP_EFFECT = 0.7  # judged: a ring that stands off the wall, between 1 and sqrt(1/2)
WIDE_GAP = 0.1  # of the ring's width: beyond it the gap effect counts
_RING_CONSTANT = 2.83
_RING_DECAY = 4.60


@dataclass(frozen=True, slots=True)
class Mode:
    """First lateral mode of the liquid."""

    frequency: Hertz
    mass_ratio: Ratio  # slosh mass over liquid mass
    pendulum: Metre
    mass_depth: Metre  # below the surface, bottom pressure included
    smooth_damping: Ratio  # of critical, wall without rings; water unless said otherwise


@dataclass(frozen=True, slots=True)
class RingDamping:
    """Damping of critical by each ring and together, and where the formula was outside."""

    each: tuple[float, ...]
    total: Ratio
    outside: tuple[str, ...]  # codes: "wide-ring", "near-surface", "large-wave"


def stiffness_ratio(radius: Metre, depth: Metre) -> Ratio:
    """tanh(xi depth / radius), the share of deep-liquid behaviour, xi = 1.8412.

    Source: nasa-sp-106, lateral slosh of a cylinder (form seen in a public source file).
    Checked: tests/verification/test_plates_slosh.py (deep limit).
    Raises nothing.
    """
    return np.tanh(FIRST_ROOT * np.divide(depth, radius))


def frequency(radius: Metre, depth: Metre, acceleration: MetrePerSecondSquared) -> Hertz:
    """First lateral frequency.

        f = sqrt(a xi / R * tanh(xi h / R)) / (2 pi)

    Source: nasa-sp-106, lateral slosh of a cylinder (form seen in a public source file).
    Checked: tests/verification/test_plates_slosh.py (rows 21 to 23 and 27).
    Raises nothing.
    """
    square = np.multiply(acceleration, FIRST_ROOT / np.asarray(radius))
    return np.sqrt(square * stiffness_ratio(radius, depth)) / (2.0 * np.pi)


def mass_ratio(radius: Metre, depth: Metre) -> Ratio:
    """Slosh mass over the mass of the liquid.

        m1/m = 2 tanh(xi h/R) / (xi (xi^2 - 1) h/R)

    Source: nasa-sp-106, equivalent mechanical model (form seen in a public source file).
    Checked: tests/verification/test_plates_slosh.py (rows 21 and 22).
    Raises nothing.
    """
    shape = FIRST_ROOT * (FIRST_ROOT**2 - 1.0) * np.divide(depth, radius)
    return 2.0 * stiffness_ratio(radius, depth) / shape


def pendulum(radius: Metre, depth: Metre) -> Metre:
    """Length of the pendulum with the first lateral frequency.

        L = R / (xi tanh(xi h/R))

    Source: nasa-sp-106, equivalent mechanical model (form seen in a public source file).
    Checked: tests/verification/test_plates_slosh.py (row 21).
    Raises nothing.
    """
    return np.asarray(radius) / (FIRST_ROOT * stiffness_ratio(radius, depth))


def mass_depth_wall(radius: Metre, depth: Metre) -> Metre:
    """Depth of the slosh mass below the surface by the pressure on the wall alone.

        (R/xi) tanh(xi h / (2 R))

    Source: nasa-sp-106, equivalent mechanical model (form seen in a public source file).
    Checked: tests/verification/test_plates_slosh.py (row 23).
    Raises nothing.
    """
    argument = FIRST_ROOT * np.divide(depth, radius)
    return np.divide(radius, FIRST_ROOT) * np.tanh(argument / 2.0)


def mass_depth(radius: Metre, depth: Metre) -> Metre:
    """Depth of the slosh mass with the moment of the pressure on a flat bottom.

        (R/xi) (cosh k - 2) / sinh k,   k = xi h/R

    Negative in shallow liquid: the mass stands above the surface.

    Source: own-derivation, moment of the mode's pressure on wall and bottom.
    Checked: tests/verification/test_plates_slosh.py (row 23, quadrature of the pressure).
    Raises nothing.
    """
    argument = np.minimum(FIRST_ROOT * np.divide(depth, radius), 300.0)
    lever = np.asarray((np.cosh(argument) - 2.0) / np.sinh(argument), dtype=np.float64)
    return np.divide(radius, FIRST_ROOT) * lever


def smooth_damping(
    radius: Metre, depth: Metre, acceleration: MetrePerSecondSquared, viscosity: Number
) -> Ratio:
    """Damping of critical in a smooth tank; kinematic `viscosity` in m²/s.

        0.79 sqrt(v / (R^1.5 a^0.5)) (1 + 0.318/sinh(1.84 h/R) (1 + (1 - h/R)/cosh(1.84 h/R)))

    Source: nasa-sp-8009, smooth cylinder (from memory).
    Checked: tests/verification/test_plates_slosh.py (0.1 % of water in a small tank).
    Raises nothing.
    """
    ratio = np.asarray(np.divide(depth, radius), dtype=np.float64)
    argument = np.minimum(1.84 * ratio, 300.0)
    shallow = 0.318 / np.sinh(argument) * (1.0 + (1.0 - ratio) / np.cosh(argument))
    scale = np.power(radius, 1.5) * np.power(acceleration, 0.5)
    damping = 0.79 * np.sqrt(np.divide(viscosity, scale)) * (1.0 + shallow)
    return np.asarray(damping, dtype=np.float64)


def mode(
    radius: Metre,
    depth: Metre,
    acceleration: MetrePerSecondSquared,
    viscosity: Number = 1.0e-6,
) -> Mode:
    """First lateral mode; `radius` is that of the inside, before or after forming.

    Source: nasa-sp-106, as in the functions of this module.
    Checked: tests/verification/test_plates_slosh.py (rows 21 to 23).
    Raises nothing.
    """
    return Mode(
        frequency(radius, depth, acceleration),
        mass_ratio(radius, depth),
        pendulum(radius, depth),
        mass_depth(radius, depth),
        smooth_damping(radius, depth, acceleration, viscosity),
    )


def area_ratio(radius: Metre, width: Metre, clearance: Metre = 0.0) -> Ratio:
    """Area of a ring over the area of the tank.

        ((R - c)^2 - (R - c - w)^2) / R^2;   without clearance 2 w/R - (w/R)^2

    Source: own-derivation, geometry.
    Checked: tests/verification/test_plates_slosh.py (row 40, before and after growth).
    Raises nothing.
    """
    outer = np.subtract(radius, clearance)
    return (np.square(outer) - np.square(outer - width)) / np.square(radius)


def ring_damping(
    radius: Metre,
    width: Metre,
    ring_depth: Metre,
    wave: Metre,
    clearance: Metre = 0.0,
) -> Ratio:
    """Damping of critical by one ring below the surface; 0 for a ring above it.

        2.83 exp(-4.60 d/R) alpha^1.5 sqrt(wave/R), times 0.7 with a gap above 0.1 width

    `wave` is its height at the wall above the still level, `ring_depth` below that level.

    Source: miles-1958, ring damping (constants and exponents seen in a public source file,
        the root of the wave height from memory); own-derivation, gap effect.
    Checked: tests/verification/test_plates_slosh.py (rows 24 to 26).
    Raises nothing.
    """
    decay = np.exp(-_RING_DECAY * np.divide(ring_depth, radius))
    area = np.power(area_ratio(radius, width, clearance), 1.5)
    gap = np.where(np.greater(clearance, WIDE_GAP * np.asarray(width)), GAP_EFFECT, 1.0)
    damping = _RING_CONSTANT * decay * area * np.sqrt(np.divide(wave, radius)) * gap
    return np.where(np.greater(ring_depth, 0.0), damping, 0.0)


def rings(
    radius: Metre, width: Metre, depths: Array, wave: Metre, clearance: Metre = 0.0
) -> RingDamping:
    """Damping by every ring below the surface and by all of them.

        total = sum of the rings

    Source: miles-1958, ring damping; own-derivation, sum of small dampings.
    Checked: tests/verification/test_plates_slosh.py (spacing table, ranges said).
    Raises nothing.
    """
    below = np.asarray(depths, dtype=np.float64)
    each = np.asarray(ring_damping(radius, width, below, wave, clearance))
    outside = []
    if np.any(np.divide(width, radius) > 0.2):
        outside.append("wide-ring")
    if np.any((below > 0.0) & (below <= np.asarray(wave))):
        outside.append("near-surface")
    if np.any(np.divide(wave, radius) > 0.2):
        outside.append("large-wave")
    parts = tuple(float(value) for value in np.atleast_1d(each))
    return RingDamping(parts, float(np.sum(each)), tuple(outside))


def widest_spacing(
    radius: Metre, width: Metre, wave: Metre, damping: Ratio, clearance: Metre = 0.0
) -> Metre:
    """Widest spacing of rings that keeps a damping when the top ring has just gone dry.

        d = R/4.60 ln(2.83 alpha^1.5 sqrt(wave/R) gap / damping), one ring at depth d

    0 where one ring at the surface does not reach it. Rings further down are left out.

    Source: miles-1958, ring damping solved for the depth.
    Checked: tests/verification/test_plates_slosh.py (gives back the damping).
    Raises nothing.
    """
    surface = ring_damping(radius, width, np.multiply(1e-12, radius), wave, clearance)
    share = np.maximum(np.divide(surface, damping), 1.0)
    return np.multiply(radius, np.log(share)) / _RING_DECAY


def ring_pressure(
    radius: Metre,
    width: Metre,
    ring_depth: Metre,
    wave: Metre,
    first: Hertz,
    density: KilogramPerCubicMetre,
) -> Pascal:
    """Greatest pressure difference over a ring at the wall.

        p = 0.5 rho C U^2,  U = 2 pi f wave exp(-xi d/R),  C = 15 sqrt(2 w f / U)

    Good for U/(2 w f) between 2 and 20.

    Source: keulegan-carpenter, drag of a plate in oscillating flow (from memory).
    Checked: tests/verification/test_plates_slosh.py (367 Pa of a small tank).
    Raises nothing.
    """
    decay = np.exp(-FIRST_ROOT * np.divide(ring_depth, radius))
    speed = 2.0 * np.pi * np.multiply(first, wave) * decay
    number = speed / (2.0 * np.multiply(width, first))
    return 0.5 * np.multiply(density, 15.0 / np.sqrt(number)) * np.square(speed)


@dataclass(frozen=True, slots=True)
class Slosh:
    """Liquid with its plates, before or after forming."""

    mode: Mode
    rings: RingDamping | None  # None: full plates, not evaluated
    damping: Ratio | None  # of critical, wall and rings; None: not evaluated


def level_after(depth: Metre, radius_before: Metre, radius_after: Metre) -> Metre:
    """Depth of the same volume of liquid after the tank has grown.

        depth * (radius before / radius after)^2

    Source: own-derivation, volume kept, heads left out.
    Checked: tests/verification/test_plates_slosh.py (row 27).
    Raises nothing.
    """
    return np.multiply(depth, np.square(np.divide(radius_before, radius_after)))


def slosh(
    radius: Metre,
    depth: Metre,
    acceleration: MetrePerSecondSquared,
    ring_heights: Array,
    ring_width: Metre | None,
    clearance: Metre,
    wave: Metre,
    viscosity: Number = 1.0e-6,
) -> Slosh:
    """First mode of the liquid and its damping by the wall and the rings below the surface.

    `ring_heights` above the bottom, as `depth`. Call it with radius, depth and clearance before
    and after forming: growth lowers the level, opens the gap and shrinks the area ratio.
    `ring_width` None: full plates, which split the liquid; their damping is not evaluated.

    Source: own-derivation, sum of small dampings; nasa-sp-106 and miles-1958 as above.
    Checked: tests/verification/test_plates_slosh.py (before and after growth, full plates).
    Raises nothing.
    """
    first = mode(radius, depth, acceleration, viscosity)
    if ring_width is None:
        return Slosh(first, None, None)
    below = np.subtract(depth, np.asarray(ring_heights, dtype=np.float64))
    damped = rings(radius, ring_width, below, wave, clearance)
    return Slosh(first, damped, float(first.smooth_damping) + float(damped.total))

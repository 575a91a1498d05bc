"""What a tape round the tank measures, and how sure a growth from two readings is.

A plain tape graduated in length lies half its thickness outside the wall; a diameter tape
allows for that on its scale: correct it once only. Pull the same way, on the same marked
line, before and after, and most errors cancel.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError
from stretchform.si import (
    Celsius,
    Growth,
    Kelvin,
    Metre,
    Newton,
    Pascal,
    PerKelvin,
    PerSecond,
    Ratio,
    Second,
    Strain,
)

SOURCES = ("mid-2014-32", "own-derivation", "gum")

REFERENCE_TEMPERATURE = 20.0  # °C, at which tapes are graduated
SKEW = 0.06e-3  # m, judged standard uncertainty of a path that does not lie in one plane
PULL = 2e-5  # judged standard uncertainty of the tape's stretch, relative
_CLASSES = {"I": (0.1e-3, 0.1e-3), "II": (0.3e-3, 0.2e-3), "III": (0.6e-3, 0.4e-3)}


@dataclass(frozen=True, slots=True)
class TapeErrors:
    """Standard uncertainties that enter a growth; those of both readings are independent."""

    before: Metre
    after: Metre
    thickness: Metre = 0.0
    pull: Strain = 0.0  # of the tape's stretch, each reading
    skew: Metre = 0.0  # of the path, each reading
    temperature: Kelvin = 0.0  # tape and tank alike, each reading
    scale: Ratio = 0.0  # of the tape, common to both


def outside_diameter(circumference: Metre, tape_thickness: Metre) -> Metre:
    """Outside diameter from a plain tape; give thickness 0 for a diameter tape.

        D = C/pi - t

    Source: own-derivation, the tape's middle lies half its thickness outside.
    Checked: tests/verification/test_water_tape.py (reference tank).
    Raises nothing.
    """
    return np.divide(circumference, np.pi) - tape_thickness


def permissible_error(length: Metre, accuracy_class: str) -> Metre:
    """Largest permissible error of a steel tape over a length.

        a + b L, L rounded up to whole metres; I 0.1+0.1, II 0.3+0.2, III 0.6+0.4 mm

    Source: mid-2014-32, Annex X, Table 1 (seen in the UK regulations that repeat it).
    Checked: tests/published/test_water_tape_classes.py (table figures).
    Raises InputError for an unknown class.
    """
    if accuracy_class not in _CLASSES:
        raise InputError("tape class", f"unknown class {accuracy_class}", 'class = "II"')
    fixed, per_metre = _CLASSES[accuracy_class]
    return fixed + per_metre * np.ceil(np.asarray(length) - 1e-9)


def at_reference(
    reading: Metre,
    tape_temperature: Celsius,
    tank_temperature: Celsius,
    tape_expansion: PerKelvin,
    tank_expansion: PerKelvin,
) -> Metre:
    """A reading as tape and tank at 20 degC would have given it.

        C20 = C (1 + a_tape (T_tape - 20)) / (1 + a_tank (T_tank - 20))

    Source: own-derivation, thermal expansion of both.
    Checked: tests/verification/test_water_tape.py (10 K warmer tank).
    Raises nothing.
    """
    tape = 1.0 + tape_expansion * np.subtract(tape_temperature, REFERENCE_TEMPERATURE)
    tank = 1.0 + tank_expansion * np.subtract(tank_temperature, REFERENCE_TEMPERATURE)
    return reading * tape / tank


def stretch(force: Newton, width: Metre, thickness: Metre, youngs_modulus: Pascal) -> Strain:
    """Strain of a tape under its pull.

        F/(b t E)

    Source: own-derivation, Hooke's law.
    Checked: tests/verification/test_water_tape.py (reference tank).
    Raises nothing.
    """
    return force / (np.multiply(width, thickness) * youngs_modulus)


def mean_pull(friction: Ratio, both_ends: bool) -> Ratio:
    """Mean pull along one wrap over the pull at the end, lowered by friction.

        (1 - exp(-mu w))/(mu w), w = 2 pi pulled at one end, pi at both

    Source: own-derivation, belt friction.
    Checked: tests/verification/test_water_tape.py (reference tank).
    Raises nothing.
    """
    wrap = np.multiply(friction, np.pi if both_ends else 2.0 * np.pi)
    slipping = np.greater(wrap, 0.0)
    safe = np.where(slipping, wrap, 1.0)
    return np.where(slipping, -np.expm1(-safe) / safe, 1.0)[()]


def skew(circumference: Metre, mismatch: Metre) -> Metre:
    """Excess reading when the ends of the tape miss each other along the axis.

        sqrt(C^2 + a^2) - C

    Source: own-derivation, helix.
    Checked: tests/verification/test_water_tape.py.
    Raises nothing.
    """
    return np.hypot(circumference, mismatch) - circumference


def growth(before: Metre, after: Metre, tape_thickness: Metre) -> Growth:
    """Growth of the outside circumference from two readings of the same plain tape.

        e = (C1 - pi t)/(C0 - pi t) - 1

    Source: own-derivation, ratio of two diameters.
    Checked: tests/verification/test_water_tape.py (reference tank).
    Raises nothing.
    """
    thick = np.multiply(np.pi, tape_thickness)
    return np.subtract(after, thick) / np.subtract(before, thick) - 1.0


def growth_uncertainty(
    before: Metre,
    after: Metre,
    tape_thickness: Metre,
    errors: TapeErrors,
    expansion_difference: PerKelvin = 4.5e-6,
) -> Growth:
    """Standard uncertainty of a growth; twice it covers about 95 %.

        u^2 = sum (c_i u_i)^2 over both readings, thickness, pull, skew and temperature

    A common error of scale cancels but for the part that thickness leaves.
    `expansion_difference` is that of tank and tape.

    Source: gum, law of propagation (JCGM 100:2008, from memory).
    Checked: tests/verification/test_water_tape.py (reference tank, package uncertainties).
    Raises nothing.
    """
    bare = np.subtract(before, np.pi * np.asarray(tape_thickness))
    e = growth(before, after, tape_thickness)
    thermal = np.multiply(errors.temperature, expansion_difference)
    first = _reading(before, errors.before, errors, thermal)
    second = _reading(after, errors.after, errors, thermal)
    thick = np.pi * e / bare * errors.thickness
    scale = e * np.pi * np.asarray(tape_thickness) / bare * errors.scale
    return np.sqrt((second / bare) ** 2 + ((1.0 + e) * first / bare) ** 2 + thick**2 + scale**2)


def change_in_hold(circumference: Metre, rate: PerSecond, time: Second) -> Metre:
    """How far a circumference moves in a hold at a rate of growth.

        dC = C rate t

    Source: own-derivation, product.
    Checked: tests/published/test_water_tape_classes.py (0.1 % per hour over half an hour).
    Raises nothing.
    """
    return np.multiply(circumference, rate) * time


def _reading(length: Metre, alone: Metre, errors: TapeErrors, thermal: Strain) -> Metre:
    along = np.hypot(np.multiply(length, errors.pull), np.multiply(length, thermal))
    return np.hypot(np.hypot(alone, errors.skew), along)

"""Collapse of a thin tank under outside pressure while it drains with the vent shut.

Long thin cylinders buckle far below their yield. A formed tank is wider and thinner than
the built one and buckles sooner, so formed sizes must be used. The vent stays open until
the tank is dry; these figures only show why.
"""

import numpy as np

from stretchform.errors import InputError
from stretchform.si import STANDARD_ATMOSPHERE, Metre, Pascal, Ratio

SOURCES = ("windenburg-trilling-1934", "own-derivation")

KNOCK_DOWN = 0.75  # imperfect shells against the formula; from memory


def collapse_pressure(
    diameter: Metre,
    wall: Metre,
    length: Metre,
    youngs_modulus: Pascal,
    poisson_ratio: Ratio,
    knock_down: Ratio = KNOCK_DOWN,
) -> Pascal:
    """Outside overpressure under which a cylinder buckles between its heads.

        p = k 2.42 E/(1 - nu^2)^(3/4) (t/D)^(5/2) / (L/D - 0.45 sqrt(t/D))

    Give FORMED diameter (mid-wall) and wall; k = 1 gives the bare formula.

    Source: windenburg-trilling-1934, short-cylinder formula (from memory; k too).
    Checked: tests/published/from_memory/test_water_collapse.py (reference tank, formed sizes).
    Raises InputError for a cylinder too short for the formula.
    """
    slender = np.divide(wall, diameter)
    spacing = np.divide(length, diameter) - 0.45 * np.sqrt(slender)
    if not np.all(np.greater(spacing, 0.0)):
        raise InputError(
            "length of the shell",
            "it is too short for the buckling formula, or a size is not positive",
            'length = "900 mm"',
        )
    plate = 2.42 * np.asarray(youngs_modulus) / (1.0 - np.square(poisson_ratio)) ** 0.75
    return knock_down * plate * slender**2.5 / spacing


def stands_vacuum(collapse: Pascal) -> Ratio:
    """Share of the atmosphere that the shut tank bears; below 1 a shut vent crushes it.

        s = p_collapse/p0

    Source: own-derivation, division.
    Checked: tests/published/from_memory/test_water_collapse.py.
    Raises nothing.
    """
    return np.divide(collapse, STANDARD_ATMOSPHERE)

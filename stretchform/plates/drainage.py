"""Notches that let air out and water off a plate, in the attitude the tank is filled in.

A film of air stays under every level plate, about five millimetres thick, and a gap of a few
millimetres does not let it out. Filled lying or tilted, the air runs to the high side and
leaves through a notch there; water runs to the low side and leaves through one there.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from stretchform.si import (
    STANDARD_GRAVITY,
    CubicMetre,
    KilogramPerCubicMetre,
    Metre,
    Radian,
    SquareMetre,
)

SOURCES = ("own-derivation", "common-practice")

LEAST_NOTCH = 10e-3  # radius, judged: twice the film
WEEP_HOLE = 6e-3  # diameter, common practice
_TENSION = 0.0728  # N/m, water against air at 20 °C, common handbook figure

Attitude: TypeAlias = Literal["standing", "hanging", "lying"]


@dataclass(frozen=True, slots=True)
class Notches:
    """Notches of one plate; angles from the top of a lying tank, from the seam otherwise."""

    radius: Metre
    vent_angle: float  # rad
    drain_angle: float  # rad
    film: CubicMetre  # of air that stays, at most
    level: bool  # the plate lies level while filled: a film stays whatever the notches


def film(density: KilogramPerCubicMetre = 998.0, contact: Radian = np.pi) -> Metre:
    """Greatest thickness of a layer of air under a level plate in water.

        h = 2 sqrt(surface tension / (density g)) sin(contact / 2)

    `contact` is the angle through the air; pi for a plate that water wets.

    Source: own-derivation, balance of a wide flat bubble.
    Checked: tests/unit/plates/test_plates_drainage.py (about 5 mm).
    Raises nothing.
    """
    length = np.sqrt(_TENSION / (np.asarray(density) * STANDARD_GRAVITY))
    return 2.0 * length * np.sin(np.divide(contact, 2.0))


def air_kept(area: SquareMetre, count: int = 1) -> CubicMetre:
    """Greatest volume of air that stays under level plates.

        count * area * film

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_drainage.py (sum over plates).
    Raises nothing.
    """
    return count * np.multiply(area, film())


def air_in_segment(radius: Metre, plate_inside: Metre, spacing: Metre) -> CubicMetre:
    """Air caught between two rings of a lying tank that has no notch at the top.

        spacing * area of the segment of the wall above the ring's inner edge

    Source: own-derivation, geometry of a circular segment.
    Checked: tests/unit/plates/test_plates_drainage.py (half a circle).
    Raises nothing.
    """
    share = np.clip(np.divide(plate_inside, radius), -1.0, 1.0)
    half = np.arccos(share)
    segment = np.square(radius) * (half - share * np.sqrt(1.0 - share**2))
    return np.asarray(spacing * segment, dtype=np.float64)


def notches(attitude: Attitude, area: SquareMetre, tilt: Radian = 0.0) -> Notches:
    """Vent and drain notches of one plate in the attitude the tank is filled in.

        lying: vent at the top, drain at the bottom
        standing or hanging: vent at the high side of the tilt, drain opposite

    Level plates (standing without tilt) keep a film of air.

    Source: own-derivation, air rises and water falls; common-practice, least notch.
    Checked: tests/unit/plates/test_plates_drainage.py (each attitude).
    Raises nothing.
    """
    level = attitude != "lying" and float(np.abs(tilt)) < 0.02
    kept = float(air_kept(area)) if level else 0.0
    return Notches(LEAST_NOTCH, 0.0, float(np.pi), kept, level)

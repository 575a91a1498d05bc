"""The weld of a tab: what the arm puts into it, and how it must grow with the wall.

Two fillet welds along the foot of the tab. The foot is stretched with the wall while it grows;
a long or high tab resists that with a force far above that of the arm, so the foot is kept
short and low. Crevices, craters and ends are left to the welder's eye.
"""

import numpy as np

from stretchform.si import Metre, Newton, NewtonMetre, Pascal
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation", "en-1993-1-8", "considere-1885")

SHORT_WELD = 20e-3  # judged
SHORT_WELD_WALLS = 10.0  # judged: or as many walls
LOW_TAB_PLATES = 5.0  # judged: height of the foot in plate thicknesses
NECK = 0.7  # width of the tab above its foot over its length
THROAT = 0.7  # throat of a fillet over the thinner of plate and wall
_PARTIAL_FACTOR = 1.25


def tensile_strength(curve: Curve) -> Pascal:
    """Greatest engineering stress that a curve reaches within its range.

        max of S(x) exp(-x)

    Source: considere-1885, even stretching ends at this maximum.
    Checked: tests/unit/plates/test_plates_weld.py (power law: K (n/e)^n).
    Raises nothing.
    """
    strain = np.linspace(max(curve.strain_start, 1e-4), curve.strain_limit, 2001)
    return float(np.max(np.multiply(curve.stress(strain), np.exp(-strain))))


def strength(tensile: Pascal) -> Pascal:
    """Shear stress that a fillet weld may carry.

        tensile / (sqrt(3) * 1.0 * 1.25)

    Source: en-1993-1-8, directional method with 1.0 and 1.25 for stainless (from memory).
    Checked: tests/unit/plates/test_plates_weld.py (240 MPa of 520 MPa).
    Raises nothing.
    """
    return np.asarray(np.divide(tensile, np.sqrt(3.0) * _PARTIAL_FACTOR), dtype=np.float64)


def peak_stress(force: Newton, moment: NewtonMetre, length: Metre, throat: Metre) -> Pascal:
    """Greatest stress of the two fillets by the force and the moment of an arm.

        (F / l + 6 M / l^2) / (2 a)

    Source: own-derivation, linear line force on both fillets, all of it taken as shear.
    Checked: tests/unit/plates/test_plates_weld.py (by hand).
    Raises nothing.
    """
    line = np.abs(force) / length + 6.0 * np.abs(moment) / np.square(length)
    return np.asarray(line / np.multiply(2.0, throat), dtype=np.float64)


def end_force(force: Newton, moment: NewtonMetre, length: Metre) -> Newton:
    """Force on one end of the tab that stands for force and moment of its arm.

        F/2 + 1.5 M / l

    Source: own-derivation, half of the linear line force.
    Checked: tests/unit/plates/test_plates_weld.py (moment balance).
    Raises nothing.
    """
    return np.asarray(np.abs(force) / 2.0 + 1.5 * np.abs(moment) / length, dtype=np.float64)


def growth_force(flow_stress: Pascal, thickness: Metre, height: Metre, length: Metre) -> Newton:
    """Force by which the foot of a tab resists growing with the wall.

        S * thickness * min(height, length / 2)

    Each half of the weld must bring it in.

    Source: own-derivation, foot that yields along the rim.
    Checked: tests/unit/plates/test_plates_weld.py (11 kN of the invented example).
    Raises nothing.
    """
    resisting = np.minimum(height, np.divide(length, 2.0))
    return np.multiply(flow_stress, thickness) * resisting


def half_strength(length: Metre, throat: Metre, tensile: Pascal) -> Newton:
    """Force that one half of the two fillets carries along the rim.

        2 a (l / 2) * strength

    Source: en-1993-1-8, strength of a fillet (from memory).
    Checked: tests/unit/plates/test_plates_weld.py (by hand).
    Raises nothing.
    """
    return np.multiply(throat, length) * strength(tensile)

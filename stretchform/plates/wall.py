"""What the tab of an arm does to the wall it is welded to.

The wall is thin and yields: it cannot take much force on a spot. The forces below are those
of one tab. The dent is an estimate good to some 40 per cent; nothing here replaces a trial.
"""

import numpy as np

from stretchform.si import Growth, Metre, Newton, Pascal, Ratio, SquareMetre
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation", "roark")

RESTRAINT_PASS = 0.03  # judged
RESTRAINT_CARE = 0.10  # judged
DENT_PASS = 0.001  # of the radius, judged: what a tape begins to notice
DENT_CARE = 0.003  # judged
DENT_CREDIBLE = 1.4  # the estimate is good to 40 %: the check uses its upper side
_MEMBRANE = 0.4  # of force / wall²
_BENDING_POINT = 2.35  # computed 2.3 to 2.4
_BENDING_LINE = 1.15  # computed 1.1 to 1.2, line as long as 0.93 sqrt(radius wall)
_LINE = 0.93


def patch_area(tab_length: Metre, tab_height: Metre, radius: Metre, wall: Metre) -> SquareMetre:
    """Area of wall on which the pressure works against the force of one tab.

        A = (tab length + 2 sqrt(radius wall)) (tab height + 2 sqrt(radius wall))

    `tab_height` is along the axis: the thickness of the plate.

    Source: own-derivation, decay length of bending in a cylinder round the tab.
    Checked: tests/verification/test_plates_check_values.py (row 18).
    Raises nothing.
    """
    decay = 2.0 * np.sqrt(np.multiply(radius, wall))
    return (tab_length + decay) * (tab_height + decay)


def restraint(force: Newton, pressure: Pascal, area: SquareMetre) -> Ratio:
    """Force of a tab over the force of the pressure on the patch round it.

        index = F / (p A)

    Source: own-derivation, radial balance of the patch.
    Checked: tests/verification/test_plates_check_values.py (row 18).
    Raises nothing.
    """
    return force / np.multiply(pressure, area)


def dent_modulus(curve: Curve, growth: Growth, hoop_stress: Pascal) -> Pascal:
    """Resistance of a yielding wall to a further local growth.

        E = 4/3 S'(x) - 2 hoop stress,   x = 2/sqrt(3) ln(1 + growth)

    For no axial strain. It vanishes where the pressure stops rising: dents then run away.

    Source: own-derivation, hoop balance of a strip that grows more than its neighbours.
    Checked: tests/unit/plates/test_plates_wall.py (vanishes at the maximum pressure).
    Raises nothing.
    """
    strain = 2.0 / np.sqrt(3.0) * np.log1p(growth)
    return 4.0 / 3.0 * curve.slope(strain) - np.multiply(2.0, hoop_stress)


def dent(
    force: Newton,
    pressure: Pascal,
    radius: Metre,
    wall: Metre,
    modulus: Pascal,
    tab_radius: Metre,
) -> Metre:
    """How far a tab holds a yielding wall back; an estimate, good to some 40 %.

        w = F/(2 pi N) K0(tab radius / l),  N = p R/sqrt(2),  l = sqrt(N R^2/(E t))

    A membrane on a foundation; infinite where the foundation is gone. `tab_radius` is a
    quarter of the tab's length.

    Source: own-derivation, point load on a membrane with a foundation.
    Checked: tests/verification/test_plates_check_values.py (row 17).
    Raises nothing.
    """
    from scipy.special import k0

    tension = np.multiply(pressure, radius) / np.sqrt(2.0)
    spread = decay_length(pressure, radius, wall, modulus)
    held = np.abs(force) / (2.0 * np.pi * tension) * k0(np.divide(tab_radius, spread))
    return np.where(np.greater(modulus, 0.0), held, np.where(np.equal(force, 0.0), 0.0, np.inf))


def decay_length(pressure: Pascal, radius: Metre, wall: Metre, modulus: Pascal) -> Metre:
    """How far a dent reaches.

        l = sqrt(p R/sqrt(2) R^2/(E t))

    Source: own-derivation, membrane with a foundation.
    Checked: tests/verification/test_plates_check_values.py (row 17).
    Raises nothing.
    """
    tension = np.multiply(pressure, radius) / np.sqrt(2.0)
    stiff = np.maximum(modulus, 1.0) * wall / np.square(radius)
    return np.asarray(np.sqrt(tension / stiff), dtype=np.float64)


def local_stress(force: Newton, wall: Metre, radius: Metre, line: Metre) -> Pascal:
    """Elastic stress under a radial force on the wall without pressure.

        (0.4 + b) F / t^2;  b falls from 2.35 for a point to 1.15 for a line along the rim
        of 0.93 sqrt(R t), and stays there

    The same for a roller under the tank, whose tread is the line.

    Source: roark, membrane part of a load on a cylinder (from memory); own-derivation,
        bending part computed.
    Checked: tests/unit/plates/test_plates_wall.py (both ends).
    Raises nothing.
    """
    share = np.minimum(np.divide(line, _LINE * np.sqrt(np.multiply(radius, wall))), 1.0)
    bending = _BENDING_POINT + (_BENDING_LINE - _BENDING_POINT) * share
    return np.asarray((_MEMBRANE + bending) * np.abs(force) / np.square(wall), dtype=np.float64)

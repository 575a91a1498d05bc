"""What the tab of an arm does to the wall it is welded to.

The wall is thin and yields: it cannot take much force on a spot. The forces below are those
of one tab. The dent is an estimate good to some 40 per cent; nothing here replaces a trial.
"""

import numpy as np

from stretchform.si import Metre, Newton, Pascal, Ratio, SquareMetre

SOURCES = ("own-derivation",)

RESTRAINT_PASS = 0.03  # judged
RESTRAINT_CARE = 0.10  # judged


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

"""How far the wall leaves a plate, and the gap that is left at its tabs.

A plate is loaded through its tabs only, so it does not grow; the wall moves out and leaves it.
The arms see the travel at the highest pressure; the gap that stays is that after release.
When the tank is chilled the wall may be cold while the plate is still warm: the gap closes.
"""

import numpy as np

from stretchform.si import Growth, Metre, Radian, Ratio

SOURCES = ("own-derivation",)

TRAVEL_TOLERANCE = 1.10  # judged: the wall may grow a tenth more than forecast at a plate
TWO_TAB_FACTOR = 1.2  # judged: two arms share 2 x travel unequally, see `two_tab_share`


def travel(radius: Metre, growth: Growth) -> Metre:
    """Radial travel of a surface that grows.

        travel = radius * growth

    `radius` is that of the surface before forming.

    Source: own-derivation, definition of growth.
    Checked: tests/verification/test_plates_check_values.py (row 39).
    Raises nothing.
    """
    return np.multiply(radius, growth)


def inside_travel(radius: Metre, wall: Metre, growth: Growth) -> Metre:
    """Radial travel of the inside of the wall, where the tabs sit, from the growth outside.

        travel = sqrt((a g')^2 - a^2 + b^2) - b,   a = r + t/2, b = r - t/2, g' = 1 + growth

    The section of the wall keeps its area because the axial strain of a closed cylinder that
    yields is zero; so the inside travels a little more than the outside.
    `radius` is mid-wall, `wall` the thickness, both before forming.

    Source: own-derivation, constant area of the wall's section.
    Checked: tests/unit/plates/test_plates_geometry.py (area kept, limit of a thin wall).
    Raises nothing.
    """
    outside, inside = (
        np.add(radius, np.divide(wall, 2)),
        np.subtract(radius, np.divide(wall, 2)),
    )
    grown = np.multiply(outside, np.add(1.0, growth))
    area = np.square(grown) - np.square(outside) + np.square(inside)
    return np.asarray(np.sqrt(area) - inside, dtype=np.float64)


def arm_travel(inside: Metre, tabs: int, relieved: int | None = None) -> Metre:
    """Travel that each arm is sized for, from the travel of the inside under pressure.

        three tabs or more, all relieved: 1.10 * inside
        two tabs, both relieved:          1.10 * 1.2 * inside
        two opposite tabs, one relieved:  1.10 * 2 * inside
        one tab:                          0 (the plate follows its only tab)

    Source: own-derivation, a rigid plate held by arms stiff along the rim.
    Checked: tests/unit/plates/test_plates_geometry.py (each case).
    Raises nothing.
    """
    if tabs < 2:
        return np.multiply(inside, 0.0)
    if tabs == 2:
        factor = 2.0 if relieved == 1 else TWO_TAB_FACTOR
        return np.multiply(inside, TRAVEL_TOLERANCE * factor)
    return np.multiply(inside, TRAVEL_TOLERANCE)


def two_tab_share(force_mismatch: Ratio, stiffness_ratio: Ratio) -> Ratio:
    """Travel of the softer of two opposite arms over their mean travel.

        share = 1 + mismatch / (2 * stiffness ratio)

    Two tabs leave the plate one free motion, so the arm that is weaker by `force_mismatch`
    (fraction of the force) takes more. `stiffness_ratio` is dF/d(travel) * travel / F of an
    arm that yields; about 0.28 for annealed sheet, which turns 5 % into 9 %.

    Source: own-derivation, equal force in two arms in series.
    Checked: tests/unit/plates/test_plates_geometry.py (5 % and 10 %).
    Raises nothing.
    """
    return 1.0 + np.divide(force_mismatch, np.multiply(2.0, stiffness_ratio))


def chord_growth(inside: Metre, spacing: Radian) -> Metre:
    """Growth of the straight distance between two tabs on the wall.

        growth of the chord = 2 * travel * sin(spacing / 2)

    Source: own-derivation, chord of a circle.
    Checked: tests/verification/test_plates_check_values.py (row 16).
    Raises nothing.
    """
    return 2.0 * np.multiply(inside, np.sin(np.divide(spacing, 2.0)))


def clearance_after(clearance: Metre, released_travel: Metre) -> Metre:
    """Gap between plate edge and wall at a tab after release.

        after = before + travel of the inside of the wall, released

    Source: own-derivation, the plate does not grow.
    Checked: tests/verification/test_plates_check_values.py (row 39).
    Raises nothing.
    """
    return np.add(clearance, released_travel)


def clearance_far_side(clearance: Metre, released_travel: Metre) -> Metre:
    """Gap after release opposite to the only tab of a plate.

        far side = before + 2 * travel

    Source: own-derivation, the plate follows its only tab.
    Checked: tests/unit/plates/test_plates_geometry.py (twice the growth).
    Raises nothing.
    """
    return np.add(clearance, np.multiply(2.0, released_travel))


def clearance_chilled(clearance: Metre, radius: Metre, contraction: Ratio) -> Metre:
    """Gap that is left when the wall is cold and the plate still warm.

        chilled = clearance - contraction * radius of the formed wall

    Source: own-derivation, free contraction of the wall alone.
    Checked: tests/unit/plates/test_plates_geometry.py (about 1 mm at 0.37 m and 77 K).
    Raises nothing.
    """
    return np.subtract(clearance, np.multiply(contraction, radius))

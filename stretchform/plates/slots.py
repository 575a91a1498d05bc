"""The slot behind an arm: length, width, round end, what must stay around it.

The slot opens while the wall grows, so its width is set by the weld's shrinkage, by the
thermal return and by fit-up, never by the growth. Its end is a round hole tangent to the
inner edge of the arm: a sharp end multiplies the strain at the root.
"""

import numpy as np

from stretchform.si import Metre, Newton, NewtonMetre, Pascal, Strain

SOURCES = ("own-derivation",)

SHRINKAGE = 0.5e-3  # judged: a short fillet weld pulls its tab in by half a millimetre
SHARP_FACTOR = 1.5  # computed 1.2 to 1.5 for an end radius of a fifth of the depth
WELD_DISTANCE = 10e-3  # judged: tab weld to root of the arm
SLIDING_PLAY = 1e-3  # judged


def width(thickness: Metre, radius: Metre, shrinkage: Metre = SHRINKAGE) -> Metre:
    """Least width of a slot before forming.

        width = max(thickness, 2 mm, 1 mm + 0.003 radius + shrinkage of the tab weld)

    Source: own-derivation, thermal return (0.3 % of the radius), fit-up and cutting.
    Checked: tests/unit/plates/test_plates_slots.py (each of the three governs once).
    Raises nothing.
    """
    return np.maximum(
        np.maximum(thickness, 2e-3), 1e-3 + np.multiply(0.003, radius) + shrinkage
    )


def end_radius(depth: Metre) -> Metre:
    """Least radius of the slot's end and of the fillet at the tab.

        radius = max(depth / 2, 3 mm)

    Source: own-derivation, plane-stress solves: from half the depth on the strain is kept.
    Checked: tests/unit/plates/test_plates_slots.py (both branches).
    Raises nothing.
    """
    return np.maximum(np.divide(depth, 2.0), 3e-3)


def sharpened(strain: Strain, depth: Metre, radius: Metre) -> Strain:
    """Root strain with its slot end: half as much again below the least end radius.

        strain * 1.5 where the end radius is smaller than depth / 2

    Source: own-derivation, plane-stress solves with end radii of 0.2, 0.5 and 1 depth.
    Checked: tests/unit/plates/test_plates_slots.py (on both sides).
    Raises nothing.
    """
    sharp = np.less(np.asarray(radius) * (1.0 + 1e-9), np.divide(depth, 2.0))
    return strain * np.where(sharp, SHARP_FACTOR, 1.0)


def length_single(length: Metre, tab_length: Metre) -> Metre:
    """Length of the slot of a single arm, from its open end to its round end.

        slot = clear length + length of the tab

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_slots.py (by hand).
    Raises nothing.
    """
    return np.add(length, tab_length)


def length_bridge(length: Metre, tab_length: Metre) -> Metre:
    """Length of the closed slot of a bridge of half span `length`.

        slot = 2 * half span + length of the tab

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_slots.py (by hand).
    Raises nothing.
    """
    return np.add(np.multiply(2.0, length), tab_length)


def length_sliding(pin: Metre, travel: Metre, shrinkage: Metre = SHRINKAGE) -> Metre:
    """Length of the radial slot in which a pin or tongue slides.

        slot = pin + travel + 2 (1 mm + shrinkage)

    Source: own-derivation, geometry with play at both ends.
    Checked: tests/unit/plates/test_plates_slots.py (by hand).
    Raises nothing.
    """
    return np.add(pin, travel) + 2.0 * np.add(SLIDING_PLAY, shrinkage)


def overlap(thickness: Metre) -> Metre:
    """Least overlap of a sliding tab that must be left after growth.

        overlap = max(2 thickness, 5 mm)

    Source: own-derivation, judged: keeps the tongue from leaving the plate.
    Checked: tests/unit/plates/test_plates_slots.py (both branches).
    Raises nothing.
    """
    return np.maximum(np.multiply(2.0, thickness), 5e-3)


def margin(depth: Metre, radius: Metre) -> Metre:
    """Least distance from the slot's end to the next hole, edge or weld.

        margin = max(2 depth, 3 end radius)

    Source: own-derivation, the plastic zone reaches half a depth beyond the root.
    Checked: tests/unit/plates/test_plates_slots.py (both branches).
    Raises nothing.
    """
    return np.maximum(np.multiply(2.0, depth), np.multiply(3.0, radius))


def ligament_single(
    moment: NewtonMetre, depth: Metre, thickness: Metre, proof: Pascal
) -> Metre:
    """Plate that must be left behind the slot of a single arm, radially.

        ligament = max(sqrt(6 M / (thickness * proof)), 2 depth)

    Source: own-derivation, elastic bending by the arm's root moment.
    Checked: tests/unit/plates/test_plates_slots.py (18 mm of the invented example).
    Raises nothing.
    """
    bending = np.sqrt(6.0 * np.asarray(moment) / np.multiply(thickness, proof))
    return np.maximum(bending, np.multiply(2.0, depth))


def ligament_bridge(
    tension: Newton, depth: Metre, slot_width: Metre, thickness: Metre, proof: Pascal
) -> Metre:
    """Plate that must be left behind the closed slot of a bridge, radially.

        6 N e / (thickness c^2) + N / (thickness c) = proof,   e = c/2 + slot + depth/2
        ligament = max(c, 6 depth)

    Source: own-derivation, eccentric tension of the arm carried by the strip behind it.
    Checked: tests/unit/plates/test_plates_slots.py (66 mm of the invented example; balance).
    Raises nothing.
    """
    load = np.asarray(tension) / np.multiply(thickness, proof)
    arm = np.add(slot_width, np.divide(depth, 2.0))
    needed = 2.0 * load + np.sqrt(4.0 * load**2 + 6.0 * load * arm)
    return np.maximum(needed, np.multiply(6.0, depth))

"""Where along the rim a vent notch and the drain notch opposite to it find room.

Both must keep off every tab with its arm and slot, by the plastic zone at a slot's end. The plate
is welded in with the vent notch at the high side, so the notches choose how it is turned.
"""

from math import asin, atan2, pi

import numpy as np

from stretchform.plates import slots
from stretchform.plates.case import PlateCase, PlateResult
from stretchform.plates.outline import tab_angles, tab_shape
from stretchform.plates.tab_path import trace
from stretchform.si import Array, Metre, Radian

SOURCES = ("own-derivation",)

_STEPS = 1440  # of a quarter degree


def taken(case: PlateCase, result: PlateResult, hand: int = 1) -> list[tuple[Radian, Radian]]:
    """Stretches of the rim that tabs, arms and slots take: from and to, clockwise angles.

    Source: own-derivation, ends of the drawn path and the plastic zone beside it.
    Checked: tests/unit/plates/test_plates_notching.py (each kind of arm, both hands).
    Raises NoSolution where no arm was found, InputError where it cannot be drawn.
    """
    shape = tab_shape(case, result)
    rim = float(shape.rim)
    beside = float(slots.margin(case.depth, max(float(result.slot_end_radius), 1e-3))) / rim
    if case.kind == "sliding":
        half = atan2(float(result.slot_width) / 2.0, rim) + beside
        low, high = -half, half
    else:
        path = trace(shape)
        low, high = float(path.start) - beside, float(path.end) + beside
    if hand < 0:
        low, high = -high, -low
    return [(angle + low, angle + high) for angle in tab_angles(case.tabs, case.span)]


def place(
    case: PlateCase, result: PlateResult, radius: Metre, hand: int = 1
) -> tuple[Radian, Radian] | None:
    """Angles of vent and drain, half a turn apart, as far as possible from all tabs.

    None where there is no room for both, and for a segment, whose open side lets air past.

    Source: own-derivation, search over the rim.
    Checked: tests/unit/plates/test_plates_notching.py (room kept, no room).
    Raises as `taken` does.
    """
    if float(case.span) < 2.0 * pi - 1e-9:
        return None
    inside = float(case.radius) - float(case.wall) / 2.0 - float(case.clearance)
    half = 2.0 * asin(min(float(radius) / (2.0 * inside), 1.0))
    angles = 2.0 * pi * np.arange(_STEPS) / _STEPS
    stretches = taken(case, result, hand)
    room = np.minimum(_gap(angles, stretches), _gap(angles + pi, stretches)) - half
    best = int(np.argmax(np.round(room, 9)))
    if room[best] <= 0.0:
        return None
    vent = float(angles[best])
    return vent, (vent + pi) % (2.0 * pi)


def _gap(angles: Array, stretches: list[tuple[Radian, Radian]]) -> Array:
    """Least angle from each place to any stretch; below 0 inside one."""
    middles = np.array([(low + high) / 2.0 for low, high in stretches])
    halves = np.array([(high - low) / 2.0 for low, high in stretches])
    away = np.abs((angles[:, None] - middles + pi) % (2.0 * pi) - pi)
    return np.asarray(np.min(away - halves, axis=1))

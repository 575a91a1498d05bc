"""Size the arms of one plate and check them: the one entry point of this folder.

`size(PlateCase(...))` gives travel, gaps, arm, slot, forces and a list of checks. Where the
length is left out, the shortest arm is taken that keeps strain and slope.
"""

from math import isfinite

from stretchform.errors import InputError
from stretchform.plates import arms, geometry, review, slots
from stretchform.plates.arm_state import arm_state, treated_kind
from stretchform.plates.case import (
    COLD_WORKED_BRIDGE,
    CONCENTRIC_BRIDGE,
    MIXED_HAND,
    NECKS,
    NOT_RELIEVED,
    UNCHECKED,
    ArmState,
    PlateCase,
    PlateResult,
    Slot,
    Travel,
)
from stretchform.plates.checks import governing

SOURCES = ("own-derivation",)

KINDS = ("single", "bridge", "folded", "sliding", "none")


def size(case: PlateCase, exact: bool = False) -> PlateResult:
    """Size and check the arms of one plate.

    Travel from radius and growth; arm by the closed formulas of `arms`, or by the yielding
    `beam` where `exact`; slot by `slots`; every value with its limit in `checks`.

    Source: own-derivation, the order of the checks.
    Checked: tests/unit/plates/test_plates_design.py (a plate that passes, each refusal).
    Raises InputError for an unknown kind or a number that cannot be.
    """
    _refuse_senseless(case)
    travel = travels(case)
    end_radius = float(case.slot_end_radius or slots.end_radius(case.depth))
    state = arm_state(case, travel, end_radius, exact)
    slot = _slot(case, state, travel.arm, end_radius)
    refused = _refusals(case, state)
    checks = review.checks(case, travel, state, slot)
    return PlateResult(
        kind=state.kind,
        travel=travel.arm,
        travel_under_pressure=travel.inside,
        clearance_before=case.clearance,
        clearance_after=travel.after,
        clearance_chilled=travel.chilled,
        arm_length=state.length,
        arm_depth=case.depth,
        needed_length=state.needed_length,
        root_strain=state.root_strain,
        force=state.force,
        released_force=state.released_force,
        tension=state.tension,
        moment=state.moment,
        slot_length=slot.length,
        slot_width=slot.width,
        slot_end_radius=slot.end_radius,
        stalk=review.stalk(case, state),
        rotation=float(state.shift) / float(case.radius),
        checks=checks,
        governs=refused[0] if refused else governing(checks),
        refused=refused,
        unchecked=UNCHECKED,
        method=state.method,
    )


def travels(case: PlateCase) -> Travel:
    """Travels under pressure and released, and the gaps they leave.

    Source: own-derivation, the functions of `geometry`.
    Checked: tests/unit/plates/test_plates_design.py (gaps before, after and chilled).
    Raises nothing.
    """
    grown = float(case.growth_under_pressure)
    inside = float(geometry.inside_travel(case.radius, case.wall, grown))
    left = float(geometry.inside_travel(case.radius, case.wall, grown - float(case.springback)))
    relieved = case.tabs if case.relieved is None else case.relieved
    sized = float(geometry.arm_travel(inside, case.tabs, relieved))
    after = float(geometry.clearance_after(case.clearance, left))
    cold_radius = float(case.radius) - float(case.wall) / 2.0 + left
    chilled = float(geometry.clearance_chilled(after, cold_radius, case.contraction))
    return Travel(inside, left, sized, after, chilled)


def _refuse_senseless(case: PlateCase) -> None:
    """Raise on input that no plate can have."""
    where = f"plate with {case.kind} arms"
    if case.kind not in KINDS:
        raise InputError(where, f'no arm kind "{case.kind}"', f"one of {', '.join(KINDS)}")
    for name in ("radius", "wall", "thickness", "depth", "tab_length", "pressure"):
        number = float(getattr(case, name))
        if not (isfinite(number) and number > 0.0):
            raise InputError(where, f"{name} {number:g} is not above zero", f"{name} > 0")
    if case.tabs < 1 or case.limbs < 1:
        raise InputError(where, "less than one tab or limb", "tabs = 3, limbs = 1")
    if not 0.0 <= float(case.springback) <= float(case.growth_under_pressure):
        raise InputError(where, "springback outside 0 to growth", "springback = 0.002")
    if case.length is not None and not float(case.length) > 0.0:
        raise InputError(where, "arm length is not above zero", "leave the length out")


def _slot(case: PlateCase, state: ArmState, travel: float, end_radius: float) -> Slot:
    """Slot that frees the arm."""
    width = float(case.slot_width or slots.width(case.thickness, case.radius))
    if state.kind == "none" or state.length == 0.0:
        return Slot(0.0, 0.0, 0.0)
    if state.kind == "sliding":
        pin = float(case.depth)
        play = 2.0 * slots.SLIDING_PLAY
        return Slot(float(slots.length_sliding(pin, travel)), pin + play, (pin + play) / 2.0)
    rule = slots.length_bridge if case.kind == "bridge" else slots.length_single
    return Slot(float(rule(state.length, case.tab_length)), width, end_radius)


def _refusals(case: PlateCase, state: ArmState) -> tuple[str, ...]:
    """Codes of what must not be built, whatever the numbers."""
    kind = treated_kind(case)
    relieved = case.tabs if case.relieved is None else case.relieved
    pair = case.tabs == 2 and relieved == 1
    codes = []
    if case.tabs > 1 and (case.kind == "none" or (relieved < case.tabs and not pair)):
        codes.append(NOT_RELIEVED)
    if kind == "bridge" and case.kind != "bridge":
        codes.append(MIXED_HAND)
    growth = float(case.growth_under_pressure)
    if kind == "bridge" and not case.straight and growth > arms.CONCENTRIC_BRIDGE_GROWTH:
        codes.append(CONCENTRIC_BRIDGE)
    if kind == "bridge" and not case.annealed:
        codes.append(COLD_WORKED_BRIDGE)
    if state.necks:
        codes.append(NECKS)
    return tuple(codes)

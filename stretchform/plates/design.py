"""Size the arms of one plate and check them: the one entry point of this folder.

`size(PlateCase(...))` gives travel, gaps, arm, slot, forces and a list of checks. Where the
length is left out, the shortest arm is taken that passes, on full millimetres.
"""

from dataclasses import dataclass
from math import ceil, inf, isfinite, pi

import numpy as np

from stretchform.errors import InputError
from stretchform.plates import arms, geometry, slots, wall
from stretchform.plates.case import (
    COLD_WORKED_BRIDGE,
    CONCENTRIC_BRIDGE,
    MIXED_HAND,
    NOT_RELIEVED,
    UNCHECKED,
    ArmState,
    PlateCase,
    PlateResult,
)
from stretchform.plates.checks import Check, at_least, at_most, governing

SOURCES = ("own-derivation",)

KINDS = ("single", "bridge", "folded", "sliding", "none")
MILLIMETRE = 1e-3


@dataclass(frozen=True, slots=True)
class _Travel:
    """Travels and gaps of one plate."""

    inside: float
    released: float
    arm: float
    after: float
    chilled: float


@dataclass(frozen=True, slots=True)
class _Slot:
    length: float
    width: float
    end_radius: float


def size(case: PlateCase) -> PlateResult:
    """Size and check the arms of one plate.

    Travel from radius and growth, arm by the closed formulas of `arms`, slot by `slots`,
    force on the wall by `wall`; each value with its limit in `checks`.

    Source: own-derivation, the order of the checks.
    Checked: tests/unit/plates/test_plates_design.py (a plate that passes, each refusal).
    Raises InputError for an unknown kind or a number that cannot be.
    """
    _refuse_senseless(case)
    travel = _travel(case)
    end_radius = float(case.slot_end_radius or slots.end_radius(case.depth))
    state = _arm(case, travel.arm, end_radius)
    slot = _slot(case, state, travel.arm, end_radius)
    refused = _refusals(case, state.kind)
    checks = _checks(case, travel, state, slot)
    return _result(case, travel, state, slot, refused, checks)


def _result(
    case: PlateCase,
    travel: _Travel,
    state: ArmState,
    slot: _Slot,
    refused: tuple[str, ...],
    checks: tuple[Check, ...],
) -> PlateResult:
    """The answer as data."""
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
        tension=state.tension,
        moment=state.moment,
        slot_length=slot.length,
        slot_width=slot.width,
        slot_end_radius=slot.end_radius,
        stalk=_stalk(case, state),
        rotation=_rotation(case, state, travel.arm),
        checks=checks,
        governs=refused[0] if refused else governing(checks),
        refused=refused,
        unchecked=UNCHECKED,
    )


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


def _travel(case: PlateCase) -> _Travel:
    """Travels under pressure and released, and the gaps they leave."""
    grown = float(case.growth_under_pressure)
    inside = float(geometry.inside_travel(case.radius, case.wall, grown))
    left = float(geometry.inside_travel(case.radius, case.wall, grown - float(case.springback)))
    relieved = case.tabs if case.relieved is None else case.relieved
    sized = float(geometry.arm_travel(inside, case.tabs, relieved))
    after = float(geometry.clearance_after(case.clearance, left))
    cold_radius = float(case.radius) - float(case.wall) / 2.0 + left
    chilled = float(geometry.clearance_chilled(after, cold_radius, case.contraction))
    return _Travel(inside, left, sized, after, chilled)


def _treated_kind(case: PlateCase) -> str:
    """Arms of mixed hand hold each other and count as a bridge; one tab needs no arm."""
    if case.kind in ("single", "folded") and not case.same_hand and case.tabs > 1:
        return "bridge"
    return case.kind


def _arm(case: PlateCase, travel: float, end_radius: float) -> ArmState:
    """The arm at its travel, of the length given or of the length needed."""
    kind = _treated_kind(case)
    if kind == "none" or travel <= 0.0:
        return _unrelieved(case, kind)
    if kind == "sliding":
        needed = travel + float(slots.overlap(case.thickness))
        return ArmState(kind, float(case.length or _up(needed)), needed, 0, 0, 0, 0, 0)
    needed = _needed_length(case, kind, travel, end_radius)
    length = float(case.length) if case.length is not None else _up(needed)
    if not isfinite(length):
        return ArmState(kind, inf, inf, inf, inf, 0.0, 0.0, inf)
    if kind == "bridge":
        return _bridge(case, travel, length, needed, end_radius)
    return _single(case, travel, length, needed, end_radius)


def _unrelieved(case: PlateCase, kind: str) -> ArmState:
    """A tab without an arm: no force with one tab, else the strip between tabs yields."""
    if case.tabs < 2:
        return ArmState(kind, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    width = float(case.tab_length if case.ring_width is None else case.ring_width)
    growth = float(case.growth_under_pressure)
    force = float(case.curve.stress(float(np.log1p(growth)))) * width * float(case.thickness)
    return ArmState(kind, 0.0, 0.0, 0.0, growth, 0.0, force, force)


def _needed_length(case: PlateCase, kind: str, travel: float, end_radius: float) -> float:
    """Shortest length that stays within strain and slope."""
    sharpening = float(slots.sharpened(1.0, case.depth, end_radius))
    limit = arms.STRAIN_PASS / sharpening
    if kind == "bridge":
        bow = None if case.straight else case.radius
        factors = arms.bridge_factors(case.curve)
        return float(arms.bridge_length(case.depth, travel, limit, bow, factors))
    limbs = case.limbs if kind == "folded" else 1
    factor = arms.strain_factor(case.curve)
    return float(arms.single_length(case.depth, travel, limit, factor, limbs))


def _single(
    case: PlateCase, travel: float, length: float, needed: float, end_radius: float
) -> ArmState:
    """Single arm, or the limbs of a folded arm that share the travel."""
    each = travel / (case.limbs if case.kind == "folded" else 1)
    strain = arms.single_strain(case.depth, length, each, arms.strain_factor(case.curve))
    factor = arms.YIELD_POINT * arms.bending_factor(case.curve)
    moment = arms.root_moment(case.depth, length, each, case.thickness, case.curve, factor)
    force = arms.single_force(moment, length, each)
    strain = slots.sharpened(strain, case.depth, end_radius)
    return ArmState(
        case.kind,
        length,
        needed,
        each / length,
        float(strain),
        float(moment),
        0.0,
        float(force),
    )


def _bridge(
    case: PlateCase, travel: float, length: float, needed: float, end_radius: float
) -> ArmState:
    """Bridge, or one arm of mixed hand, which is half of one."""
    bow = None if case.straight else case.radius
    factors = arms.bridge_factors(case.curve)
    strain = arms.bridge_strain(case.depth, length, travel, bow, factors)
    factor = arms.bending_factor(case.curve)
    moment = arms.root_moment(case.depth, length, travel, case.thickness, case.curve, factor)
    stretch = arms.tie_strain(length, travel, bow)
    tension = arms.tie_tension(
        case.depth, case.thickness, stretch, case.curve, case.youngs_modulus
    )
    share = 1.0 if case.kind == "bridge" else 0.5
    slope = arms.effective_slope(length, travel, bow)
    force = share * arms.bridge_force(moment, tension, length, slope)
    strain = slots.sharpened(strain, case.depth, end_radius)
    return ArmState(
        "bridge",
        length,
        needed,
        float(slope),
        float(strain),
        float(moment),
        float(tension),
        float(force),
    )


def _up(length: float) -> float:
    """The next full millimetre."""
    return ceil(length / MILLIMETRE - 1e-9) * MILLIMETRE if isfinite(length) else inf


def _slot(case: PlateCase, state: ArmState, travel: float, end_radius: float) -> _Slot:
    """Slot that frees the arm."""
    least = float(slots.width(case.thickness, case.radius))
    width = float(case.slot_width or least)
    if state.kind == "none" or state.length == 0.0:
        return _Slot(0.0, 0.0, 0.0)
    if state.kind == "sliding":
        pin = float(case.depth)
        play = 2.0 * slots.SLIDING_PLAY
        return _Slot(float(slots.length_sliding(pin, travel)), pin + play, (pin + play) / 2.0)
    bridge = case.kind == "bridge"
    rule = slots.length_bridge if bridge else slots.length_single
    return _Slot(float(rule(state.length, case.tab_length)), width, end_radius)


def _refusals(case: PlateCase, kind: str) -> tuple[str, ...]:
    """Codes of what must not be built, whatever the numbers."""
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
    return tuple(codes)


def _checks(
    case: PlateCase, travel: _Travel, state: ArmState, slot: _Slot
) -> tuple[Check, ...]:
    """Every check of one plate that the closed formulas answer."""
    found = [*_gap_checks(case, travel), _restraint_check(case, state)]
    if state.kind == "sliding" and state.length > 0.0:
        left = state.length - travel.arm
        needed = slots.overlap(case.thickness)
        found.append(at_least("overlap after growth", left, needed, "metre"))
    elif state.length > 0.0:
        found += _bow_check(case, state, travel.arm)
        found += [*_arm_checks(case, state), *_slot_checks(case, state, slot)]
    return tuple(found)


def _gap_checks(case: PlateCase, travel: _Travel) -> list[Check]:
    """Gaps at the tab before, after and after chill-down."""
    name = "tab clearance"
    return [
        at_least(f"{name} before", case.clearance, slots.SHRINKAGE, "metre"),
        at_least(f"{name} after", travel.after, 0.0, "metre"),
        at_least(f"{name} chilled", travel.chilled, 0.0, "metre"),
    ]


def _restraint_check(case: PlateCase, state: ArmState) -> Check:
    """Force of one tab against the pressure on the wall round it."""
    inside = float(case.radius) - float(case.wall) / 2.0
    area = wall.patch_area(case.tab_length, case.thickness, inside, case.wall)
    index = wall.restraint(state.force, case.pressure, area)
    return at_most(
        "restraint of the wall", index, wall.RESTRAINT_PASS, "ratio", wall.RESTRAINT_CARE
    )


def _bow_check(case: PlateCase, state: ArmState, travel: float) -> list[Check]:
    """Rise of a concentric bridge: a long one stretches at its tab whatever its length."""
    if state.kind != "bridge" or case.straight or not isfinite(state.length):
        return []
    rise = arms.stalk(state.length, case.radius, 0.0)
    return [at_most("rise of the bridge", rise, arms.BOW_RANGE * travel, "metre")]


def _arm_checks(case: PlateCase, state: ArmState) -> list[Check]:
    """Strain, slope, depth and room of the arm."""
    depth, thickness = float(case.depth), float(case.thickness)
    slope = arms.SLOPE_BRIDGE if state.kind == "bridge" else arms.SLOPE_SINGLE
    return [
        at_most("root strain", state.root_strain, arms.STRAIN_PASS, "strain", arms.STRAIN_FAIL),
        at_most("arm slope", state.slope, slope * (1.0 + 1e-9), "ratio"),
        at_most("arm depth", depth, 8.0 * thickness, "metre", 10.0 * thickness),
        at_least("arm depth, least", depth, 3.0 * thickness, "metre", 2.0 * thickness),
    ]


def _slot_checks(case: PlateCase, state: ArmState, slot: _Slot) -> list[Check]:
    """Width, end radius, ligament and room along the rim."""
    rim = 2.0 * pi * (float(case.radius) - float(case.wall) / 2.0 - float(case.clearance))
    used = slot.length + float(slots.margin(case.depth, slot.end_radius))
    found = [at_most("slot along the rim", used, rim / case.tabs, "metre")]
    if case.slot_width is not None:
        least = slots.width(case.thickness, case.radius)
        found.append(at_least("slot width", slot.width, least, "metre"))
    if case.slot_end_radius is not None:
        needed = slots.end_radius(case.depth)
        found.append(at_least("slot end radius", slot.end_radius, needed, "metre"))
    if case.ring_width is not None:
        left, carries = _ligament_left(case, state, slot), _ligament_needed(case, state, slot)
        found.append(at_least("ligament", left, carries, "metre"))
    return found


def _ligament_left(case: PlateCase, state: ArmState, slot: _Slot) -> float:
    """Width of the ring behind the innermost slot, at the tab."""
    limbs = case.limbs if case.kind == "folded" else 1
    sunk = float(arms.stalk(state.length, case.radius, 0.0)) if case.straight else 0.0
    taken = limbs * (float(case.depth) + slot.width)
    return float(case.ring_width or 0.0) - sunk - taken


def _ligament_needed(case: PlateCase, state: ArmState, slot: _Slot) -> float:
    """Width that carries what the arm puts into the plate."""
    proof = float(case.curve.stress(arms.PROOF_STRAIN))
    if state.kind == "bridge":
        return float(
            slots.ligament_bridge(state.tension, case.depth, slot.width, case.thickness, proof)
        )
    return float(slots.ligament_single(state.moment, case.depth, case.thickness, proof))


def _stalk(case: PlateCase, state: ArmState) -> float:
    """Wall to the outer edge of the arm at its tab."""
    if state.kind in ("none", "sliding") or not case.straight or not isfinite(state.length):
        return float(case.clearance)
    return float(arms.stalk(state.length, case.radius, case.clearance))


def _rotation(case: PlateCase, state: ArmState, travel: float) -> float:
    """Angle by which the plate turns; a bridge, a fold and a sliding tab hold it."""
    if state.kind != "single" or not isfinite(state.length) or state.length == 0.0:
        return 0.0
    turn = arms.plate_turn(state.length, travel, case.radius, not case.straight)
    return float(turn)

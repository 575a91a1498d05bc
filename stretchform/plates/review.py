"""All checks of one plate: gaps, arm, slot, weld, wall, and loads out of its plane.

Each check is a value with its limit; what none of them looks at is listed by `case.UNCHECKED`.
"""

from math import isfinite, pi, sqrt

import numpy as np

from stretchform.plates import arms, slots, strength, wall, weld
from stretchform.plates.case import ArmState, PlateCase, Slot, Travel
from stretchform.plates.checks import Check, at_least, at_most
from stretchform.si import Metre

SOURCES = ("own-derivation",)

NOTHING = "no check"
TELLS_PRESSURE = ("restraint of the wall", "dent of the wall")


def checks(case: PlateCase, travel: Travel, state: ArmState, slot: Slot) -> tuple[Check, ...]:
    """Every check of one plate.

    Source: own-derivation, the functions named in each check.
    Checked: tests/unit/plates/test_plates_design.py (what passes and what fails each).
    Raises nothing.
    """
    found = [*_gaps(case, travel), *_wall(case, state)]
    if state.kind == "sliding" and state.length > 0.0:
        left = state.length - travel.arm
        found.append(
            at_least("overlap after growth", left, slots.overlap(case.thickness), "metre")
        )
    elif state.length > 0.0:
        found += [*_arm(case, state, travel.arm), *_slot(case, state, slot)]
        found += [*_weld(case, state), *_out_of_plane(case, state)]
    return tuple(found)


def stalk(case: PlateCase, state: ArmState) -> Metre:
    """Distance from the wall to the outer edge of the arm at its tab.

        straight: inside - sqrt((inside - clearance)^2 - reach^2)
        reach = length + half the neck (+ the piece that joins two limbs)

    The exact rise of the rim; near `arms.stalk` of the reach. Concentric: the gap alone.

    Source: own-derivation, the outer edge of a straight arm meets the rim at its root.
    Checked: tests/unit/plates/test_plates_design.py (straight and concentric).
    Raises nothing.
    """
    if state.kind in ("none", "sliding") or not case.straight or not isfinite(state.length):
        return float(case.clearance)
    reach = float(state.length) + weld.NECK * float(case.tab_length) / 2.0
    if case.kind == "folded" and case.limbs > 1:
        reach += float(case.depth)
    inside = float(case.radius) - float(case.wall) / 2.0
    rim = inside - float(case.clearance)
    return inside - sqrt(max(rim**2 - reach**2, 0.0))


def foot_height(case: PlateCase, state: ArmState) -> Metre:
    """Height of the foot of a tab before it narrows to its neck.

    Source: own-derivation, a low foot resists the growth of its weld less.
    Checked: tests/unit/plates/test_plates_design.py (low foot, whole tab, given height).
    Raises nothing.
    """
    return foot_of(case, stalk(case, state))


def foot_of(case: PlateCase, whole: Metre) -> Metre:
    """Height of the foot of a tab that is `whole` high.

    Source: own-derivation, see `foot_height`.
    Checked: tests/unit/plates/test_plates_design.py (low foot, whole tab, given height).
    Raises nothing.
    """
    given = case.tab_height
    low = weld.LOW_TAB_PLATES * float(case.thickness) if given is None else float(given)
    return min(float(whole), low)


def _gaps(case: PlateCase, travel: Travel) -> list[Check]:
    """Gaps at the tab before, after and after chill-down."""
    name = "tab clearance"
    return [
        at_least(f"{name} before", case.clearance, slots.SHRINKAGE, "metre"),
        at_least(f"{name} after", travel.after, 0.0, "metre"),
        at_least(f"{name} chilled", travel.chilled, 0.0, "metre"),
    ]


def _wall(case: PlateCase, state: ArmState) -> list[Check]:
    """What the tab does to the wall under pressure and after release."""
    inside = float(case.radius) - float(case.wall) / 2.0
    area = wall.patch_area(case.tab_length, case.thickness, inside, case.wall)
    index = wall.restraint(state.force, case.pressure, area)
    found = [
        at_most(
            "restraint of the wall", index, wall.RESTRAINT_PASS, "ratio", wall.RESTRAINT_CARE
        )
    ]
    if state.force == 0.0 or not isfinite(state.force):
        return found
    curve = case.wall_curve or case.curve
    grown = 1.0 + float(case.growth_under_pressure)
    hoop = float(case.pressure) * float(case.radius) / float(case.wall) * grown**2
    modulus = wall.dent_modulus(curve, case.growth_under_pressure, hoop)
    length = float(case.tab_length)
    held = wall.dent(state.force, case.pressure, inside, case.wall, modulus, length / 4.0)
    depth, radius = wall.DENT_CREDIBLE * float(held), float(case.radius)
    limits = wall.DENT_PASS * radius, wall.DENT_CARE * radius
    found.append(at_most("dent of the wall", depth, limits[0], "metre", limits[1]))
    local = wall.local_stress(state.released_force, case.wall, inside, length)
    proof = float(curve.stress(arms.PROOF_STRAIN))
    found.append(at_most("local stress of the wall", local, proof, "pascal", 2.0 * proof))
    return found


def _arm(case: PlateCase, state: ArmState, travel: float) -> list[Check]:
    """Strain, slope, depth, tipping and hardening of the arm."""
    depth, thickness = float(case.depth), float(case.thickness)
    slope = arms.SLOPE_BRIDGE if state.kind == "bridge" else arms.SLOPE_SINGLE
    found = [
        at_most("root strain", state.root_strain, arms.STRAIN_PASS, "strain", arms.STRAIN_FAIL),
        at_most("arm slope", state.slope, slope * (1.0 + 1e-9), "ratio"),
        at_most("arm depth", depth, 8.0 * thickness, "metre", 10.0 * thickness),
        at_least("arm depth, least", depth, 3.0 * thickness, "metre", 2.0 * thickness),
        at_least(
            "hardening of the plate",
            arms.hardening(case.curve),
            arms.LEAST_HARDENING,
            "ratio",
            0.0,
        ),
    ]
    if not isfinite(state.length):
        return found
    tips = float(strength.buckling_moment(depth, state.length, thickness, case.youngs_modulus))
    found.append(at_most("tipping of the arm", state.moment, tips / 2.0, "newton_metre", tips))
    if state.kind == "bridge" and not case.straight:
        rise = arms.stalk(state.length, case.radius, 0.0)
        found.append(at_most("rise of the bridge", rise, arms.BOW_RANGE * travel, "metre"))
    return found


def _slot(case: PlateCase, state: ArmState, slot: Slot) -> list[Check]:
    """Room along the rim, ligament, and width and end radius where they are given."""
    rim = float(case.span) * (
        float(case.radius) - float(case.wall) / 2.0 - float(case.clearance)
    )
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


def _ligament_left(case: PlateCase, state: ArmState, slot: Slot) -> float:
    """Width of the ring behind the innermost slot, at the tab."""
    sunk = float(stalk(case, state)) - float(case.clearance)
    return float(case.ring_width or 0.0) - sunk - float(across(case, slot))


def across(case: PlateCase, slot: Slot) -> Metre:
    """Plate that the limbs of one arm and its slots take across.

        limbs * depth + (limbs - 1) * 2 end radius + slot width

    The gap between two limbs holds the round fold.

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_design.py (single and folded).
    Raises nothing.
    """
    limbs = case.limbs if case.kind == "folded" else 1
    folds = 2.0 * (limbs - 1) * float(slot.end_radius)
    return limbs * float(case.depth) + folds + float(slot.width)


def _ligament_needed(case: PlateCase, state: ArmState, slot: Slot) -> float:
    """Width that carries what the arm puts into the plate."""
    proof = float(case.curve.stress(arms.PROOF_STRAIN))
    if state.kind == "bridge":
        return float(
            slots.ligament_bridge(state.tension, case.depth, slot.width, case.thickness, proof)
        )
    return float(slots.ligament_single(state.moment, case.depth, case.thickness, proof))


def _weld(case: PlateCase, state: ArmState) -> list[Check]:
    """Weld of the tab under the arm and under the growth of the wall; neck of the tab."""
    if not isfinite(state.force):
        return []
    thickness = float(case.thickness)
    length = float(case.weld_length or case.tab_length)
    throat = float(case.weld_throat or weld.THROAT * min(thickness, float(case.wall)))
    tensile = case.tensile or weld.tensile_strength(case.curve)
    moment = 0.0 if case.kind == "bridge" else float(state.moment)
    height = float(foot_height(case, state))
    grown = float(case.curve.stress(float(np.log1p(case.growth_under_pressure))))
    resists = weld.growth_force(grown, thickness, height, length)
    holds = float(weld.half_strength(length, throat, tensile))
    peak = weld.peak_stress(state.force, moment, length, throat)
    short = max(weld.SHORT_WELD, weld.SHORT_WELD_WALLS * float(case.wall))
    found = [
        at_most("tab weld", peak, weld.strength(tensile), "pascal"),
        at_most("growth of the tab weld", resists, holds, "newton", 2.0 * holds),
        at_most("length of the tab weld", length, short, "metre", 3.0 * short),
    ]
    if height < float(stalk(case, state)) and moment > 0.0:
        neck = weld.NECK * float(case.tab_length)
        bending = 4.0 * moment / (thickness * neck**2)
        proof = float(case.curve.stress(arms.PROOF_STRAIN))
        found.append(at_most("neck of the tab", bending, proof, "pascal"))
    return found


def _out_of_plane(case: PlateCase, state: ArmState) -> list[Check]:
    """Weight, caught air and filling against the arms, before and while they yield."""
    if case.ledge or not isfinite(state.length):
        return []
    inside = float(case.radius) - float(case.wall) / 2.0
    area = float(strength.plate_area(inside, case.clearance, case.ring_width))
    area *= float(case.span) / (2.0 * pi)
    weight = float(strength.weight(area, case.thickness, case.density))
    proof = float(case.curve.stress(arms.PROOF_STRAIN))
    before = _carried(case, state, proof, 0.0)
    yielding = float(case.curve.stress(float(np.log1p(state.root_strain))))
    plastic = yielding * float(case.thickness) * float(case.depth) ** 2 / 4.0
    whole = _carried(case, state, yielding, 0.0)
    left = _carried(case, state, yielding, min(float(state.moment) / plastic, 1.0))
    load = _load_in_water(case, inside, area, weight)
    handled = strength.HANDLING_FACTOR * weight
    return [
        at_most("load along the axis, handled", handled, before, "newton"),
        at_most("load along the axis, forming", load, left, "newton", whole),
    ]


def _carried(case: PlateCase, state: ArmState, stress: float, in_plane: float) -> float:
    """Load along the axis that all arms of the plate carry."""
    relieved = case.tabs if case.relieved is None else case.relieved
    each = strength.carried(case.depth, state.length, case.thickness, stress, in_plane)
    return relieved * (2.0 if case.kind == "bridge" else 1.0) * float(each)


def _load_in_water(case: PlateCase, inside: float, area: float, weight: float) -> float:
    """Greater of weight in water downwards and of air and flow upwards."""
    open_share = case.open_share
    if open_share is None and case.ring_width is None:
        open_share = max(1.0 - area / (pi * inside**2), 1e-3)
    down = weight * (1.0 - strength.WATER / float(case.density))
    lift = float(strength.air_lift(area))
    flow = float(strength.fill_flow(area, case.fill_speed, open_share))
    return max(down, lift + flow - down)

"""One arm at its travel: by the closed formulas, or by the yielding beam.

Where the length is left out the shortest one is taken that keeps strain and slope, on full
millimetres. With the beam the length is found by repeated solves.
"""

from dataclasses import replace
from math import ceil, inf, isfinite, sqrt

import numpy as np

from stretchform.errors import NoSolution
from stretchform.plates import arms, beam, slots
from stretchform.plates.case import ArmState, PlateCase, Travel
from stretchform.si import Metre

SOURCES = ("own-derivation",)

_MILLIMETRE = 1e-3
_SEARCHES = 6
_LONGER = 40  # millimetres added at most after the search


def treated_kind(case: PlateCase) -> str:
    """Kind of arm as it acts: arms of mixed hand hold each other and count as a bridge.

    Source: own-derivation, a plate cannot turn both ways.
    Checked: tests/unit/plates/test_plates_design.py (mixed hand).
    Raises nothing.
    """
    if case.kind in ("single", "folded") and not case.same_hand and case.tabs > 1:
        return "bridge"
    return case.kind


def arm_state(case: PlateCase, travel: Travel, end_radius: Metre, exact: bool) -> ArmState:
    """State of one arm of a plate; with `exact` by the beam where there is an arm.

    Source: own-derivation, the functions of `arms` and `beam`.
    Checked: tests/unit/plates/test_plates_design.py (formula and beam side by side).
    Raises nothing: an arm that finds no balance is marked as necking.
    """
    closed = _closed(case, travel, float(end_radius))
    if not exact or closed.kind in ("none", "sliding") or not isfinite(float(closed.length)):
        return closed
    if closed.length == 0.0:
        return closed
    try:
        return _solved(case, travel, float(end_radius), closed)
    except NoSolution:
        return replace(closed, necks=True)


def _closed(case: PlateCase, travel: Travel, end_radius: float) -> ArmState:
    """The arm by the closed formulas."""
    kind = treated_kind(case)
    if kind == "none" or travel.arm <= 0.0:
        return _unrelieved(case, kind)
    if kind == "sliding":
        needed = travel.arm + float(slots.overlap(case.thickness))
        return ArmState(kind, float(case.length or _up(needed)), needed, 0, 0, 0, 0, 0)
    needed = _needed_length(case, kind, travel.arm, end_radius)
    length = float(case.length) if case.length is not None else _up(needed)
    if not isfinite(length):
        return ArmState(kind, inf, inf, inf, inf, 0.0, 0.0, inf)
    make = _bridge if kind == "bridge" else _single
    state = make(case, travel.arm, length, end_radius)
    back = float(case.radius) * float(case.springback)
    freed = _stiffness(case, kind, length) * back
    return replace(state, needed_length=needed, released_force=float(state.force) - freed)


def _unrelieved(case: PlateCase, kind: str) -> ArmState:
    """A tab without an arm: no force with one tab, else the strip between tabs yields."""
    if case.tabs < 2:
        return ArmState(kind, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    width = float(case.tab_length if case.ring_width is None else case.ring_width)
    growth = float(case.growth_under_pressure)
    force = float(case.curve.stress(float(np.log1p(growth)))) * width * float(case.thickness)
    return ArmState(kind, 0.0, 0.0, 0.0, growth, 0.0, force, force)


def _needed_length(case: PlateCase, kind: str, travel: float, end_radius: float) -> float:
    """Shortest length that stays within strain and slope, by the closed formulas."""
    limit = arms.STRAIN_PASS / float(slots.sharpened(1.0, case.depth, end_radius))
    if kind == "bridge":
        bow = None if case.straight else case.radius
        factors = arms.bridge_factors(case.curve)
        return float(arms.bridge_length(case.depth, travel, limit, bow, factors))
    factor = arms.strain_factor(case.curve)
    return float(arms.single_length(case.depth, travel, limit, factor, _limbs(case)))


def _limbs(case: PlateCase) -> int:
    return case.limbs if case.kind == "folded" else 1


def _stiffness(case: PlateCase, kind: str, length: float) -> float:
    """Elastic force per travel of all the arms of one tab, for the springback."""
    one = float(arms.guided_stiffness(case.depth, length, case.thickness, case.youngs_modulus))
    return one * (2.0 if kind == "bridge" and case.kind == "bridge" else 1.0) / _limbs(case)


def _single(case: PlateCase, travel: float, length: float, end_radius: float) -> ArmState:
    """Single arm, or the limbs of a folded arm that share the travel."""
    each = travel / _limbs(case)
    strain = arms.single_strain(case.depth, length, each, arms.strain_factor(case.curve))
    factor = arms.YIELD_POINT * arms.bending_factor(case.curve)
    moment = arms.root_moment(case.depth, length, each, case.thickness, case.curve, factor)
    turn = arms.plate_turn(length, each, case.radius, not case.straight)
    return ArmState(
        kind=case.kind,
        length=length,
        needed_length=length,
        slope=each / length,
        root_strain=float(slots.sharpened(strain, case.depth, end_radius)),
        moment=float(moment),
        tension=0.0,
        force=float(arms.single_force(moment, length, each)),
        shift=float(np.multiply(turn, case.radius)) if case.kind == "single" else 0.0,
    )


def _bridge(case: PlateCase, travel: float, length: float, end_radius: float) -> ArmState:
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
    slope = float(arms.effective_slope(length, travel, bow))
    halves = 1.0 if case.kind == "bridge" else 0.5
    return ArmState(
        kind="bridge",
        length=length,
        needed_length=length,
        slope=slope,
        root_strain=float(slots.sharpened(strain, case.depth, end_radius)),
        moment=float(moment),
        tension=float(tension),
        force=halves * float(arms.bridge_force(moment, tension, length, slope)),
    )


def _solved(case: PlateCase, travel: Travel, end_radius: float, closed: ArmState) -> ArmState:
    """The same arm by the beam; its length searched for where none is given."""
    length = float(closed.length)
    if case.length is None:
        length = _search(case, travel.arm, end_radius, closed)
    each = travel.arm / _limbs(case)
    back = each - float(case.radius) * float(case.springback) / _limbs(case)
    strip = _strip(case, closed.kind, length)
    peak, left = beam.follow(strip, (each, back), case.curve, case.youngs_modulus)
    halves = 2.0 if closed.kind == "bridge" and case.kind == "bridge" else 1.0
    bow = None if case.straight or closed.kind != "bridge" else case.radius
    return replace(
        closed,
        length=length,
        needed_length=length if case.length is None else closed.needed_length,
        slope=float(arms.effective_slope(length, each, bow)),
        root_strain=_sharp(case, float(peak.root_strain), end_radius),
        moment=peak.moment,
        tension=abs(float(peak.tension)) if closed.kind == "bridge" else 0.0,
        force=halves * float(peak.force),
        released_force=halves * float(left.force),
        shift=peak.shift if closed.kind == "single" else 0.0,
        method="beam",
    )


def _sharp(case: PlateCase, strain: float, end_radius: float) -> float:
    return float(slots.sharpened(strain, case.depth, end_radius))


def _strip(case: PlateCase, kind: str, length: float) -> beam.Strip:
    """The arm as a beam; limbs of a folded arm are straight or bowed like a single one."""
    bow = None if case.straight else case.radius
    return beam.Strip(case.depth, case.thickness, length, kind == "bridge", bow)


def _search(case: PlateCase, travel: float, end_radius: float, closed: ArmState) -> float:
    """Shortest length on full millimetres within strain and slope, by the beam."""
    each = travel / _limbs(case)
    steep = arms.SLOPE_BRIDGE if closed.kind == "bridge" else arms.SLOPE_SINGLE
    least = each / steep

    def used(length: float) -> float:
        strip = _strip(case, closed.kind, length)
        strain = beam.solve(strip, each, case.curve, case.youngs_modulus).root_strain
        return _sharp(case, float(strain), end_radius) / arms.STRAIN_PASS

    length = max(float(closed.needed_length), least)
    for _ in range(_SEARCHES):
        share = used(length)
        better = max(length * sqrt(share), least)
        if abs(better / length - 1.0) < 2e-3:
            break
        length = better
    length = _up(max(length, least))
    for _ in range(_LONGER):
        if used(length) <= 1.0:
            return length
        length += _MILLIMETRE
    return float(closed.length)


def _up(length: float) -> float:
    """The next full millimetre."""
    return ceil(length / _MILLIMETRE - 1e-9) * _MILLIMETRE if isfinite(length) else inf

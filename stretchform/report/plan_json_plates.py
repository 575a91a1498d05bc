"""The plates of a plan and the slosh between them, for other programs: SI numbers."""

from typing import Any

from stretchform.planning.plan import Plan, PlatePlan, SloshState
from stretchform.plates.case import PlateResult
from stretchform.report import words_plates


def plate(found: PlatePlan, plan: Plan) -> dict[str, Any]:
    """One plate at its height: sizes, checks, notches and damping."""
    result = found.result
    return {
        "name": found.name,
        "height": found.height,
        "near_head": found.near_head,
        "travel": result.travel,
        "tab_clearance": {"before": result.clearance_before, "after": result.clearance_after},
        **_solved(result, plan),
        "unchecked": list(result.unchecked),
        "by_beam": None if found.exact is None else _solved(found.exact, plan),
        "notches": _notches(found),
        "slosh": _damping(found),
    }


def _solved(result: PlateResult, plan: Plan) -> dict[str, Any]:
    """Arm, slot and checks of one result."""
    return {
        "arm": {
            "kind": result.kind,
            "depth": result.arm_depth,
            "length": result.arm_length,
            "root_strain": result.root_strain,
            "force": result.force,
        },
        "slot": {
            "length": result.slot_length,
            "width": result.slot_width,
            "end_radius": result.slot_end_radius,
        },
        "governs": result.governs,
        "method": result.method,
        "refused": list(result.refused),
        "checks": [
            {
                "name": check.name,
                "value": None if _kept_back(check.name, plan) else check.value,
                "limit": check.limit,
                "result": check.result,
            }
            for check in result.checks
        ],
    }


def _kept_back(check: str, plan: Plan) -> bool:
    return bool(plan.withheld_by) and check in words_plates.AGAINST_PRESSURE


def _notches(found: PlatePlan) -> dict[str, Any] | None:
    notches = found.notches
    if notches is None:
        return None
    return {
        "radius": notches.radius,
        "vent": notches.vent,
        "drain": notches.drain,
        "level_while_filled": notches.level,
        "air_film": notches.film,
    }


def _damping(found: PlatePlan) -> dict[str, Any] | None:
    pair = found.damping
    return None if pair is None else {"before": pair.before, "after": pair.after}


def slosh(plan: Plan) -> dict[str, Any] | None:
    """First mode of the contents before and after forming; None where no contents are stated."""
    found = plan.slosh
    if found is None:
        return None
    return {
        "wave_over_radius": found.wave,
        "damping_wanted": found.wanted,
        "before": _state(found.before),
        "after": _state(found.after),
        "outside_range": list(found.outside),
        "not_evaluated": list(found.not_evaluated),
    }


def _state(state: SloshState) -> dict[str, Any]:
    return {
        "radius": state.radius,
        "level": state.level,
        "frequency": state.mode.frequency,
        "mass_ratio": state.mode.mass_ratio,
        "pendulum": state.mode.pendulum,
        "damping": state.damping,
        "ring_spacing": state.spacing,
    }

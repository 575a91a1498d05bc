"""The plan for other programs: strict JSON, SI units, strains and shares as fractions.

`danger` stands before every other content. Keys that nothing computes yet are null. A number
that is not finite (a tank that never reaches the target) is null, never NaN.

A withheld plan has null for every pressure and for all that would tell one: forming and maximum
pressure, the pressures beside them, step pressures and gauge readings, stored energies, thrusts,
jet speed, the air limit, the growth curve, the stresses of heads, the checks of plates against
the pressure, and numbers of cautions that hold a pressure. `withheld_by` then names the
cautions. Growths, sizes, strengths and shares stay.
"""

import json
from collections.abc import Mapping
from math import isfinite
from typing import Any

import numpy as np

from stretchform import __version__
from stretchform.planning.cautions import Caution
from stretchform.planning.plan import MODEL, Band, Plan, StationPlan
from stretchform.report import (
    plan_json_ends,
    plan_json_job,
    plan_json_plates,
    plan_json_work,
    words,
    words_basis,
    words_conditions,
    words_danger,
)
from stretchform.sources import Source

FORMAT = "stretchform plan 1"


def dumps(plan: Plan, bibliography: Mapping[str, Source]) -> str:
    """The plan as text: strict JSON, two spaces a level."""
    return json.dumps(as_data(plan, bibliography), indent=2, ensure_ascii=True, allow_nan=False)


def as_data(plan: Plan, bibliography: Mapping[str, Source]) -> dict[str, Any]:
    """The plan as plain numbers, texts, lists and dictionaries in the order of reading."""
    data = _head(plan) | _pressures(plan)
    data["target"] = {
        "kind": plan.job.target.kind.value,
        "value": plan.job.target.value,
        "station": plan.job.target.station,
        "under_pressure": plan.job.target.under_pressure,
        "growth": plan.target_growth,
    }
    data["stations"] = [_station(item) for item in plan.stations]
    shown = not plan.withheld_by
    data["whole_tank"] = plan.whole
    data["heads"] = [plan_json_ends.head(item, shown) for item in plan.heads]
    data["openings"] = [plan_json_ends.opening(item, shown) for item in plan.openings]
    data["profile"] = plan_json_ends.profile(plan.profile)
    data["steps"] = [plan_json_work.step(item, plan) for item in plan.steps]
    data["holds"] = plan_json_work.holds(plan)
    data["stops"] = plan_json_work.stops(plan)
    data["drivers"] = [plan_json_work.driver(item) for item in plan.drivers]
    data["information"] = plan_json_work.information(plan)
    data["instruments"] = plan_json_work.instruments(plan)
    data["water"] = plan_json_work.water(plan)
    data["energy"] = _energy(plan)
    data["plates"] = [plan_json_plates.plate(item, plan) for item in plan.plates]
    data["slosh"] = plan_json_plates.slosh(plan)
    data["growth_curve"] = _growth_curve(plan)
    data["cautions"] = [_caution(item, plan) for item in plan.cautions]
    data["hold_points"] = plan_json_work.hold_points(plan)
    data |= {"blanks": None, "handling": None}
    data["sources"] = words_basis.sources(plan, bibliography)
    clean = finite(data)
    assert isinstance(clean, dict)
    return clean


def _head(plan: Plan) -> dict[str, Any]:
    return {
        "format": FORMAT,
        "version": __version__,
        "danger": {
            "title": words_danger.TITLE,
            "statements": list(words_danger.statements(plan)),
            "energy": _energy(plan),
        },
        "fingerprint": plan.fingerprint,
        "model": MODEL,
        "job": plan_json_job.as_data(plan.job),
        "validity": list(words_basis.validity(plan)),
        "withheld_by": list(plan.withheld_by),
        "accepted": dict(plan.job.accepted),
    }


def _pressures(plan: Plan) -> dict[str, Any]:
    basis, shown = plan.basis, not plan.withheld_by
    return {
        "likely_basis": {
            "criterion": {"name": basis.criterion, "factor": basis.criterion_factor},
            "rate": basis.rate_factor,
            "water": basis.water_factor,
            "courses": words_conditions.as_data(basis.courses),
            "springback": basis.springback_factor,
            "curve": list(words_basis.curves(plan)),
            "mises_at_test_rate": basis.mises_at_test_rate if shown else None,
            "tresca_maximum": basis.tresca_maximum if shown else None,
            "survives_tresca": basis.survives_tresca,
        },
        "forming_pressure": band(plan.forming_pressure) if shown else None,
        "maximum_pressure": band(plan.maximum_pressure) if shown else None,
        "maximum_is_lower_bound": not plan.maximum_within_curve,
        "share_of_maximum": {
            "pressure": plan.share_of_pressure,
            "growth": plan.share_of_growth,
        },
        "sensitivity": {"points_per_per_cent": plan.points_per_per_cent},
        "no_answer": plan.no_answer,
    }


def band(band: Band) -> dict[str, float]:
    return {"low": band.low, "likely": band.likely, "high": band.high}


def _station(station: StationPlan) -> dict[str, Any]:
    return {
        "name": station.name,
        "course": station.course,
        "height": station.height,
        "near_head": station.near_head,
        "before": {
            "outside_circumference": station.circumference_before,
            "wall": station.wall_before,
        },
        "under_pressure": {
            "outside_circumference": station.circumference_under_pressure.likely,
            "outside_circumference_band": band(station.circumference_under_pressure),
            "growth": band(station.growth_under_pressure),
            "wall": station.wall_under_pressure,
        },
        "released": {
            "outside_circumference": station.circumference_released.likely,
            "outside_circumference_band": band(station.circumference_released),
            "growth": band(station.growth_released),
            "wall": station.wall_released,
            "gained_yield_strength": band(station.gained_yield),
            "yield_before": station.yield_before,
        },
    }


def _energy(plan: Plan) -> dict[str, Any]:
    """All null where the pressure is withheld: any of them would tell it."""
    stored = plan.hazard.stored
    data = {
        "water": stored.water,
        "wall": stored.wall,
        "air": stored.air,
        "recoverable": stored.recoverable,
        "plastic_work": stored.plastic_work,
        "gas_instead": stored.gas_instead,
        "ratio_gas": stored.ratio_gas,
        "method": stored.method,
        "recoverable_likely": plan.hazard.stored_likely.recoverable,
        "at_relief": plan.hazard.energy_at_relief,
        "pressure": plan.hazard.pressure,
        "end_thrust": plan.hazard.end_thrust,
        "jet_speed": plan.hazard.jet_speed,
    }
    return dict.fromkeys(data) if plan.withheld_by else data


def _growth_curve(plan: Plan) -> dict[str, Any] | None:
    if plan.withheld_by:
        return None
    curve = plan.growth
    return {
        "pressure": curve.pressure,
        "released_growth": {
            "low": curve.released_low,
            "likely": curve.released_likely,
            "high": curve.released_high,
        },
    }


def _caution(caution: Caution, plan: Plan) -> dict[str, Any]:
    withheld = bool(plan.withheld_by)
    text = words.full(caution, withheld=withheld)
    hidden = withheld and words.tells_pressure(caution.code)
    return {
        "code": caution.code,
        "level": caution.level.value,
        "text": text["short"],
        "means": text["means"],
        "why": text["why"],
        "do": text["do"],
        "source": text["source"],
        "numbers": None if hidden else dict(caution.numbers),
        "names": list(caution.names),
        "accepted": plan.job.accepted.get(caution.code),
    }


def finite(value: Any) -> Any:
    """Plain types all through; a number that is not finite becomes null."""
    if isinstance(value, dict):
        return {key: finite(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [finite(item) for item in value]
    if isinstance(value, np.ndarray | np.generic):
        return finite(value.tolist())
    if isinstance(value, float):
        return value if isfinite(value) else None
    return value

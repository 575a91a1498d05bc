"""The work of a plan for its JSON: steps, holds, stops, drivers, instruments, water, hold points.

In a withheld plan everything that would tell a pressure is null: pressures, water that the
pump delivers and gets back, the drift, the stops in water and in pressure, the ranges of gauges.
"""

from typing import Any

from stretchform.planning.plan import Band, Driver, Plan, Step
from stretchform.report import words_holdpoints


def band(band: Band) -> dict[str, float]:
    return {"low": band.low, "likely": band.likely, "high": band.high}


def step(step: Step, plan: Plan) -> dict[str, Any]:
    shown = not plan.withheld_by
    return {
        "pressure": step.pressure if shown else None,
        "hold_s": step.hold,
        "hold_until_rate": step.full_hold,
        "gauge_reading": step.gauge_reading if shown else None,
        "water_in": band(step.water_in) if shown else None,
        "strokes": step.strokes if shown else None,
        "pumping_s": step.pumping if shown else None,
        "yielding": step.yielding,
        "chance_over_target": step.chance_over_target,
        "chance_of_overshoot": step.chance_of_overshoot,
        "chance_over_share_of_maximum": step.chance_over_share,
        "stations": [
            {
                "name": item.name,
                "circumference": band(item.circumference),
                "released": band(item.released),
                "go_on_below": item.go_on_below,
                "stop_above": item.stop_above,
            }
            for item in step.stations
        ],
    }


def driver(item: Driver) -> dict[str, Any]:
    return {
        "input": item.unknown,
        "courses": list(item.courses),
        "share": item.of_pressure,
        "share_of_growth": item.of_growth,
    }


def information(plan: Plan) -> list[dict[str, Any]]:
    """Half of low to high that each measurement would leave."""
    return [
        {"measurement": item.measurement, "pressure": item.pressure, "growth": item.growth}
        for item in plan.information
    ]


def holds(plan: Plan) -> dict[str, Any]:
    found = plan.holds
    return {
        "growth_per_e_fold": band(found.per_e_fold),
        "arrival_rate": found.arrival_rate,
        "rate_limit": found.rate_limit,
        "window_s": found.window,
        "until_kept_s": band(found.until_kept),
        "growth": [
            {"after_s": item.after, "growth": band(item.growth)} for item in found.growth
        ],
    }


def stops(plan: Plan) -> dict[str, Any]:
    found, shown = plan.stops, not plan.withheld_by
    return {
        "growth_under_pressure": found.growth,
        "water": found.water if shown else None,
        "drum": found.drum if shown else None,
        "water_at_target": band(found.water_at_target) if shown else None,
        "pressure_rise_per_water": found.rise_per_water if shown else None,
        "stations_apart": found.stations_apart,
        "compliance": found.compliance,
        "compliance_off": found.compliance_off,
        "pressure_fall_at_1_ml_per_min": found.leak_fall,
        "small_steps_from": found.small_steps_from,
    }


def instruments(plan: Plan) -> dict[str, Any]:
    found, shown = plan.instruments, not plan.withheld_by
    return {
        "gauges": [
            {
                "name": item.name,
                "range_over_forming": item.range_share if shown else None,
                "limit": item.limit,
                "worth_growth": item.growth if shown else None,
                "head": item.head,
            }
            for item in found.gauges
        ],
        "relief_growth": band(found.relief_growth) if found.relief_growth and shown else None,
        "relief_over_pump": found.relief_share,
        "growth_in_reaction": found.reaction_growth,
    }


def water(plan: Plan) -> dict[str, Any]:
    found, shown = plan.water, not plan.withheld_by
    return {
        "temperature": found.temperature,
        "volume_before": found.volume_before,
        "volume_after": band(found.volume_after),
        "in_total": band(found.in_total) if shown else None,
        "returned": band(found.returned) if shown else None,
        "upper_bound": found.upper_bound,
        "air_limit": found.air_limit if shown else None,
        "air_under_plates": found.air_under_plates,
        "filled_mass": found.filled_mass,
        "drift_per_kelvin": found.drift if shown else None,
        "drift_growth_per_kelvin": found.drift_growth if shown else None,
        "collapse": found.collapse,
    }


def hold_points(plan: Plan) -> list[dict[str, Any]]:
    """Every hold point with its words; numbers that tell a withheld pressure are null."""
    found = []
    for point in plan.hold_points:
        words = words_holdpoints.WORDS[point.code]
        hidden = bool(plan.withheld_by) and words.tells_pressure
        found.append(
            {
                "code": point.code,
                "when": point.when.value,
                "title": words.title,
                "must": words_holdpoints.must(point, withheld=bool(plan.withheld_by)),
                "otherwise": words.otherwise,
                "reads": list(point.reads),
                "numbers": None if hidden else dict(point.numbers),
                "source": words.source,
            }
        )
    return found

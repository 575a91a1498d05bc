"""The JSON of a plan: its keys, its strictness, and what a withheld plan keeps back."""

import json
from dataclasses import fields
from math import isclose

import pytest
import report_plans

from stretchform.report import plan_json

KEYS = {
    *("format", "version", "danger", "fingerprint", "model", "job", "likely_basis"),
    *("validity", "withheld_by", "accepted", "forming_pressure", "maximum_pressure"),
    *("share_of_maximum", "target", "stations", "heads", "steps", "drivers", "water"),
    *("energy", "plates", "slosh", "cautions", "hold_points", "sources", "blanks", "handling"),
    *(
        "whole_tank",
        "openings",
        "profile",
        "no_answer",
        "sensitivity",
        "maximum_is_lower_bound",
        "growth_curve",
        *("holds", "stops", "instruments", "information"),
    ),
}
BAND = {"low", "likely", "high"}


def data(plan):
    return json.loads(plan_json.dumps(plan, report_plans.SOURCES))


def numbers_in(value):
    if isinstance(value, dict):
        return [n for item in value.values() for n in numbers_in(item)]
    if isinstance(value, list):
        return [n for item in value for n in numbers_in(item)]
    return [value] if isinstance(value, float) else []


def pressures_of(plan):
    """Every pressure that the forecast of a plan holds, and what follows from one alone."""
    bands = (plan.forming_pressure, plan.maximum_pressure)
    found = [getattr(band, part) for band in bands for part in sorted(BAND)]
    found += [step.pressure for step in plan.steps]
    found += [step.gauge_reading for step in plan.steps]
    found += [plan.basis.mises_at_test_rate, plan.basis.tresca_maximum, plan.hazard.pressure]
    stored = plan.hazard.stored
    found += [stored.water, stored.wall, stored.air, stored.recoverable, stored.gas_instead]
    found += [plan.hazard.end_thrust, plan.hazard.jet_speed, plan.water.air_limit]
    for head in plan.heads:
        found += [head.first_yield_pressure, head.lowest_hoop_stress, head.lowest_hoop_at]
    found += [opening.thrust for opening in plan.openings]
    found += [step.water_in.likely for step in plan.steps]
    found += [plan.stops.water, plan.stops.rise_per_water, plan.water.returned.likely]
    found += [plan.water.drift, *(item.growth for item in plan.instruments.gauges)]
    return [float(value) for value in found if value != 0.0]


def test_all_keys_of_the_format_are_there():
    plan = data(report_plans.shown())
    assert set(plan) == KEYS
    assert set(plan["likely_basis"]) >= {"criterion", "rate", "curve", "mises_at_test_rate"}
    assert set(plan["forming_pressure"]) == set(plan["maximum_pressure"]) == BAND
    assert set(plan["share_of_maximum"]) == {"pressure", "growth"}
    assert set(plan["target"]) >= {"kind", "value", "station"}
    assert set(plan["water"]) >= {"volume_before", "volume_after", "in_total", "air_limit"}
    energies = {"water", "wall", "air", "recoverable", "plastic_work", "gas_instead", "method"}
    assert set(plan["energy"]) >= energies


def test_plates_tell_their_beam_notches_and_slosh():
    plan = data(report_plans.sloshing())
    (solved,) = [one for one in plan["plates"] if one["by_beam"]]
    assert solved["by_beam"]["method"] == "beam"
    assert solved["by_beam"]["arm"]["length"] == solved["arm"]["length"]
    assert {check["result"] for check in solved["by_beam"]["checks"]} <= {"ok", "care", "fails"}
    for plate in plan["plates"]:
        assert set(plate["notches"]) >= {"radius", "vent", "drain", "air_film"}
    below = [one for one in plan["plates"] if one["height"] < 1.2]
    assert all(0.0 < one["slosh"]["after"] < 1.0 for one in below)
    assert plan["slosh"]["after"]["frequency"] < plan["slosh"]["before"]["frequency"]


def test_a_withheld_plan_keeps_back_what_the_beam_tells_of_the_pressure():
    plan = data(report_plans.withheld())
    (solved,) = [one for one in plan["plates"] if one["by_beam"]]
    checks = {check["name"]: check["value"] for check in solved["by_beam"]["checks"]}
    assert checks["restraint of the wall"] is None
    assert checks["root strain"] is not None


def test_all_keys_of_stations_steps_plates_and_cautions_are_there():
    plan = data(report_plans.shown())
    station = plan["stations"][0]
    assert set(station) >= {"name", "height", "before", "under_pressure", "released"}
    assert set(station["before"]) == {"outside_circumference", "wall"}
    assert set(station["under_pressure"]) >= {"outside_circumference", "growth", "wall"}
    released = {"outside_circumference", "growth", "wall", "gained_yield_strength"}
    assert set(station["released"]) >= {*released, "yield_before"}
    step = plan["steps"][-1]
    assert set(step) >= {"pressure", "hold_s", "gauge_reading", "water_in"}
    assert set(step) >= {
        "chance_over_target",
        "chance_of_overshoot",
        "strokes",
        "hold_until_rate",
    }
    assert set(step["stations"][0]) == {
        *("name", "circumference", "released", "go_on_below", "stop_above")
    }
    assert set(plan["drivers"][0]) == {"input", "courses", "share", "share_of_growth"}
    point = plan["hold_points"][0]
    assert set(point) >= {"code", "when", "title", "must", "otherwise", "reads", "source"}
    head = plan["heads"][0]
    assert set(head) >= {"name", "first_yield_pressure", "depth_change"}
    assert set(head) >= {"lowest_hoop_stress", "wrinkling"}
    plate = plan["plates"][0]
    assert set(plate["tab_clearance"]) == {"before", "after"}
    assert set(plate["arm"]) == {"kind", "depth", "length", "root_strain", "force"}
    assert set(plate["slot"]) == {"length", "width", "end_radius"}
    assert set(plate["checks"][0]) == {"name", "value", "limit", "result"}
    assert set(plan["cautions"][0]) >= {"code", "level", "text", "source"}
    assert set(plan["sources"][0]) == {"key", "title", "how"}


def test_numbers_are_those_of_the_plan_to_the_last_digit():
    plan, written = report_plans.shown(), data(report_plans.shown())
    assert written["forming_pressure"]["likely"] == plan.forming_pressure.likely
    assert written["steps"][3]["gauge_reading"] == plan.steps[3].gauge_reading
    growth = plan.stations[0].growth_released.high
    assert written["stations"][0]["released"]["growth"]["high"] == growth
    assert written["energy"]["recoverable"] == plan.hazard.stored.recoverable


def test_a_number_that_does_not_exist_is_null_and_never_nan():
    text = plan_json.dumps(report_plans.endless(), report_plans.SOURCES)
    assert "NaN" not in text
    assert "Infinity" not in text
    band = json.loads(text)["forming_pressure"]
    assert band["low"] > 0.0
    assert band["likely"] is band["high"] is None


@pytest.mark.parametrize("make", [report_plans.withheld, report_plans.overstretched])
def test_a_withheld_plan_holds_no_pressure_and_nothing_that_tells_one(make):
    plan = make()
    written = data(plan)
    assert written["withheld_by"] == list(plan.withheld_by) != []
    assert written["forming_pressure"] is written["maximum_pressure"] is None
    kept = numbers_in(written)
    stated = {6e6, 2.75e6}  # range of the gauge and relief pressure: the user's own
    for pressure in pressures_of(plan):
        assert not [n for n in kept if n not in stated and isclose(n, pressure, rel_tol=1e-6)]


def test_the_search_for_pressures_finds_them_in_a_plan_that_is_shown():
    kept = numbers_in(data(report_plans.shown()))
    for pressure in pressures_of(report_plans.shown()):
        assert [n for n in kept if isclose(n, pressure, rel_tol=1e-6)]


def test_an_accepted_block_shows_the_pressure_with_its_reason():
    written = data(report_plans.accepted())
    assert written["withheld_by"] == []
    assert written["forming_pressure"]["likely"] > 0.0
    assert "shop foreman" in written["accepted"]["cold_water"]
    caution = next(item for item in written["cautions"] if item["code"] == "cold_water")
    assert "shop foreman" in caution["accepted"]


def test_every_source_has_a_title_and_how_it_was_obtained():
    for source in data(report_plans.shown())["sources"]:
        assert source["title"]
        assert source["how"]


def test_every_field_of_the_stored_energy_is_written():
    stored = report_plans.shown().hazard.stored
    assert {field.name for field in fields(stored)} <= set(data(report_plans.shown())["energy"])

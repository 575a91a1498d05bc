"""Tables of a plan: units in the heads, every number that of the JSON, nothing withheld shown."""

import re

import pytest
import report_plans

from stretchform import units
from stretchform.report import plan_json, sheets

PLANS = ["shown", "withheld", "quick", "endless", "wild"]
HEAD = re.compile(r"^(?P<name>.+?)(?: \[(?P<unit>[^\]]+)\])?$")


def made(name, inches=False):
    plan = getattr(report_plans, name)()
    data = plan_json.as_data(plan, report_plans.SOURCES)
    return data, {one[0]: one for one in sheets.of_plan(plan, data, inches)}


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("inches", [False, True])
def test_every_row_is_as_long_as_its_head_and_every_size_has_a_unit(name, inches):
    _, found = made(name, inches)
    assert found
    for title, header, rows in found.values():
        assert len(set(header)) == len(header), title
        assert all(len(row) == len(header) for row in rows), title
        for place, head in enumerate(header):
            numbers = [row[place] for row in rows if isinstance(row[place], float)]
            plain = "SI" in head or "m/s" in head or "over" in head or "strokes" in head
            if numbers and not plain:
                assert HEAD.match(head)["unit"], f"{title}: {head} has no unit"


def test_the_numbers_are_those_of_the_json():
    data, found = made("shown", inches=True)
    _, header, rows = found["stations"]
    for station, row in zip(data["stations"], rows, strict=True):
        cells = dict(zip(header, row, strict=True))
        circumference = station["released"]["outside_circumference_band"]["high"]
        # 12 digits are kept
        assert cells["circumference released, high [mm]"] == pytest.approx(
            1e3 * circumference, rel=1e-11
        )
        assert cells["circumference released, high [in]"] == pytest.approx(
            circumference / 0.0254, rel=1e-11
        )
        strength = station["released"]["gained_yield_strength"]["low"]
        assert cells["gained yield strength, low [MPa]"] == pytest.approx(
            strength / 1e6, rel=1e-11
        )
    _, header, rows = found["steps"]
    assert len(rows) == len(data["steps"])
    place = header.index("pressure to set [psi]")
    assert rows[-1][place] == pytest.approx(
        units.convert(data["steps"][-1]["pressure"], "psi"), rel=1e-11
    )


def test_every_step_station_plate_check_and_height_is_there():
    data, found = made("wild")
    assert len(found["tape"][2]) == sum(len(step["stations"]) for step in data["steps"])
    assert len(found["plates"][2]) == len(data["plates"]) == 40
    assert len(found["plate-checks"][2]) == sum(len(one["checks"]) for one in data["plates"])
    assert len(found["hold-points"][2]) == len(data["hold_points"])
    assert len(found["profile"][2]) == len(data["profile"]["height"])


def test_a_withheld_plan_leaves_its_pressures_out():
    data, found = made("withheld")
    assert data["forming_pressure"] is None
    for title in ("pressures", "steps", "growth-curve", "energy", "heads"):
        if title not in found:
            continue
        _, header, rows = found[title]
        for place, head in enumerate(header):
            if "[MPa]" in head or "[kJ]" in head or "[l]" in head or "thrust" in head:
                assert {row[place] for row in rows} == {None}, f"{title}: {head}"
    assert "growth-curve" not in found
    about = dict(found["about"][2][len(data["danger"]["statements"]) :])
    assert about["withheld by"] == "cold_water"


def test_danger_and_that_it_is_invented_stand_first():
    data, found = made("shown")
    title, _, rows = next(iter(found.values()))
    assert title == "about"
    assert [row[1] for row in rows[: len(data["danger"]["statements"])]] == data["danger"][
        "statements"
    ]
    assert ("invented example", True) in rows

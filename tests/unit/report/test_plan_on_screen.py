"""The plan on the screen: order, width, numbers, what a withheld plan keeps back."""

import re
from dataclasses import replace
from typing import get_args

import danger_first
import pytest
import report_plans

from stretchform.planning import plating
from stretchform.plates import case as case_module
from stretchform.plates import design, options
from stretchform.plates.case import PlateCase
from stretchform.report import (
    tables,
    terminal,
    terminal_arms,
    terminal_plates,
    terminal_rich,
    terminal_slosh,
    words_plates,
)
from stretchform.report import words_numbers as numbers

MAKES = {
    "shown": report_plans.shown,
    "accepted": report_plans.accepted,
    "withheld": report_plans.withheld,
    "overstretched": report_plans.overstretched,
    "endless": report_plans.endless,
    "quick": report_plans.quick,
}
PRESSURE = re.compile(r"\d (MPa )?\(\d[\d.]* ?(bar|psi)?\)")  # 2.013 MPa (20.13 bar)


def blocks(plan, inches=False):
    return terminal.plan_blocks(plan, report_plans.SOURCES, inches)


def screen(plan, inches=False):
    return tables.plain(blocks(plan, inches), 80)


@pytest.mark.parametrize("inches", [False, True])
@pytest.mark.parametrize("name", list(MAKES))
def test_no_line_is_wider_than_eighty_columns(name, inches):
    plan = MAKES[name]()
    wide = [line for line in screen(plan, inches).split("\n") if len(line) > 80]
    assert wide == []
    drawn = terminal_rich.paint(blocks(plan, inches), 80)
    codes = re.compile(r"\x1b\[[0-9;]*m")
    assert [line for line in drawn.split("\n") if len(codes.sub("", line)) > 80] == []


def test_blocks_come_in_the_order_of_reading():
    titles = [block.title for block in blocks(report_plans.accepted())]
    order = [
        "DANGER",
        "Plan",
        "Accepted",
        "Forming pressure",
        "About the likely",
        "What the instruments",
        "Outside circumference",
        "Growth and wall",
        "Gained yield",
        "Heads",
        "Openings",
        "Steps",
        "What the tape reads",
        "Holds",
        "Stop for good",
        "What makes the spread",
        "What one more measurement",
        "Plates",
        "Water",
        "Hold points",
        "Cautions",
        "Holds for",
        "Rests on",
        "From the steel's curve",
        "Sources",
    ]
    assert len(titles) == len(order)
    for title, start in zip(titles, order, strict=True):
        assert title.startswith(start)


def test_both_factors_and_the_mises_pressure_stand_beside_the_likely_one():
    plan = report_plans.shown()
    text = danger_first.unstyled(screen(plan))
    assert f"criterion factor {numbers.number(plan.basis.criterion_factor)}" in text
    assert f"rate factor {numbers.number(plan.basis.rate_factor)}" in text
    assert numbers.pressure(plan.basis.mises_at_test_rate) in text
    assert numbers.bare(numbers.pressure(plan.forming_pressure.likely)) in text
    assert f"1 % of pressure = {numbers.number(plan.points_per_per_cent)} points" in text


def test_a_quick_plan_says_that_the_heads_are_not_computed():
    text = danger_first.unstyled(screen(report_plans.quick()))
    assert "heads and their hold on the shell are not computed" in text
    assert "Heads head" not in text
    heads = {item.near_head for item in report_plans.quick().plates}
    assert ("~ some of them near a head" in text) == (True in heads)
    whole = danger_first.unstyled(screen(report_plans.shown()))
    assert "the whole tank with its heads" in whole
    assert "hold on the shell" not in whole


def test_an_invented_example_says_so():
    assert "INVENTED EXAMPLE" in screen(report_plans.shown())


@pytest.mark.parametrize("make", [report_plans.withheld, report_plans.overstretched])
def test_a_withheld_plan_shows_no_pressure_and_what_to_do(make):
    plan = make()
    for inches in (False, True):
        text = screen(plan, inches)
        assert "psi" not in text if inches else not PRESSURE.search(text.replace("\n", " "))
        assert "Forming pressure (" not in text
        assert "Steps" not in text
        for step in plan.steps:
            digits = re.escape(numbers.pressure(step.pressure).split()[0])
            assert not re.search(rf"(?<![\d.]){digits}(?!\d)", text)
    for code in plan.withheld_by:
        assert f"BLOCK {code}" in text
    assert "  do: " in text


def test_the_search_for_pressures_finds_them_in_a_plan_that_is_shown():
    assert PRESSURE.search(screen(report_plans.shown()).replace("\n", " "))


def test_a_liftable_block_names_its_line_and_another_says_that_none_lifts_it():
    assert '[accepted] cold_water = "reason, role, date"' in screen(report_plans.withheld())


def test_an_accepted_caution_is_shown_with_its_reason():
    text = screen(report_plans.accepted())
    assert "BLOCK cold_water" in text
    assert "accepted: no ice seen, shop foreman, 2026-02-03" in text


def test_plates_of_one_row_are_taken_together():
    plan = report_plans.shown()
    (name,) = terminal_plates.rows(plan)
    assert len(terminal_plates.rows(plan)[name]) == len(plan.plates)
    twins = replace(plan, plates=(plan.plates[0],) * 3)
    assert len(terminal_plates.overview(twins).rows) == 1
    assert "3 of them" in terminal_plates.overview(twins).rows[0][0]
    assert len(terminal_plates.overview(plan).rows) == len(plan.plates)  # each travels its way


def test_the_hardest_plate_is_shown_in_full_by_the_beam():
    plan = report_plans.shown()
    worst = plating.hardest(plan.plates)
    text = tables.plain(terminal_plates.details(plan, None), 80)
    assert f"Sizes of the plate at {worst.height * 1e3:.1f} mm" in text
    assert "beam that yields" in text
    assert f"{100 * worst.exact.root_strain:.1f} %" in text


def test_the_details_of_plates_name_every_check():
    plan = report_plans.shown()
    text = tables.plain(terminal_plates.details(plan, None), 80)
    for check in plan.plates[0].result.checks:
        assert check.name in text
    for plate in plan.plates:
        assert f"{1e3 * plate.height:.1f}" in text


def test_checks_against_the_pressure_are_kept_back_with_it():
    plan = report_plans.withheld()
    names = {check.name for check in plan.plates[0].result.checks}
    text = tables.plain(terminal_plates.details(plan, None), 80)
    for check in words_plates.AGAINST_PRESSURE:
        assert check in names  # else the rule below would guard nothing
        line = next(line for line in text.split("\n") if line.startswith(check))
        assert "withheld" in line


def test_only_the_checks_that_are_kept_back_change_with_the_pressure():
    first = report_plans.shown().plates[0].result
    case = PlateCase(
        kind="single",
        radius=0.321,
        wall=2e-3,
        growth_under_pressure=0.05,
        springback=0.002,
        pressure=2.5e6,
        thickness=1.5e-3,
        depth=7e-3,
        length=first.arm_length,
        tabs=3,
        clearance=1e-3,
        tab_length=20e-3,
        curve=report_plans.shown().job.tank.courses[0].steel.curve,
        ring_width=60e-3,
    )
    low, high = design.size(case), design.size(replace(case, pressure=3e6))
    pairs = zip(low.checks, high.checks, strict=True)
    changed = {one.name for one, other in pairs if one != other}
    assert changed == set(words_plates.AGAINST_PRESSURE)


def test_every_refusal_and_every_gap_of_the_checks_has_words():
    codes = {value for name, value in vars(case_module).items() if _is_code(name, value)}
    assert codes == set(words_plates.REFUSED)
    assert set(case_module.UNCHECKED) == set(words_plates.UNCHECKED)
    assert set(get_args(case_module.Method)) == set(words_plates.METHODS)


def _is_code(name, value):
    return name.isupper() and isinstance(value, str)


def test_slosh_is_shown_before_and_after_where_there_are_contents():
    (table,) = terminal_slosh.slosh(report_plans.sloshing())
    text = tables.plain([table], 80)
    assert "first frequency across the axis" in text
    assert "assumed" in text
    assert terminal_slosh.slosh(report_plans.shown()) == []


def test_the_table_of_arms_is_ranked_and_proposes_one():
    plate = plating.hardest(report_plans.shown().plates)
    proposal = options.propose(plate.case)
    table, proposed = terminal_arms.trade_off("ring", plate.height, proposal)
    results = [row[-1].split(";")[0].split(":")[0] for row in table.rows]
    order = ["ok", "care", "FAILS", "REFUSED"]
    places = [order.index(word) for word in results]
    passing = [place for place in places if place < 2]
    assert places[: len(passing)] == sorted(passing)
    assert {row[0].split(",")[0] for row in table.rows} >= {"single", "folded", "bridge"}
    assert proposed.lines[-1].startswith('arm = { kind = "')
    assert all(len(line) <= 80 for line in tables.plain([table, proposed], 80).split("\n"))

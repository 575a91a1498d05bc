"""The job card: every step with its boxes, limits on every page, nothing of a withheld plan."""

import re
from dataclasses import replace
from functools import cache

import danger_first
import page_reading
import pytest
import report_plans
from page_reading import HTML

from stretchform.planning.tank import Station
from stretchform.report import card, words_basis, words_holdpoints, words_steps
from stretchform.report import words_numbers as numbers
from stretchform.report.words_page import Card

PLANS = ["shown", "withheld", "accepted", "quick", "endless", "wild"]


def plan(name):
    return getattr(report_plans, name)()


@cache
def made(name, inches=False):
    return card.card(plan(name), inches)


def body(name, inches=False):
    return page_reading.body(made(name, inches))


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("inches", [False, True])
def test_a_card_is_valid_and_keeps_to_itself(name, inches):
    assert page_reading.faults(made(name, inches)) == []


@pytest.mark.parametrize("name", PLANS)
def test_the_danger_stands_first_on_the_card_itself(name):
    words = page_reading.said(next(body(name).iter(f"{HTML}main")))
    hidden = bool(plan(name).withheld_by)
    as_plan = words.replace(f"{Card.TITLE}: ", "Plan: ", 1)
    assert danger_first.faults_of_screen(as_plan, withheld=hidden) == []


@pytest.mark.parametrize("name", ["shown", "wild"])
def test_the_limits_stand_at_the_head_of_every_printed_page(name):
    running = page_reading.said(body(name).find(f".//{HTML}header"))
    for line in words_steps.stops(plan(name)):
        assert " ".join(line.split()) in running
    for item in plan(name).steps[-1].stations:
        assert numbers.bare(numbers.circumference(item.stop_above)) in running
    assert words_basis.EXAMPLE in running
    assert "table-header-group" in made(name)


def test_many_stations_do_not_crowd_the_head():
    first = plan("shown")
    last = first.steps[-1]
    many = tuple(replace(last.stations[0], name=f"station {place}") for place in range(30))
    stations = tuple(replace(first.stations[0], name=item.name) for item in many)
    steps = tuple(replace(step, stations=many) for step in first.steps)
    text = card.card(replace(first, stations=stations, steps=steps))
    running = page_reading.said(page_reading.body(text).find(f".//{HTML}header"))
    assert Card.STOP_MANY in running
    assert "station 29" not in running
    assert page_reading.faults(text) == []


@pytest.mark.parametrize("inches", [False, True])
def test_every_step_has_its_numbers_and_blank_boxes(inches):
    shown = plan("shown")
    boxes = [
        item for item in body("shown", inches).iter(f"{HTML}div") if item.get("class") == "step"
    ]
    assert len(boxes) == len(shown.steps)
    for step, box in zip(shown.steps, boxes, strict=True):
        rows = page_reading.rows(box)
        assert rows[1][0] == numbers.pressure(step.pressure, inches)
        assert rows[1][1] == numbers.pressure(step.gauge_reading, inches)
        assert rows[1][4] == numbers.litres(step.water_in.likely)
        assert rows[3] == [""] * len(Card.STEP_READ)
        for item, row in zip(step.stations, rows[5:], strict=True):
            sizes = (item.circumference.low, item.circumference.likely, item.circumference.high)
            wanted = [numbers.bare(numbers.circumference(size, inches)) for size in sizes]
            assert row[:4] == [item.name, *wanted]
            assert row[5] == numbers.bare(numbers.circumference(item.stop_above, inches))
            assert row[6:] == ["", "", ""]
        assert (Card.YIELDS in page_reading.said(box)) == step.yielding


def test_every_hold_point_can_be_signed_and_none_is_left_out():
    words = page_reading.said(body("shown"))
    rows = [
        row for row in page_reading.rows(body("shown")) if len(row) == len(Card.POINT_HEADS)
    ]
    signed = {row[0]: row for row in rows}
    for number, point in enumerate(plan("shown").hold_points, 1):
        said = words_holdpoints.WORDS[point.code]
        must = " ".join(words_holdpoints.must(point).split())
        assert must in words
        assert said.otherwise in words
        if point.code != "each_step":  # signed in the box of each step
            row = signed[str(number)]
            assert said.title in row[1]
            assert row[2] == f"{Card.YES} {Card.NO}"
            assert row[3:] == ["", ""]


def test_the_closing_list_drains_dries_examines_and_proves():
    words = page_reading.said(body("shown"))
    closing = words[words.index(Card.CLOSING) :]
    for needed in ("Vent open", "dried", "seams and tab welds", "proof and leak tests"):
        assert needed in closing
    assert closing.index("Vent open") < closing.index("proof and leak tests")
    assert Card.REMARKS in closing


def test_a_withheld_plan_has_no_card():
    words = " ".join(page_reading.read(made("withheld")).itertext())
    assert Card.WITHHELD in words
    assert "WITHHELD" in words
    assert not list(body("withheld").iter(f"{HTML}td"))
    shown = plan("shown")
    for value in (shown.forming_pressure.likely, shown.maximum_pressure.low):
        assert f"{value / 1e6:.3f}" not in words
    assert not re.search(r"\d (bar|psi|MPa)\b", words)


def test_an_accepted_block_repeats_its_reason_on_the_card():
    assert "no ice seen, shop foreman, 2026-02-03" in page_reading.said(body("accepted"))


def test_the_card_is_black_on_white():
    style = made("shown").split("<style>")[1].split("</style>")[0]
    colours = set(re.findall(r"#[0-9a-fA-F]{3,8}\b", style))
    # the grey of table lines is black on the card; the blue marks the place of the keyboard
    assert colours <= {"#000", "#fff", "#777", "#0f3d68"}


def test_long_names_are_cut_at_the_head_only():
    name = report_plans.WILD_NAMES[-1]
    running = page_reading.said(body("wild").find(f".//{HTML}header"))
    assert name not in running
    assert name in page_reading.said(body("wild"))


def test_a_station_is_never_lost():
    assert isinstance(plan("wild").job.tank.stations[0], Station)
    words = page_reading.said(next(body("wild").iter(f"{HTML}main")))
    for station in plan("wild").stations:
        assert words.count(station.name) >= len(plan("wild").steps)

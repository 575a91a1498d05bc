"""The picture of a plate: its words, its numbers, the same bytes every time."""

from dataclasses import replace
from html import unescape

import planning_jobs as jobs
import pytest

from stretchform.planning import plating
from stretchform.planning.tank import Arm, ArmKind, PlateHole
from stretchform.report import drawing, drawing_picture, drawing_sheet

MM = 1e-3
PLATES = {
    "ring": jobs.plate(heights=(1.0,)),
    "segment": jobs.plate(heights=(1.0,), tabs=2, span=2.6),
    "full": jobs.plate(
        heights=(1.0,), ring_width=None, holes=(PlateHole(30 * MM, 0.1, 0.7),), tabs=4
    ),
    "sliding": jobs.plate(heights=(1.0,), arm=Arm(ArmKind.SLIDING, 8 * MM, None)),
    "bare": jobs.plate(heights=(1.0,), arm=None, tabs=1),
}


def drawn(name):
    plan = jobs.plan(jobs.job(plates=(replace(PLATES[name], name=name),)))
    return plan, drawing_sheet.sheet(plan, name)


@pytest.mark.parametrize("name", list(PLATES))
def test_every_kind_of_plate_can_be_drawn(name):
    _, sheet = drawn(name)
    svg = unescape(drawing_picture.picture(sheet).svg)
    assert drawing.INVENTED in svg
    for _, value in sheet.facts:
        assert value in svg


def test_dimensions_are_those_of_the_plan():
    plan, sheet = drawn("ring")
    result = plating.judged(plan.plates)
    svg = unescape(drawing_picture.picture(sheet).svg)
    for words in (
        f"arm {1e3 * result.arm_length:.2f}",
        f"depth {1e3 * result.arm_depth:.2f}",
        f"slot {1e3 * result.slot_width:.2f} wide",
        f"end radius {1e3 * result.slot_end_radius:.2f}",
        f"wall to arm {1e3 * result.stalk:.2f}",
        "diameter 638.00",  # 642 - 2 walls - 2 gaps of 1
        "tab 20.00",
    ):
        assert words in svg, words


def test_a_real_plate_is_not_called_invented():
    _, sheet = drawn("ring")
    svg = drawing_picture.picture(replace(sheet, example=False)).svg
    assert "INVENTED" not in svg


def test_the_same_plate_gives_the_same_picture():
    one, two = (drawing_picture.picture(drawn("ring")[1]) for _ in range(2))
    assert one.svg == two.svg
    assert one.png == two.png
    assert one.png.startswith(b"\x89PNG")

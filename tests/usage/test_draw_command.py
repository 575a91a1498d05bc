"""stretchform draw as a person runs it: files, refusals, and what is never written."""

import os
import re

import pytest
from command_runs import BOAT, edited, run

from stretchform.report import drawing

FILES = ["ring-r12.dxf", "ring.dxf", "ring.png", "ring.svg"]
ARM = 'arm = { kind = "single", depth = "7 mm" }'


def draw(job, folder, *more):
    return run("draw", job, "--plate", "ring", "--to", folder, *more)


def test_a_plate_is_drawn_as_planned(tmp_path):
    result = draw(BOAT, tmp_path / "plates")
    assert (result.code, result.err) == (0, "")
    assert sorted(os.listdir(tmp_path / "plates")) == FILES
    assert "INVENTED EXAMPLE" in result.out
    planned = run("plates", BOAT, "--plate", "ring").out
    for what, row in (
        ("arm clear length", "arm: clear length"),
        ("slot width", "slot: width"),
        ("tab clearance after", "tab clearance after release"),
    ):
        (size,) = re.findall(rf"{re.escape(what)} +(\d+\.\d\d mm)\n", result.out)
        assert re.search(rf"{re.escape(row)} +{re.escape(size)}\n", planned), what
    assert "INVENTED EXAMPLE" in (tmp_path / "plates/ring.svg").read_text(encoding="utf-8")
    found = drawing.read_back((tmp_path / "plates/ring.dxf").read_bytes())
    older = drawing.read_back((tmp_path / "plates/ring-r12.dxf").read_bytes())
    assert len(found) == len(older) == 2


def test_nothing_is_written_over_unless_asked(tmp_path):
    (tmp_path / "ring.svg").write_text("mine")
    result = draw(BOAT, tmp_path)
    assert result.code == 2
    assert "--replace" in result.err
    assert os.listdir(tmp_path) == ["ring.svg"]
    assert (tmp_path / "ring.svg").read_text() == "mine"
    assert draw(BOAT, tmp_path, "--replace", "--kerf", "0.2 mm").code == 0
    assert sorted(os.listdir(tmp_path)) == FILES


REFUSED = [
    pytest.param((ARM, ""), ("tabs = 3", "tabs = 2"), "needs an arm behind each", id="no arms"),
    pytest.param(
        (ARM, 'arm = { kind = "bridge", depth = "7 mm", straight = false }'),
        ("tabs = 3", "tabs = 3"),
        "above about 1 % of growth",
        id="concentric bridge",
    ),
    pytest.param(
        (ARM, 'arm = { kind = "bridge", depth = "7 mm" }\nannealed = false'),
        ("tabs = 3", "tabs = 3"),
        "use annealed plate",
        id="cold-worked bridge",
    ),
    pytest.param(
        (ARM, 'arm = { kind = "single", depth = "7 mm", hand = "mixed" }'),
        ("tabs = 3", "tabs = 3"),
        "hold each other like a bridge",
        id="mixed hand",
    ),
    pytest.param(
        (ARM, 'arm = { kind = "single", depth = "7 mm", length = "30 mm" }'),
        ("tabs = 3", "tabs = 3"),
        "root strain fails",
        id="too short an arm",
    ),
]


@pytest.mark.parametrize(("arm", "tabs", "reason"), REFUSED)
def test_a_plate_that_must_not_be_built_is_not_drawn(tmp_path, arm, tabs, reason):
    folder = tmp_path / "out"
    result = draw(edited(BOAT, tmp_path, arm, tabs), folder)
    assert result.code == 3
    assert reason in " ".join(result.err.split())
    assert re.search(r"force of one tab on the wall would be \d[\d.]* k?N", result.err)
    assert "try: " in result.err
    assert not folder.exists()


def test_a_withheld_plan_is_not_drawn(tmp_path):
    cold = edited(BOAT, tmp_path, ('temperature = "16 °C"', 'temperature = "3 °C"'))
    result = draw(cold, tmp_path / "out")
    assert result.code == 3
    assert "withheld" in result.err
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--kerf", "0,2 mm"), "decimal comma"),
        (("--kerf", "9 mm"), "not within 0 to 5 mm"),
        (("--kerf", "0.2"), "unit"),
    ],
)
def test_a_strange_width_of_cut_is_refused(tmp_path, more, words):
    result = draw(BOAT, tmp_path / "out", *more)
    assert result.code == 2
    assert words in result.err
    assert not (tmp_path / "out").exists()


def test_an_unknown_row_is_refused_with_the_known_ones(tmp_path):
    result = run("draw", BOAT, "--plate", "disc", "--to", tmp_path / "out")
    assert result.code == 2
    assert "there are: ring" in result.err


def test_plates_near_the_heads_of_the_example_travel_less():
    lines = run("plates", BOAT).out.split("\n")
    rows = [line.split() for line in lines if re.match(r"\d+\.0 +\d", line)]
    travel = {float(row[0]): float(row[1]) for row in rows}
    assert len(travel) == 10
    middle = max(travel.values())
    assert travel[100.0] < 0.75 * middle
    assert travel[1900.0] < 0.85 * middle
    assert travel[300.0] < travel[700.0]


def test_plates_of_one_name_show_other_arms_and_slosh():
    text = run("plates", BOAT, "--plate", "ring").out
    assert "Arms for ring" in text
    assert "Proposed" in text
    assert "Slosh of the upright tank" in text
    assert "notches: radius 10.00 mm" in text

"""Keys of a plate beyond its sizes: hand, span, relieved tabs, sheet, notches, holes."""

from math import pi
from pathlib import Path

import pytest

from stretchform.errors import StretchformError
from stretchform.files.job import read_job
from stretchform.planning.tank import Hand

BOAT = Path(__file__).parents[3] / "examples/survey-boat-deck-tank.toml"
ARM = 'arm = { kind = "single", depth = "7 mm" }'


def job(folder, *changes):
    text = BOAT.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return read_job(path)


def test_left_out_keys_mean_the_usual_plate(tmp_path):
    (plate,) = job(tmp_path).tank.plates
    assert plate.span == 2.0 * pi
    assert plate.relieved is None
    assert (plate.annealed, plate.notches, plate.holes) == (True, True, ())
    assert plate.arm.hand is Hand.CLOCKWISE


def test_written_keys_are_read(tmp_path):
    more = """
span = "90 deg"
relieved = 2
annealed = false
notches = false
hole = [{ diameter = "20 mm", from_centre = "280 mm", angle = "30 deg" }]
"""
    arm = ARM.replace(" }", ', hand = "mixed" }')
    (plate,) = job(tmp_path, (ARM, arm + more)).tank.plates
    assert plate.span == pytest.approx(pi / 2)
    assert (plate.relieved, plate.annealed, plate.notches) == (2, False, False)
    assert plate.arm.hand is Hand.MIXED
    (hole,) = plate.holes
    assert (hole.diameter, hole.from_centre) == pytest.approx((0.02, 0.28))
    assert hole.angle == pytest.approx(pi / 6)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        (ARM, ARM + "\nrelieved = 4", "more than the plate's 3 tabs"),
        (ARM, "relieved = 1", "a plate without arms relieves no tab"),
        (ARM, ARM.replace(" }", ', hand = "left" }'), "not one of: clockwise"),
        (ARM, ARM + '\nspan = "400 deg"', "outside 10 deg to 360 deg"),
        (
            ARM,
            ARM + '\nhole = [{ diameter = "20 mm", from_centre = "310 mm" }]',
            "outside the plate",
        ),
    ],
)
def test_a_strange_key_is_refused_with_a_line_that_works(tmp_path, old, new, words):
    with pytest.raises(StretchformError) as caught:
        job(tmp_path, (old, new))
    assert words in str(caught.value)
    assert "try:" in str(caught.value)

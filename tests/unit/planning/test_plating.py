"""Rows of plates: one arm for all, the beam for the hardest, notches in the attitude."""

from dataclasses import replace

import planning_jobs as jobs
import pytest

from stretchform.planning import plating
from stretchform.planning.tank import Arm, ArmKind, Attitude, Hand

MM = 1e-3


def plates_of(*rows, **fields):
    return jobs.plan(jobs.job(plates=rows, **fields)).plates


def arm(kind=ArmKind.SINGLE, depth=7 * MM, **fields):
    return Arm(kind, depth, **{"length": None, **fields})


def test_plates_of_one_row_have_one_arm():
    pair = [jobs.course(), jobs.course("upper", wall=2.2e-3)]
    found = plates_of(jobs.plate(), courses=pair)
    assert found[1].result.travel < found[0].result.travel
    assert found[1].result.arm_length == found[0].result.arm_length
    assert found[1].result.root_strain < found[0].result.root_strain


def test_the_hardest_of_a_row_is_solved_by_the_beam():
    found = plates_of(jobs.plate())
    worst = plating.hardest(found)
    assert worst.exact is not None
    assert worst.exact.method == "beam"
    assert worst.exact.arm_length == worst.result.arm_length
    assert sum(one.exact is not None for one in found) == 1


def test_hardest_is_the_worst_result_then_the_longest_travel():
    ordinary = plates_of(jobs.plate())[0]
    refused = replace(ordinary, result=replace(ordinary.result, refused=("unrelieved-tabs",)))
    further = replace(ordinary, result=replace(ordinary.result, travel=0.1))
    assert plating.hardest([ordinary, refused, further]) is refused
    assert plating.hardest([ordinary, further]) is further


def test_judged_is_the_beam_where_there_is_one():
    plate = plating.hardest(plates_of(jobs.plate()))
    assert plating.judged([plate]) is plate.exact
    assert plating.judged([replace(plate, exact=None)]) is plate.result


def test_failing_names_rows_that_must_not_be_built():
    bare = jobs.plate("bare", heights=(1.2,), arm=None, tabs=2)
    assert plating.failing(plates_of(jobs.plate(), bare)) == ("bare",)


REFUSALS = [
    pytest.param({"arm": None, "tabs": 2}, "unrelieved-tabs", 15e3, id="two opposite tabs"),
    pytest.param(
        {"arm": arm(ArmKind.BRIDGE, straight=False)}, "concentric-bridge", 1e3, id="concentric"
    ),
    pytest.param(
        {"arm": arm(ArmKind.BRIDGE), "annealed": False},
        "bridge-in-cold-worked-plate",
        1e3,
        id="cold-worked",
    ),
    pytest.param({"arm": arm(hand=Hand.MIXED)}, "arms-of-mixed-hand", 0.5e3, id="mixed hand"),
    pytest.param({"arm": arm(), "relieved": 2}, "unrelieved-tabs", 0.1e3, id="one tab held"),
]


@pytest.mark.parametrize(("fields", "code", "force"), REFUSALS)
def test_what_must_not_be_built_is_refused_with_its_force(fields, code, force):
    (plate,) = plates_of(jobs.plate(heights=(1.0,), **fields))
    result = plating.judged([plate])
    assert code in result.refused
    assert not result.passes
    assert result.force > force  # the order of the force, see the verification of the arms


def test_mixed_hand_is_treated_as_a_bridge():
    (mixed,) = plates_of(jobs.plate(heights=(1.0,), arm=arm(hand=Hand.MIXED)))
    (alike,) = plates_of(jobs.plate(heights=(1.0,), arm=arm()))
    assert mixed.result.kind == "bridge"
    assert mixed.result.force > 2.0 * alike.result.force


@pytest.mark.parametrize(
    ("attitude", "level"), [(Attitude.STANDING, True), (Attitude.LYING, False)]
)
def test_notches_say_whether_a_film_of_air_stays(attitude, level):
    plate = plates_of(jobs.plate(), attitude=attitude)[0]
    assert plate.notches.level is level
    assert (plate.notches.film > 0.0) is level
    assert plate.notches.vent is not None
    assert plate.area == pytest.approx(0.1094, rel=0.02)  # pi (0.319² - 0.259²)


@pytest.mark.parametrize("fields", [{"notches": False}, {"span": 2.0, "tabs": 2}])
def test_no_notch_where_none_is_wanted_or_needed(fields):
    assert plates_of(jobs.plate(**fields))[0].notches is None


def test_hand_of_a_plate_is_a_sign():
    assert plating.hand_of(jobs.plate(arm=arm(hand=Hand.ANTICLOCKWISE))) == -1
    assert plating.hand_of(jobs.plate()) == 1


def test_plates_near_a_head_travel_less_than_those_in_the_middle():
    """The whole tank holds its wall back at the ends."""
    from stretchform.planning.build import build

    row = jobs.plate(heights=(0.08, 0.3, 1.5, 2.75, 2.97))
    found = build(jobs.job(plates=(row,)), jobs.JUDGED).plates
    travels = [float(one.result.travel) for one in found]
    assert travels[0] < 0.8 * travels[2]
    assert travels[4] < 0.8 * travels[2]
    assert travels[0] < travels[1] <= 1.02 * travels[2]

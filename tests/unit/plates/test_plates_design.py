"""One plate sized and checked: what passes, what is refused and why."""

from dataclasses import replace
from math import isinf

import pytest

from stretchform.errors import InputError
from stretchform.plates import case as codes
from stretchform.plates.arm_state import arm_state, treated_kind
from stretchform.plates.case import PlateCase, Slot
from stretchform.plates.design import size, travels
from stretchform.plates.review import across, foot_height, foot_of
from stretchform.steel.curve import Ludwik, Voce

STEEL = Ludwik(230e6, 1256e6, 0.66)  # invented
RING = PlateCase(
    kind="single",
    radius=0.3515,
    wall=3e-3,
    growth_under_pressure=0.0518,
    springback=0.0018,
    pressure=3.3e6,
    thickness=1.5e-3,
    depth=7e-3,
    length=None,
    tabs=3,
    clearance=3e-3,
    tab_length=20e-3,
    curve=STEEL,
    ring_width=60e-3,
)


def value(result, name):
    return next(check for check in result.checks if check.name == name)


def test_a_ring_with_three_single_arms_passes():
    result = size(RING)
    assert result.passes
    assert result.root_strain <= 0.15
    assert result.arm_length * 1e3 == pytest.approx(round(result.arm_length * 1e3), abs=1e-9)
    assert 0.0 <= result.arm_length - result.needed_length < 1e-3
    assert result.slot_length == pytest.approx(result.arm_length + RING.tab_length)
    assert {check.result for check in result.checks} <= {"ok", "care"}


def test_clearances_before_after_and_chilled():
    result = size(RING)
    assert result.clearance_before == 3e-3
    assert result.clearance_after == pytest.approx(3e-3 + 0.05 * 0.353, rel=0.015)  # wall thins
    cold = 0.0028 * (0.350 + result.clearance_after - 3e-3)
    assert result.clearance_chilled == pytest.approx(result.clearance_after - cold)


def test_arm_is_sized_for_a_tenth_more_than_the_forecast_travel():
    result = size(RING)
    assert result.travel == pytest.approx(1.1 * result.travel_under_pressure)


def test_two_tabs_need_longer_arms_than_three():
    assert size(replace(RING, tabs=2)).arm_length > size(RING).arm_length


def test_one_relieved_tab_of_two_takes_the_whole_diameter():
    result = size(replace(RING, tabs=2, relieved=1))
    assert result.travel == pytest.approx(2.2 * result.travel_under_pressure)
    assert not result.refused


def test_a_plate_on_one_tab_needs_no_arm():
    result = size(replace(RING, kind="none", tabs=1))
    assert (result.refused, result.force) == ((), 0.0)


def test_unrelieved_plate_is_refused_with_its_force():
    result = size(replace(RING, kind="none", tabs=2))
    assert result.refused == (codes.NOT_RELIEVED,)
    assert result.governs == codes.NOT_RELIEVED
    assert result.force == pytest.approx(36e3, rel=0.02)  # 60 x 1.5 mm at about 400 MPa
    assert value(result, "restraint of the wall").result == "fails"


def test_one_stiff_tab_of_three_is_refused():
    assert size(replace(RING, relieved=2)).refused == (codes.NOT_RELIEVED,)


def test_concentric_bridge_is_refused_above_one_per_cent():
    bridge = replace(RING, kind="bridge", straight=False)
    high = size(bridge)
    low = size(replace(bridge, growth_under_pressure=0.008, springback=0.0015))
    assert codes.CONCENTRIC_BRIDGE in high.refused
    assert isinf(high.arm_length)
    assert low.refused == ()


def test_given_length_of_a_concentric_bridge_shows_its_strain_and_force():
    result = size(replace(RING, kind="bridge", straight=False, length=0.095))
    assert codes.CONCENTRIC_BRIDGE in result.refused
    assert result.root_strain > 0.40
    assert result.force > 1000.0


def test_bridge_in_cold_worked_plate_is_refused():
    result = size(replace(RING, kind="bridge", annealed=False))
    assert result.refused == (codes.COLD_WORKED_BRIDGE,)


def test_arms_of_mixed_hand_count_as_a_bridge():
    result = size(replace(RING, same_hand=False))
    assert result.refused == (codes.MIXED_HAND,)
    assert result.kind == "bridge"
    assert result.force > 2 * size(RING).force
    assert result.rotation == 0.0


def test_short_given_arm_fails_its_strain():
    result = size(replace(RING, length=0.060))
    assert value(result, "root strain").result == "fails"
    assert result.governs == "root strain"
    assert not result.passes


def test_narrow_ring_fails_its_ligament():
    result = size(replace(RING, ring_width=25e-3))
    assert value(result, "ligament").result == "fails"


def test_sharp_slot_end_asks_for_a_longer_arm():
    sharp = size(replace(RING, slot_end_radius=1.5e-3))
    assert sharp.arm_length > size(RING).arm_length
    assert value(sharp, "slot end radius").result == "fails"


def test_sliding_tab_keeps_its_overlap():
    result = size(replace(RING, kind="sliding"))
    assert result.force == 0.0
    assert result.passes
    short = size(replace(RING, kind="sliding", length=0.018))
    assert value(short, "overlap after growth").result == "fails"


def test_folded_arm_is_shorter_and_holds_the_plate_still():
    folded = size(replace(RING, kind="folded", limbs=2))
    assert folded.arm_length < size(RING).arm_length
    assert folded.rotation == 0.0


def test_beam_and_formula_side_by_side():
    closed, solved = size(RING), size(RING, exact=True)
    assert (closed.method, solved.method) == ("formula", "beam")
    assert solved.passes
    assert solved.root_strain <= 0.15
    assert 0.8 * closed.arm_length < solved.arm_length <= closed.arm_length  # formula is safe
    assert 0.0 < solved.released_force < solved.force
    longer = size(replace(RING, length=solved.arm_length - 1e-3), exact=True)
    assert longer.root_strain > 0.15  # one millimetre less no longer passes


def test_given_length_is_kept_by_the_beam():
    solved = size(replace(RING, length=0.090), exact=True)
    assert solved.arm_length == 0.090
    assert solved.root_strain < size(replace(RING, length=0.090)).root_strain


def test_bridge_by_the_beam_pulls_with_both_halves():
    bridge = replace(RING, kind="bridge", ring_width=None, length=0.130)
    closed, solved = size(bridge), size(bridge, exact=True)
    assert solved.force == pytest.approx(closed.force, rel=0.25)  # formula is 0 to 25 % high
    assert solved.tension > 1000.0


def test_an_arm_that_necks_is_refused():
    soft = Voce(600e6, 30e6, 20.0)  # invented, cold worked
    short = replace(RING, kind="bridge", curve=soft, length=0.060, depth=6e-3)
    result = size(short, exact=True)
    assert codes.NECKS in result.refused
    assert value(result, "hardening of the plate").result == "care"


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"depth": 14e-3}, "arm depth"),
        ({"depth": 2.5e-3}, "arm depth, least"),
        ({"wall": 0.5e-3, "pressure": 0.5e6}, "restraint of the wall"),
        ({"wall": 0.5e-3, "pressure": 0.5e6}, "dent of the wall"),
        ({"wall": 0.4e-3, "pressure": 0.4e6}, "local stress of the wall"),
        ({"tab_length": 70e-3}, "length of the tab weld"),
        ({"tab_length": 16e-3, "tab_height": 40e-3}, "growth of the tab weld"),
        ({"weld_throat": 0.2e-3}, "tab weld"),
        ({"tab_length": 13e-3}, "neck of the tab"),
        ({"thickness": 0.5e-3, "depth": 5e-3}, "tipping of the arm"),
        ({"thickness": 0.5e-3, "ring_width": 0.2}, "load along the axis, handled"),
        ({"ring_width": None}, "load along the axis, forming"),
        ({"growth_under_pressure": 0.14, "length": 0.1}, "arm slope"),
        ({"tabs": 20}, "slot along the rim"),
        ({"clearance": 0.2e-3}, "tab clearance before"),
    ],
)
def test_each_check_can_speak_up(change, name):
    assert value(size(RING), name).result == "ok"
    assert value(size(replace(RING, **change)), name).result != "ok"


def test_state_of_the_arm_is_the_one_in_the_result():
    gaps = travels(RING)
    closed = arm_state(RING, gaps, 3.5e-3, exact=False)
    solved = arm_state(RING, gaps, 3.5e-3, exact=True)
    assert closed.force == size(RING).force
    assert solved.force == size(RING, exact=True).force
    assert gaps.arm == size(RING).travel


def test_arms_of_mixed_hand_are_treated_as_a_bridge():
    assert treated_kind(RING) == "single"
    assert treated_kind(replace(RING, same_hand=False)) == "bridge"
    assert treated_kind(replace(RING, same_hand=False, tabs=1)) == "single"


def test_width_across_the_limbs():
    slot = Slot(0.1, 2.5e-3, 4e-3)
    assert across(RING, slot) == pytest.approx(9.5e-3)
    folded = replace(RING, kind="folded", limbs=3)
    assert across(folded, slot) == pytest.approx(3 * 7e-3 + 2 * 8e-3 + 2.5e-3)


def test_foot_of_a_tab_is_low_unless_its_height_is_given():
    state = arm_state(RING, travels(RING), 3.5e-3, exact=False)
    assert foot_height(RING, state) == pytest.approx(5 * RING.thickness)
    assert foot_of(RING, 2e-3) == 2e-3
    assert foot_height(replace(RING, tab_height=4e-3), state) == 4e-3
    assert foot_height(replace(RING, tab_height=1.0), state) == size(RING).stalk


def test_ledge_takes_the_load_along_the_axis():
    names = {check.name for check in size(replace(RING, ledge=True)).checks}
    assert not any(name.startswith("load along the axis") for name in names)


def test_narrow_open_area_of_a_full_plate_loads_it_while_filling():
    full = replace(RING, ring_width=None, fill_speed=0.02)
    tight = value(size(replace(full, open_share=0.01)), "load along the axis, forming")
    wide = value(size(replace(full, open_share=0.2)), "load along the axis, forming")
    assert tight.value > wide.value


def test_foot_of_the_tab_is_low_and_stalk_holds_the_straight_arm_off():
    straight, concentric = size(RING), size(replace(RING, straight=False))
    reach = straight.arm_length + 0.7 * RING.tab_length / 2
    shallow = 3e-3 + reach**2 / (2 * RING.radius)
    assert straight.stalk == pytest.approx(shallow, rel=0.03)  # exact rise of the arc
    assert concentric.stalk == pytest.approx(3e-3)
    assert concentric.rotation > straight.rotation
    high = size(replace(RING, tab_height=0.05))
    low = value(straight, "growth of the tab weld").value
    assert value(high, "growth of the tab weld").value > low


def test_what_is_not_checked_is_listed():
    assert set(size(RING).unchecked) >= {"arm-fatigue", "weld-quality", "crevices"}


@pytest.mark.parametrize(
    "change",
    [
        {"kind": "spring"},
        {"radius": 0.0},
        {"thickness": float("nan")},
        {"tabs": 0},
        {"springback": 0.06},
        {"length": -0.1},
    ],
)
def test_senseless_input_is_refused(change):
    with pytest.raises(InputError):
        size(replace(RING, **change))

"""The table over kind and depth and the choice from it."""

from dataclasses import replace

import pytest

from stretchform.plates import case as codes
from stretchform.plates.case import PlateCase
from stretchform.plates.design import size
from stretchform.plates.options import depths, options, propose, space
from stretchform.steel.curve import Ludwik

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


def test_depths_follow_the_plate():
    assert depths(1.5e-3) == pytest.approx((5e-3, 6e-3, 7e-3, 8e-3, 9e-3, 10e-3, 11e-3, 12e-3))
    assert depths(0.5e-3) == pytest.approx((4e-3,))
    assert len(depths(4e-3)) <= 12


def test_space_of_an_arm_by_hand():
    result = size(RING)
    rise = result.stalk - 3e-3
    by_hand = (result.arm_length + 20e-3) * (rise + 7e-3 + result.slot_width)
    assert space(RING, result) == pytest.approx(by_hand)


def test_table_holds_every_kind_and_passing_options_come_first():
    table = options(RING)
    assert {option.case.kind for option in table} == {"single", "folded", "bridge", "sliding"}
    passing = [option.result.passes for option in table]
    assert passing == sorted(passing, reverse=True)
    assert any(passing) and not all(passing)


def test_proposal_passes_by_the_beam_and_takes_least_space():
    found = propose(RING)
    assert found.chosen is not None
    assert found.chosen.result.method == "beam"
    assert found.chosen.result.passes
    assert found.chosen.case.kind in ("single", "folded", "bridge")
    whole = size(RING, exact=True)
    assert found.chosen.space <= space(RING, whole)


def test_every_option_that_does_not_pass_has_a_reason():
    found = propose(RING)
    failing = [option for option in found.options if not option.result.passes]
    assert len(found.reasons) == len(failing) > 0
    names = {check.name for option in failing for check in option.result.checks}
    assert all(reason in names for _, _, reason in found.reasons)


def test_concentric_bridges_are_refused_with_their_code():
    found = propose(replace(RING, straight=False))
    refused = {reason for kind, _, reason in found.reasons if kind == "bridge"}
    assert refused == {codes.CONCENTRIC_BRIDGE}


def test_kind_can_be_fixed_and_nothing_is_proposed_where_nothing_passes():
    narrow = replace(RING, ring_width=12e-3)
    assert propose(narrow, kinds=("bridge",)).chosen is None
    fallback = propose(narrow).chosen
    assert fallback is not None
    assert fallback.case.kind == "sliding"


def test_a_thin_wall_gets_longer_and_softer_arms():
    thin = replace(RING, wall=2e-3, pressure=2e6, thickness=3e-3, ring_width=None, ledge=True)
    shortest = size(replace(thin, depth=9e-3), exact=True)
    assert value(shortest, "dent of the wall").result == "fails"
    found = propose(thin, kinds=("single",)).chosen
    assert found is not None
    assert found.result.arm_length > shortest.arm_length

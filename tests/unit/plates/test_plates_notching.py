"""Room for notches beside tabs, arms and slots."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from stretchform.errors import NoSolution
from stretchform.plates.case import PlateCase
from stretchform.plates.design import size
from stretchform.plates.notching import place, taken
from stretchform.plates.outline import Notch, draw, tab_angles
from stretchform.steel.curve import Ludwik

MM = 1e-3
RING = PlateCase(
    kind="single",
    radius=0.3515,
    wall=3 * MM,
    growth_under_pressure=0.0518,
    springback=0.0018,
    pressure=3.3e6,
    thickness=1.5 * MM,
    depth=7 * MM,
    length=None,
    tabs=3,
    clearance=3 * MM,
    tab_length=20 * MM,
    curve=Ludwik(230e6, 1256e6, 0.66),  # invented
    ring_width=60 * MM,
)
KINDS = [
    replace(RING),
    replace(RING, kind="folded", limbs=2),
    replace(RING, kind="bridge", length=110 * MM, tabs=2),
    replace(RING, kind="sliding"),
    replace(RING, straight=False),
    replace(RING, kind="none", tabs=1),
]


def test_tab_angles_of_a_ring_start_at_its_top():
    assert tab_angles(4, 2.0 * pi) == pytest.approx([0.0, pi / 2, pi, 1.5 * pi])


def test_tab_angles_of_a_segment_lie_evenly_inside_it():
    assert tab_angles(2, 2.0) == pytest.approx([-0.5, 0.5])


@pytest.mark.parametrize("case", KINDS, ids=lambda case: f"{case.kind} {case.straight}")
@pytest.mark.parametrize("hand", [1, -1])
def test_place_keeps_both_notches_off_every_arm(case, hand):
    """The drawing itself refuses a notch that meets a tab, an arm or a slot."""
    result = size(case)
    angles = place(case, result, 10 * MM, hand)
    assert angles is not None
    assert (angles[1] - angles[0]) % (2 * pi) == pytest.approx(pi)
    draw(case, result, notches=tuple(Notch(one, 10 * MM) for one in angles), hand=hand)
    rim = case.radius - case.wall / 2 - case.clearance
    for low, high in taken(case, result, hand):
        for angle in angles:
            off = abs((angle - (low + high) / 2 + pi) % (2 * pi) - pi) - (high - low) / 2
            assert off * rim > 9.9 * MM  # the notch itself: its half chord


def test_taken_turns_round_with_the_hand():
    low, high = taken(RING, size(RING))[0]
    other = taken(RING, size(RING), -1)[0]
    assert other == pytest.approx((-high, -low))
    assert high > -low > 0  # the arm points clockwise


def test_place_gives_up_where_arms_fill_the_rim():
    crowded = replace(RING, kind="bridge", length=110 * MM, tabs=5)
    assert place(crowded, size(crowded), 10 * MM) is None


def test_a_segment_needs_no_notch():
    part = replace(RING, tabs=2, span=2.0)
    assert place(part, size(part), 10 * MM) is None


def test_a_segment_weighs_its_part_of_a_ring_and_has_its_part_of_the_rim():
    part = replace(RING, tabs=2, span=2.0)
    whole = {check.name: check for check in size(replace(RING, tabs=2)).checks}
    of_part = {check.name: check for check in size(part).checks}
    load, rim = "load along the axis, handled", "slot along the rim"
    assert of_part[load].value == pytest.approx(whole[load].value * 2.0 / (2 * pi))
    assert of_part[rim].limit == pytest.approx(whole[rim].limit * 2.0 / (2 * pi))


def test_an_arm_that_was_not_found_takes_no_room():
    result = replace(size(RING), arm_length=np.inf)
    with pytest.raises(NoSolution, match="no arm passes"):
        taken(RING, result)


def test_only_the_first_of_two_tabs_is_drawn_relieved():
    pair = replace(RING, tabs=2, relieved=1, kind="folded", limbs=3, ring_width=0.12)
    result = size(pair)
    one = draw(pair, result).contours[0]
    both = draw(replace(pair, relieved=2), result).contours[0]
    assert len(one.vertices) < len(both.vertices)

"""Drawn plates measured with shapely: arms, slots, tabs, notches, and that all is cuttable."""

from dataclasses import replace
from math import atan, cos, hypot, inf, pi, sin

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from stretchform.errors import InputError, NoSolution
from stretchform.plates import contour, outline
from stretchform.plates.case import PlateCase
from stretchform.plates.design import size
from stretchform.plates.outline import Hole, Notch, draw, tab_shape
from stretchform.plates.tab_path import TabShape, trace
from stretchform.steel.curve import Ludwik

MM = 1e-3
SAG = 1e-8
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
PLATES = [
    pytest.param(RING, id="single"),
    pytest.param(replace(RING, straight=False), id="single, concentric"),
    pytest.param(replace(RING, kind="bridge", length=120 * MM), id="bridge"),
    pytest.param(
        replace(RING, kind="bridge", straight=False, length=100 * MM), id="bridge, concentric"
    ),
    pytest.param(replace(RING, kind="folded", limbs=2), id="folded twice"),
    pytest.param(
        replace(RING, kind="folded", limbs=2, straight=False), id="folded, concentric"
    ),
    pytest.param(
        replace(RING, kind="folded", limbs=3, ring_width=0.09), id="folded three times"
    ),
    pytest.param(
        replace(RING, kind="folded", limbs=4, ring_width=0.12), id="folded four times"
    ),
    pytest.param(replace(RING, kind="sliding"), id="sliding"),
    pytest.param(replace(RING, kind="none", tabs=1), id="one tab of the plate itself"),
    pytest.param(replace(RING, ring_width=None), id="full"),
]


def drawn(case, **how):
    return draw(case, size(case), **how)


def polygon(drawing, sag=SAG):
    shell = Polygon(contour.points(drawing.contours[0], sag))
    return shell.difference(
        unary_union([Polygon(contour.points(each, sag)) for each in drawing.contours[1:]])
    )


def radii(drawing):
    """Radius, turn and centre of every arc."""
    found = []
    for each in drawing.contours:
        for start, end in contour.pieces(each):
            if start.bulge:
                angle = 4 * atan(start.bulge)
                chord = hypot(end.x - start.x, end.y - start.y)
                found.append((abs(chord / 2 / sin(angle / 2)), angle))
    return np.array(found)


@pytest.mark.parametrize("case", PLATES)
@pytest.mark.parametrize("hand", [1, -1])
def test_every_contour_is_valid_turns_the_right_way_and_lies_inside_the_tank(case, hand):
    drawing = drawn(case, hand=hand)
    assert not drawing.contours[0].opening
    for each in drawing.contours:
        shape = Polygon(contour.points(each, 1e-5))
        assert shape.is_valid
        assert (contour.signed_area(each) < 0) is each.opening
    whole = polygon(drawing, 1e-6)
    assert whole.geom_type == "Polygon"  # one piece: no arm is cut off
    reach = np.max(np.hypot(*np.array(whole.exterior.coords).T))
    assert reach <= drawing.wall_before * (1 + 1e-12)


@pytest.mark.parametrize("case", PLATES)
def test_areas_and_lengths_agree_with_a_fine_polygon(case):
    for each in drawn(case).contours:
        shape = Polygon(contour.points(each, SAG))
        cut = contour.length(each)
        assert cut == pytest.approx(shape.length, abs=0.01 * MM)  # asked
        area = abs(contour.signed_area(each))
        assert area == pytest.approx(shape.area, abs=0.01 * MM * cut)


@pytest.mark.parametrize("case", PLATES)
def test_both_hands_have_the_same_area(case):
    one, other = drawn(case), drawn(case, hand=-1)
    areas = [[contour.signed_area(each) for each in d.contours] for d in (one, other)]
    assert areas[0] == pytest.approx(areas[1], rel=1e-12)


@pytest.mark.parametrize("hand", [1, -1])
def test_drawn_straight_arm_is_the_checked_one(hand):
    result, drawing = size(RING), drawn(RING, hand=hand)
    whole = polygon(drawing)
    shape = tab_shape(RING, result)
    neck = hand * shape.neck / 2
    for share in (0.15, 0.5, 0.95):
        x = neck + hand * share * result.arm_length
        cut = LineString([(x, 0.30), (x, 0.36)]).intersection(whole)
        outermost = max(getattr(cut, "geoms", [cut]), key=lambda part: part.bounds[3])
        assert outermost.length == pytest.approx(RING.depth, abs=1e-6)
        gap = cut.convex_hull.length - cut.length
        assert gap >= result.slot_width * (1 - 1e-6)
    root = neck + hand * result.arm_length
    level = drawing.wall_before - result.stalk
    end = Point(root, level - RING.depth)
    assert whole.exterior.distance(end) < 1e-9  # the round end touches the arm at the root
    rim = drawing.wall_before - RING.clearance
    assert hypot(root, level) == pytest.approx(rim, rel=1e-9)  # the outer edge meets the rim


def test_drawn_concentric_arm_is_the_checked_one():
    case = replace(RING, straight=False)
    result, drawing = size(case), drawn(case)
    whole, rim = polygon(drawing), drawing.wall_before - RING.clearance
    middle = rim - case.depth / 2
    shape = tab_shape(case, result)
    for share in (0.2, 0.5, 0.95):
        turn = (shape.neck / 2 + share * result.arm_length) / middle
        line = LineString([(r * sin(turn), r * cos(turn)) for r in (0.30, 0.36)])
        cut = line.intersection(whole)
        outermost = max(cut.geoms, key=lambda part: np.max(np.hypot(*np.array(part.coords).T)))
        assert outermost.length == pytest.approx(case.depth, abs=1e-6)
    turn = (shape.neck / 2 + result.arm_length) / middle
    end = Point((rim - case.depth) * sin(turn), (rim - case.depth) * cos(turn))
    assert whole.exterior.distance(end) < 1e-8


@pytest.mark.parametrize("case", [RING, replace(RING, kind="bridge", length=0.12)])
def test_slots_end_in_the_checked_radius(case):
    result = size(case)
    found = radii(drawn(case))
    ends = found[np.abs(found[:, 1]) > pi]  # more than half a turn: only round slot ends
    assert len(ends) == case.tabs * (2 if case.kind == "bridge" else 1)
    assert ends[:, 0] == pytest.approx(result.slot_end_radius, rel=1e-9)


@pytest.mark.parametrize("limbs", [2, 3, 4])
def test_a_folded_arm_has_its_folds_and_its_developed_length(limbs):
    case = replace(RING, kind="folded", limbs=limbs, ring_width=0.12)
    result = size(case)
    found = radii(drawn(case))
    folds = found[np.isclose(np.abs(found[:, 1]), pi)]
    folds = folds[folds[:, 0] < 0.02]  # not the two halves of the inner circle
    assert len(folds) == case.tabs * (limbs - 1)
    assert folds[:, 0] == pytest.approx(result.slot_end_radius, rel=1e-9)
    whole = polygon(drawn(case), 1e-6)
    x = tab_shape(case, result).neck / 2 + result.arm_length / 2
    cut = LineString([(x, 0.2), (x, 0.36)]).intersection(whole)
    bands = sorted(cut.geoms, key=lambda part: -part.bounds[3])
    assert len(bands) == limbs + 1  # limbs and the ring behind them
    assert [band.length for band in bands[:limbs]] == pytest.approx([case.depth] * limbs)


@pytest.mark.parametrize("case", [RING, replace(RING, kind="bridge", length=0.12)])
def test_every_tab_reaches_the_wall_over_its_length(case):
    drawing = drawn(case)
    wall = pytest.approx(drawing.wall_before, rel=1e-12)
    on_wall = 0
    for start, end in contour.pieces(drawing.contours[0]):
        if start.bulge and hypot(start.x, start.y) == wall and hypot(end.x, end.y) == wall:
            chord = hypot(end.x - start.x, end.y - start.y)
            assert chord == pytest.approx(case.tab_length, rel=1e-9)
            on_wall += 1
    assert on_wall == case.tabs


def test_ring_behind_the_slot_keeps_the_checked_ligament():
    result, drawing = size(RING), drawn(RING)
    left = next(check for check in result.checks if check.name == "ligament").value
    slot_bottom = drawing.wall_before - result.stalk - RING.depth - result.slot_width
    inner = drawing.wall_before - RING.clearance - RING.ring_width
    assert slot_bottom - inner == pytest.approx(left, abs=1e-9)


def test_formed_wall_stands_off_by_the_released_clearance():
    result, drawing = size(RING), drawn(RING)
    gap = drawing.wall_after - (drawing.wall_before - RING.clearance)
    assert gap == pytest.approx(result.clearance_after)


def test_notch_takes_its_bite_and_hole_its_circle():
    plain = polygon(drawn(RING), 1e-7).area
    bite = polygon(drawn(RING, notches=(Notch(pi / 3, 10 * MM),)), 1e-7)
    rim = 0.347
    lens = Point(rim * sin(pi / 3), rim * cos(pi / 3)).buffer(10 * MM, 2000)
    disc = Point(0, 0).buffer(rim, 20000)
    assert plain - bite.area == pytest.approx(
        lens.intersection(disc).area, rel=1e-4
    )  # polygons
    holed = polygon(drawn(RING, holes=(Hole(0.0, -0.31, 12 * MM),)), 1e-7).area
    assert plain - holed == pytest.approx(pi * (6 * MM) ** 2, rel=1e-4)


def test_notch_and_hole_stay_where_they_are_for_either_hand():
    for hand in (1, -1):
        drawing = drawn(
            RING, hand=hand, notches=(Notch(0.9, 0.01),), holes=(Hole(-0.2, 0.24, 0.01),)
        )
        whole = polygon(drawing, 1e-6)
        assert not whole.contains(Point(0.343 * sin(0.9), 0.343 * cos(0.9)))
        assert whole.contains(Point(0.343 * sin(-0.9), 0.343 * cos(-0.9)))
        assert not whole.contains(Point(-0.2, 0.24))


def test_segment_is_bounded_by_its_radial_edges():
    case = replace(RING, tabs=2)
    span = 2.2
    whole = polygon(drawn(case, span=span), 1e-6)
    angles = np.arctan2(*np.array(whole.exterior.coords).T)
    assert np.max(np.abs(angles)) == pytest.approx(span / 2, rel=1e-9)
    full = replace(case, ring_width=None)
    wedge = polygon(drawn(full, span=span), 1e-6)
    assert wedge.distance(Point(0, 0)) == pytest.approx(0.0, abs=1e-12)


def test_pieces_that_overlap_are_refused():
    with pytest.raises(InputError, match="overlap"):
        drawn(replace(RING, tabs=24))
    with pytest.raises(InputError, match="overlap"):
        drawn(RING, notches=(Notch(0.0, 10 * MM),))


def test_a_plate_without_an_arm_that_passes_cannot_be_drawn():
    bridge = replace(RING, kind="bridge", straight=False)
    with pytest.raises(NoSolution):
        drawn(bridge)


def test_shapes_that_cannot_be_are_refused():
    shape = tab_shape(RING, size(RING))
    for change in ({"length": 0.3}, {"rim": 0.36}, {"slot_width": 0.02}):
        with pytest.raises(InputError):
            trace(replace(shape, **change))
    assert isinstance(shape, TabShape)
    assert shape.length < inf


def test_path_of_one_tab_starts_and_ends_on_the_rim():
    shape = tab_shape(RING, size(RING))
    path = trace(shape)
    for end in (path.vertices[0], path.vertices[-1]):
        assert hypot(end.x, end.y) == pytest.approx(shape.rim, rel=1e-12)
    assert path.start < 0.0 < path.end
    assert outline.draw(RING, size(RING)).tab_angles == pytest.approx(
        (0, 2 * pi / 3, 4 * pi / 3)
    )

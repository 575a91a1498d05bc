"""Closed contours of lines and arcs."""

from math import pi

import numpy as np
import pytest
from shapely.geometry import Polygon

from stretchform.plates import contour
from stretchform.plates.contour import Contour, Vertex

SLOT = Contour((Vertex(0, 0), Vertex(4, 0, 1.0), Vertex(4, 2), Vertex(0, 2, 1.0)))  # obround
BITE = Contour((Vertex(0, 0), Vertex(4, 0), Vertex(4, 3, 0.0), Vertex(3, 3, 0.9), Vertex(1, 3)))


def test_a_contour_has_as_many_pieces_as_vertices():
    found = list(contour.pieces(SLOT))
    assert len(found) == 4
    assert found[-1][1] == SLOT.vertices[0]


def test_area_and_length_of_an_obround():
    assert contour.signed_area(SLOT) == pytest.approx(8 + pi)
    assert contour.length(SLOT) == pytest.approx(8 + 2 * pi)


@pytest.mark.parametrize("shape", [SLOT, BITE])
def test_area_and_length_agree_with_a_fine_polygon(shape):
    polygon = Polygon(contour.points(shape, 1e-6))
    assert contour.signed_area(shape) == pytest.approx(polygon.area, rel=1e-5)  # the sag
    assert contour.length(shape) == pytest.approx(polygon.length, rel=1e-5)


def test_polygon_keeps_its_sag():
    corners = contour.points(contour.circle(0, 0, 0.1), 1e-4)
    middles = (corners + np.roll(corners, 1, axis=0)) / 2
    assert np.max(0.1 - np.hypot(*middles.T)) <= 1e-4 * (1 + 1e-9)
    assert np.hypot(*corners.T) == pytest.approx(0.1)


def test_circle_is_an_opening_that_turns_right():
    ring = contour.circle(1, 2, 0.5)
    assert ring.opening
    assert contour.signed_area(ring) == pytest.approx(-pi / 4)
    assert contour.length(ring) == pytest.approx(pi)
    assert contour.signed_area(contour.circle(1, 2, 0.5, opening=False)) > 0


def test_half_a_turn_has_the_bulge_one():
    assert contour.bulge(pi) == pytest.approx(1.0)
    assert contour.bulge(-pi) == pytest.approx(-1.0)


@pytest.mark.parametrize("shape", [SLOT, BITE])
def test_reversing_changes_the_sign_of_the_area_only(shape):
    back = contour.reversed_contour(shape)
    assert contour.signed_area(back) == pytest.approx(-contour.signed_area(shape))
    assert contour.length(back) == pytest.approx(contour.length(shape))


def test_outlines_turn_left_and_openings_right():
    assert contour.signed_area(contour.oriented(contour.reversed_contour(SLOT))) > 0
    assert contour.signed_area(contour.oriented(Contour(SLOT.vertices, True))) < 0


def test_mirror_and_turn_keep_area_and_length():
    for moved in (contour.mirrored(BITE), contour.turned(BITE, 0.7)):
        assert contour.signed_area(moved) == pytest.approx(contour.signed_area(BITE))
        assert contour.length(moved) == pytest.approx(contour.length(BITE))
    quarter = contour.turned(Contour((Vertex(0, 1), Vertex(1, 0), Vertex(0, 0))), pi / 2)
    assert (quarter.vertices[0].x, quarter.vertices[0].y) == pytest.approx((1, 0))
    assert contour.mirrored(BITE).vertices[0].x <= 0

"""Contours moved aside by half a cut, against circles, corners and shapely."""

from math import pi

import numpy as np
import pytest
from shapely.geometry import Polygon

from stretchform.errors import InputError
from stretchform.plates import contour
from stretchform.plates.contour import Contour, Vertex
from stretchform.plates.offset import beside

MM = 1e-3


def square(side=1.0):
    return Contour((Vertex(0, 0), Vertex(side, 0), Vertex(side, side), Vertex(0, side)))


@pytest.mark.parametrize(("opening", "radius"), [(False, 1.1), (True, 0.9)])
def test_beside_a_circle_lies_a_circle(opening, radius):
    moved = beside(contour.circle(0.0, 0.0, 1.0, opening), 0.1)
    assert abs(contour.signed_area(moved)) == pytest.approx(pi * radius**2, rel=1e-12)
    assert moved.opening is opening


def test_outer_corners_become_arcs_about_the_corner():
    moved = beside(square(), 0.1)
    assert contour.signed_area(moved) == pytest.approx(1.0 + 4 * 0.1 + pi * 0.01, rel=1e-12)
    assert contour.length(moved) == pytest.approx(4.0 + 2 * pi * 0.1, rel=1e-12)


def test_inner_corners_are_trimmed():
    opening = contour.oriented(Contour(square().vertices, opening=True))
    moved = beside(opening, 0.1)
    assert contour.signed_area(moved) == pytest.approx(-0.64, rel=1e-12)
    assert len(moved.vertices) == 4


def test_nothing_moves_without_a_cut():
    assert beside(square(), 0.0) == square()


def test_a_notched_rim_agrees_with_shapely():
    """Lines and arcs of both turns, with corners of both kinds."""
    shape = Contour(
        (
            Vertex(0.0, 0.0),
            Vertex(0.2, 0.0, np.tan(pi / 8)),
            Vertex(0.3, 0.1),
            Vertex(0.3, 0.3),
            Vertex(0.2, 0.3, -1.0),
            Vertex(0.1, 0.3),
            Vertex(0.0, 0.3, -0.2),
        )
    )
    moved = beside(shape, 2 * MM)
    ours = Polygon(contour.points(moved, 1e-9))
    theirs = Polygon(contour.points(shape, 1e-9)).buffer(2 * MM, quad_segs=200)
    assert ours.is_valid
    # both polygons leave their arcs by 1e-9 m over some 2 m of contour, shapely's rounds by more
    assert ours.symmetric_difference(theirs).area < 2e-8


@pytest.mark.parametrize(
    ("shape", "words"),
    [
        (contour.circle(0.0, 0.0, 1 * MM), "tighter than the cut"),
        (contour.oriented(Contour(square(3 * MM).vertices, True)), "shorter than the cut"),
    ],
)
def test_a_cut_wider_than_the_contour_allows_is_refused(shape, words):
    with pytest.raises(InputError, match=words):
        beside(shape, 2 * MM)

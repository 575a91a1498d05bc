"""Meshes: sizes where they matter, interpolation, folding of a symmetric tank."""

import numpy as np
import pytest

from stretchform.forming.membrane import Elastic
from stretchform.forming.shell import PLAN, Material, Weight
from stretchform.forming.shell.build import folded, ready
from stretchform.forming.shell.mesh import mesh, positions
from stretchform.shape.meridian import Course, Form, Head, area_and_volume, tank
from stretchform.steel.curve import Swift

CURVE = Swift(1400e6, 0.04, 0.55)
HEAD = Head(Form.ELLIPSOID, 3e-3)
TANK = tank(HEAD, (Course("shell", 1.5, 0.5, 3e-3),), HEAD)


def test_elements_are_smallest_at_the_tangent_lines_and_grow_by_twelve_per_cent():
    grid = mesh(TANK)
    edge = np.sqrt(0.5 * 3e-3)
    at = np.searchsorted(grid.height, TANK.tangent_heights[1])
    assert 0.1 * edge < grid.length[at] < 0.2 * edge
    assert np.max(grid.length[1:] / grid.length[:-1]) < 1.3  # neighbours across a piece
    assert np.max(grid.length[grid.height[1:] > 1.5]) <= 0.04 * 0.5 * (1.0 + 1e-9)


def test_area_of_the_mesh_converges_to_the_area_of_the_tank():
    grid = mesh(TANK)
    area = np.sum(2.0 * np.pi * grid.middle * grid.length)
    assert area == pytest.approx(area_and_volume(TANK)[0], rel=2e-4)  # chords of arcs


def test_joints_of_courses_of_unlike_girth_meet_at_their_mean():
    courses = (Course("a", 1.0, 0.5, 3e-3), Course("b", 1.0, 0.502, 3e-3))
    grid = mesh(tank(HEAD, courses, HEAD))
    joint = np.argmin(np.abs(grid.height - 1.0))
    assert grid.radius[joint] == pytest.approx(0.501, rel=1e-12)
    far = np.argmin(np.abs(grid.height - 0.5))
    assert grid.radius[far] == pytest.approx(0.5, abs=1e-7)  # faded over 13 edge lengths


def test_positions_interpolate_a_cubic_exactly():
    grid = mesh(TANK)
    heights = np.array([0.0, 0.013, 0.4, 0.75, 1.49, 1.5])
    nodes, weights = positions(grid, heights)
    values = (grid.height**3 - grid.height)[nodes]
    assert np.sum(values * weights, axis=1) == pytest.approx(heights**3 - heights, abs=1e-12)


def test_heights_of_a_halved_tank_are_folded_up():
    material = Material((CURVE,) * 3, Elastic(193e9, 0.29))
    shell = ready(TANK, material, Weight(), PLAN)
    assert shell.halved
    assert folded(shell, np.array([0.2, 0.75, 1.3])) == pytest.approx([1.3, 0.75, 1.3])

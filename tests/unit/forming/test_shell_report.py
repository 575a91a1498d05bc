"""Reading settled states: stations, walls, surfaces, heads, outlines, work."""

import numpy as np
import pytest
from laws import LAWS

from stretchform.forming.membrane import Elastic
from stretchform.forming.shell import COARSE, Material, Weight, report
from stretchform.forming.shell.build import ready
from stretchform.forming.shell.path import walk
from stretchform.forming.shell.report import examined
from stretchform.forming.shell.state import unformed
from stretchform.forming.shell.trace import flat, flat_arrays, last_rows, release
from stretchform.forming.shell.walking import Goal
from stretchform.shape.meridian import Course, Form, Head, tank

ELASTIC = Elastic(193e9, 0.29)
END = Head(Form.ELLIPSOID, 4e-3)
TANK = tank(END, (Course("a", 1.0, 0.5, 3e-3), Course("b", 1.0, 0.5, 3.2e-3)), END)
ZERO = np.zeros(1, dtype=np.intp)


@pytest.fixture(scope="module")
def formed():
    """A formed tank: shell, history, last state, released state."""
    shell = ready(TANK, Material((LAWS["S"],) * 4, ELASTIC), Weight(), COARSE)
    goal = Goal(growth=np.array([0.05]))
    going = walk(shell.problem, unformed(shell.problem), goal, 2.0 * COARSE.step, 1e-6)
    draw, pressure, volume, moves, flow = flat_arrays(going)
    history = flat(shell, going)
    end = last_rows(draw, 1, 1)
    last = examined(shell, ZERO, pressure[end], volume[end], moves[end], going.settled.flow)
    after = release(shell, going.settled, ZERO, 1e-6)
    released = examined(shell, ZERO, 0.0 * pressure[end], volume[end], after.moves, after.flow)
    assert flow.sum.shape[1] == len(draw)
    return shell, history, last, released


def test_growth_at_a_node_is_the_growth_of_that_node(formed):
    shell, _, last, _ = formed
    node = 12
    height = shell.mesh.height[node + np.flatnonzero(shell.mesh.shell)[0]]
    growth = report.midwall_growth(shell, last.moves, [height])
    at = node + np.flatnonzero(shell.mesh.shell)[0]
    assert growth[0, 0] == pytest.approx(last.moves[0, at, 0] / shell.problem.loads.radius[at])


def test_walls_keep_the_volume_of_metal(formed):
    shell, _, last, released = formed
    before = shell.wall[0]
    after = report.walls(shell, released)[0]
    strains = released.seen.strains[:2, 0]
    # plastic flow keeps the volume; what is left elastic after release is small
    assert after == pytest.approx(before * np.exp(-strains.sum(axis=0)), rel=1e-3)
    assert np.all(report.walls(shell, last)[0][shell.mesh.part == 1] < before[0] * 1.0)


def test_element_values_are_not_read_across_a_joint(formed):
    shell, _, _, _ = formed
    low, high = report.at_heights(shell, shell.wall, [1.0 - 1e-6, 1.0 + 1e-6])[0]
    assert (low, high) == pytest.approx((3.0e-3, 3.2e-3), rel=1e-9)


def test_outside_growth_of_an_unchanged_wall_is_scaled_by_the_radii(formed):
    shell, _, _, _ = formed
    growth = report.outside_growth(
        shell, np.array([[0.05]]), np.array([[3e-3]]), ZERO, np.array([0.5])
    )
    assert growth[0, 0] == pytest.approx(0.05 * 0.5 / 0.5015)


def test_surfaces_lie_on_both_sides_of_the_mean(formed):
    shell, _, last, released = formed
    wall = report.along(shell, last, released)
    mean = 0.5 * (wall.hoop_strain_inside + wall.hoop_strain_outside)
    assert np.expm1(mean) == pytest.approx(wall.growth, rel=1e-9)
    assert np.all(wall.plastic_strain <= wall.plastic_strain_largest + 1e-12)
    middle = np.argmin(np.abs(wall.height - 0.5))
    assert wall.hoop_stress[0, middle] == pytest.approx(
        0.5 * (wall.hoop_stress_inside + wall.hoop_stress_outside)[0, middle], rel=0.02
    )


def test_outlines_start_from_the_mesh(formed):
    shell, _, last, released = formed
    shape = report.outline(shell, last, released)
    assert np.array_equal(shape.radius, shell.mesh.radius)
    assert np.max(shape.radius_under_pressure) == pytest.approx(0.525, rel=1e-4)
    assert np.max(shape.radius_released) < np.max(shape.radius_under_pressure)


def test_the_thinner_side_of_the_tank_moves_its_head_less_or_more(formed):
    shell, history, last, released = formed
    lower, upper = (
        report.head(shell, history, last, released, upper=side) for side in (False, True)
    )
    for head in (lower, upper):
        assert 0.0 < head.first_yield[0] < history.pressure[-1] * 193e9
        assert head.lowest_hoop[0] < 0.0
        assert head.depth_change_released[0] < head.depth_change[0]


def test_work_is_positive_and_nearly_all_plastic(formed):
    shell, history, last, _ = formed
    work = report.work(shell, history, last)
    assert 0.0 < work.stored[0] < 0.1 * work.plastic[0] < 0.1 * work.outer[0]

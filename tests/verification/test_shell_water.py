"""Water and metal weigh on a standing or hanging tank as statics says they must."""

import numpy as np
import pytest
from laws import LAWS
from shell_cases import ELASTIC, one_steel, simple

from stretchform.forming.axial import Cylinder, at_growth
from stretchform.forming.shell import Support, Target, Weight, solve
from stretchform.si import STANDARD_GRAVITY

RADIUS, WALL, LENGTH, WATER, STEEL = 0.5, 3e-3, 4.0, 998.0, 7900.0
TALL = simple(RADIUS, WALL, LENGTH, "hemisphere")
MIDDLE = LENGTH / 2.0


def formed(support):
    heights = np.array([1.5, 2.0, 2.5])
    weight = Weight(support, WATER, STEEL)
    target = Target(growth=0.05, at=MIDDLE)
    return solve(TALL, one_steel(TALL, LAWS["S"]), target, heights, weight)


def test_growth_falls_by_a_tenth_of_a_point_a_metre_upwards():
    growth = formed(Support.STANDING).midwall[0, -1]
    # computed by an independent program: 0.100 points a metre
    assert (growth[0] - growth[2]) * 100.0 == pytest.approx(0.100, abs=2e-3)


@pytest.mark.parametrize(("support", "sign"), [(Support.STANDING, -1), (Support.HANGING, 1)])
def test_the_middle_follows_the_cylinder_under_the_weight_that_passes_through(support, sign):
    """Standing: all above presses down; hanging: all below pulls down."""
    trace = formed(support)
    liquid = WATER * np.pi * (RADIUS**2 * MIDDLE + 2.0 * RADIUS**3 / 3.0)
    metal = STEEL * 2.0 * np.pi * RADIUS * WALL * (MIDDLE + RADIUS)
    force = sign * STANDARD_GRAVITY * (liquid + metal)
    released = trace.midwall_released[0, -1, 1]
    state = at_growth(Cylinder(RADIUS, WALL, ELASTIC), force, released, LAWS["S"])
    above = WATER * STANDARD_GRAVITY * (MIDDLE + RADIUS)
    # the weight itself grows with the tank by some 8 %: 1e-4 of the pressure
    assert trace.pressure[0, -1] == pytest.approx(float(state.pressure) - above, rel=3e-4)


def test_a_hanging_tank_needs_more_pressure_than_a_standing_one():
    assert formed(Support.HANGING).pressure[0, -1] > formed(Support.STANDING).pressure[0, -1]


def test_without_water_and_metal_a_standing_tank_is_a_weightless_one():
    target = Target(growth=0.04)
    material = one_steel(TALL, LAWS["S"])
    free = solve(TALL, material, target, [MIDDLE])
    empty = solve(TALL, material, target, [MIDDLE], Weight(Support.STANDING, 0.0, 0.0))
    # half a tank against the whole one: same mesh, mirrored
    assert empty.pressure[0, -1] == pytest.approx(free.pressure[0, -1], rel=1e-5)
    assert empty.heads[0].depth_change[0] == pytest.approx(
        free.heads[1].depth_change[0], rel=1e-3
    )
    assert empty.work.outer[0] == pytest.approx(free.work.outer[0], rel=1e-3)

"""Loads along the tank's axis, and tipping."""

from math import pi

import pytest

from stretchform.plates import strength

MM = 1e-3


def test_tipping_moment_of_the_invented_example():
    found = strength.buckling_moment(10 * MM, 95 * MM, 1.5 * MM, 195e9)
    assert found == pytest.approx(52.0, abs=0.5)  # printed to 1 N m


@pytest.mark.parametrize(("length", "depth", "carried"), [(95, 10, 47), (80, 6, 34)])
def test_one_arm_carries_little_along_the_axis(length, depth, carried):
    found = strength.carried(depth * MM, length * MM, 1.5 * MM, 400e6)
    assert found == pytest.approx(carried, abs=0.6)  # printed to 1 N


def test_an_arm_that_yields_in_its_plane_carries_nothing_more():
    assert strength.carried(10 * MM, 95 * MM, 1.5 * MM, 400e6, 1.0) == 0.0
    assert strength.carried(10 * MM, 95 * MM, 1.5 * MM, 400e6, 1.2) == 0.0
    half = strength.carried(10 * MM, 95 * MM, 1.5 * MM, 400e6, 0.5)
    assert half == pytest.approx(0.5 * strength.carried(10 * MM, 95 * MM, 1.5 * MM, 400e6))


def test_areas_of_ring_and_full_plate():
    assert strength.plate_area(0.35, 0.003, None) == pytest.approx(pi * 0.347**2)
    assert strength.plate_area(0.35, 0.003, 0.06) == pytest.approx(pi * (0.347**2 - 0.287**2))


def test_weight_lift_and_flow_by_hand():
    assert strength.weight(0.1, 1.5 * MM, 7900.0) == pytest.approx(11.62, abs=0.01)
    assert strength.air_lift(0.1) == pytest.approx(4.903, abs=0.001)
    assert strength.fill_flow(0.1, 0.1) == pytest.approx(2 * 5.0 * 0.1)
    assert strength.fill_flow(0.1, 0.1, 0.5) == pytest.approx(5.0 / 0.09 * 0.1)

"""Whole tanks against the computed reference: pressure, growth, release, heads, walls.

The reference comes from programs independent of this package (see the header of the data).
"""

import numpy as np
import pytest
from laws import LAWS, MM, MPA
from shell_cases import one_steel, reference_cases

from stretchform.forming.shell import Target, solve

CASES = reference_cases()
SOLVED = {}


def traced(case):
    if case.name not in SOLVED:
        material = one_steel(case.tank, LAWS[case.law])
        middle = case.tank.tangent_heights[1] / 2.0
        target = Target(growth=case.mid_growth, at=middle)
        SOLVED[case.name] = solve(case.tank, material, target, case.heights)
    return SOLVED[case.name]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_pressure_is_within_a_thousandth_of_the_reference(case):
    pressure = traced(case).pressure[0, -1]
    # reference 0.02 %, steps and mesh of a plan 0.03 % (see the convergence tests)
    assert pressure == pytest.approx(float(case.row["pressure"]) * MPA, rel=1e-3)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_growth_along_the_shell_is_within_a_twentieth_of_a_point(case):
    trace = traced(case)
    # reference 0.02 points, mesh of a plan 0.15 % of the growth (0.015 points at most)
    assert trace.midwall[0, -1] == pytest.approx(case.columns["growth"], abs=5e-4)
    assert trace.midwall_released[0, -1] == pytest.approx(case.columns["released"], abs=5e-4)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_depth_change_walls_and_volume_agree(case):
    trace, row = traced(case), case.row
    change = float(row["depth_change"]) * MM
    # 3 % or 0.15 mm: a plan's crown elements (2.4 % at this mesh), the reference 1 %
    assert trace.heads[1].depth_change[0] == pytest.approx(
        change, abs=max(0.03 * abs(change), 0.15e-3)
    )
    wall = trace.along.wall[0]
    assert wall[0] == pytest.approx(float(row["wall_mid"]) * MM, rel=1e-3)
    assert wall[-1] == pytest.approx(float(row["wall_pole"]) * MM, rel=2e-3)
    gain = trace.volume[0, -1] / trace.volume_before
    assert gain == pytest.approx(float(row["volume_gain"]), rel=3e-3)  # crown mesh again


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_released_target_is_met_and_gives_the_same_pressure(case):
    material = one_steel(case.tank, LAWS[case.law])
    released = float(case.columns["released"][-1])
    target = Target(growth=released, at=case.heights[-1], released=True)
    trace = solve(case.tank, material, target, case.heights)
    assert trace.midwall_released[0, -1, -1] == pytest.approx(released, abs=1e-6)  # its goal
    assert trace.pressure[0, -1] == pytest.approx(float(case.row["pressure"]) * MPA, rel=1e-3)


def test_growth_outside_is_smaller_than_at_mid_wall_by_the_thinning():
    case = CASES[0]
    trace = traced(case)
    radius, wall, grown = 0.5, 3e-3, trace.wall[0, -1, -1]
    outside = (radius * 1.05 + grown / 2.0) / (radius + wall / 2.0) - 1.0
    assert trace.growth[0, -1, -1] == pytest.approx(outside, abs=1e-7)


def test_heads_tell_first_yield_and_where_the_hoop_is_compressed_most():
    case = CASES[0]  # 2:1 ellipsoid of the shell's wall, law S, yield 238 MPa
    head = traced(case).heads[1]
    cylinder = 2.0 / np.sqrt(3.0) * LAWS["S"].stress(0.0) * 3e-3 / 0.5
    # the reference program saw 0.62 and -157 MPa at 0.78, on a grid of 0.01
    assert head.first_yield[0] / cylinder == pytest.approx(0.62, abs=0.02)
    assert head.lowest_hoop[0] == pytest.approx(-157e6, rel=0.05)
    assert 0.5 < head.lowest_hoop_at[0] / cylinder < 1.0

"""Mesh, steps and layers: the error falls at its order, and a plan's settings are enough."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from laws import LAWS
from shell_cases import one_steel, reference_cases, simple

from stretchform.forming.shell import FINE, PLAN, Fineness, Target, solve

TANK = simple(0.5, 3e-3, 1.5)
HEIGHTS = 1.5 - 0.5 * np.array([0.0, 0.05, 0.1, 0.2, 0.3, 0.5, 0.75, 1.0, 1.5])


def formed(fineness):
    target = Target(growth=0.05, at=0.75)
    return solve(TANK, one_steel(TANK, LAWS["S"]), target, HEIGHTS, fineness=fineness)


def distances(traces):
    rows = [trace.midwall[0, -1] for trace in traces]
    return [float(np.max(np.abs(a - b))) for a, b in pairwise(rows)]


def test_the_error_of_the_mesh_falls_with_the_square_of_the_element_size():
    finest = Fineness(smallest=0.6, growth=0.24, crown=0.16, shell=0.4)
    meshes = [finest]
    for _ in range(3):
        last = meshes[-1]
        sizes = ("smallest", "growth", "crown", "shell")
        meshes.append(replace(last, **{size: getattr(last, size) / 2.0 for size in sizes}))
    first, second, third = distances([formed(fineness) for fineness in meshes])
    assert first / second > 3.0  # 4 for second order
    assert second / third > 3.0


def test_the_error_of_the_steps_falls_with_their_size():
    steps = [replace(PLAN, step=step) for step in (0.005, 0.0025, 0.00125, 0.000625)]
    first, second, third = distances([formed(fineness) for fineness in steps])
    assert first / third > 2.5  # 4 for first order; the start of a path is always fine
    assert second > third


@pytest.mark.parametrize("case", reference_cases(), ids=lambda case: case.name)
def test_a_plan_is_within_three_thousandths_of_the_growth_of_a_fine_answer(case):
    target = Target(growth=case.mid_growth, at=case.tank.tangent_heights[1] / 2.0)
    material = one_steel(case.tank, LAWS[case.law])
    plan, fine = (
        solve(case.tank, material, target, case.heights, fineness=fineness)
        for fineness in (PLAN, FINE)
    )
    apart = np.max(np.abs(plan.midwall[0, -1] - fine.midwall[0, -1]))
    assert apart < 0.0015 * case.mid_growth  # what a plan promises
    assert plan.pressure[0, -1] == pytest.approx(fine.pressure[0, -1], rel=3e-4)


def test_five_layers_are_enough():
    few, many = formed(PLAN), formed(replace(PLAN, layers=9))
    assert np.max(np.abs(few.midwall[0, -1] - many.midwall[0, -1])) < 2e-6
    surfaces = few.along.meridian_strain_inside, many.along.meridian_strain_inside
    assert np.max(np.abs(surfaces[0] - surfaces[1])) < 5e-4

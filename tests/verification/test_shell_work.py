"""The work of the pressure is found again as stored and plastic work."""

import pytest
from laws import LAWS
from shell_cases import one_steel, reference_cases, simple

from stretchform.forming.shell import PLAN, Support, Target, Weight, solve

CASES = reference_cases()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_outer_work_is_stored_and_plastic_work(case):
    target = Target(growth=case.mid_growth, at=case.tank.tangent_heights[1] / 2.0)
    work = solve(case.tank, one_steel(case.tank, LAWS[case.law]), target, [0.0]).work
    # 0.2 %: straight lines between steps at first yield, and J of the flow stress (0.1 %)
    assert work.stored[0] + work.plastic[0] == pytest.approx(work.outer[0], rel=2e-3)
    assert 0.0 < work.stored[0] < 0.15 * work.plastic[0]


def test_smaller_steps_close_the_balance():
    from dataclasses import replace

    meridian = simple(0.5, 3e-3, 1.5)
    target = Target(growth=0.05)
    fine = replace(PLAN, step=PLAN.step / 8.0)
    work = solve(meridian, one_steel(meridian, LAWS["S"]), target, [0.0], fineness=fine).work
    assert work.stored[0] + work.plastic[0] == pytest.approx(work.outer[0], rel=1e-3)


def test_a_standing_tank_balances_with_the_work_of_its_weight():
    meridian = simple(0.5, 2e-3, 4.0)
    weight = Weight(Support.STANDING)
    material = one_steel(meridian, LAWS["V"])
    work = solve(meridian, material, Target(growth=0.04), [0.0], weight).work
    assert work.stored[0] + work.plastic[0] == pytest.approx(work.outer[0], rel=2e-3)

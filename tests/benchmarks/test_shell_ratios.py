"""The whole-tank shell against a solid of equal accuracy in the same run: a report of ratios.

Run:  python -m pytest tests/benchmarks -m benchmark -s
Seconds are of the processor. Both meshes are the coarsest of a series whose growth along the
shell stays within two hundredths of a point of a fine answer; element counts are in the row.
What is asserted is the accuracy only.
"""

import sys
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from laws import LAWS

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "verification"))
from axisymmetric_solid import solve as solid
from shell_cases import ELASTIC, one_steel, reference_cases, simple

from stretchform.forming.shell import (
    COARSE,
    FINE,
    PLAN,
    Material,
    Support,
    Target,
    Weight,
    WithCriterion,
    solve,
)
from stretchform.shape.meridian import Course, Form, Head, tank
from stretchform.steel.curve import Scaled

pytestmark = pytest.mark.benchmark
CASES = {case.name: case for case in reference_cases()}
ACCURACY = 2e-4  # growth: two hundredths of a point


def timed(work, repeats=3):
    """Shortest of several runs, in seconds of the processor, and the last result."""
    times, result = [], None
    for _ in range(repeats):
        start = time.process_time()
        result = work()
        times.append(time.process_time() - start)
    return min(times), result


@pytest.fixture
def say(request):
    writer = request.config.get_terminal_writer()
    capture = request.config.pluginmanager.getplugin("capturemanager")

    def line(text):
        with capture.global_and_fixture_disabled():
            writer.line("\n" + text)

    return line


@pytest.mark.parametrize("name", ["F1", "F2", "F10"])
def test_shell_against_solid_of_equal_growth_accuracy(name, say):
    case = CASES[name]
    middle = case.tank.tangent_heights[1] / 2.0
    target = Target(growth=case.mid_growth, at=middle)
    material = one_steel(case.tank, LAWS[case.law])
    away = case.heights < case.tank.tangent_heights[1] - 0.04 * case.radius

    def shell(fineness):
        return solve(case.tank, material, target, case.heights, fineness=fineness)

    def body(mesh, steps=26):
        return solid(case.tank, LAWS[case.law], ELASTIC, case.mid_growth, mesh, steps)

    fine = shell(FINE)
    best = body(replace(PLAN, smallest=0.15), 52)
    true_solid = np.interp(case.heights, best.heights, best.growth)
    for smallest in (0.8, 0.6, 0.4, 0.3, 0.2):
        mesh = replace(PLAN, smallest=smallest, growth=0.2, crown=0.1)
        slow, found = timed(lambda mesh=mesh: body(mesh), 1)
        apart = np.interp(case.heights, found.heights, found.growth) - true_solid
        if np.max(np.abs(apart[away])) < ACCURACY:
            break
    for smallest in (0.6, 0.4, 0.3, 0.2, 0.15):
        mesh = replace(COARSE, smallest=smallest, step=0.005)
        quick, trace = timed(lambda mesh=mesh: shell(mesh))
        error = np.abs(trace.midwall[0, -1] - fine.midwall[0, -1])[away]
        if np.max(error) < ACCURACY:
            break
    say(
        f"{name}: solid {found.elements} elements {slow:.2f} s, shell {len(trace.along.part)} "
        f"elements {quick:.3f} s (with release): {slow / quick:.0f} times; wanted: 5, better 20"
    )
    assert np.max(error) < ACCURACY
    assert np.max(np.abs(apart[away])) < ACCURACY


def test_one_plan_quality_solve(say):
    end = Head(Form.TORISPHERE, 4e-3, 0.03, 1.0, 0.1)
    courses = tuple(
        Course(f"course {n}", 1.0, 0.5, wall) for n, wall in enumerate((3e-3, 3.2e-3))
    )
    standing = tank(end, courses, end)
    shares = np.linspace(0.05, 0.95, 12)
    for name, meridian, weight in (
        ("half tank", simple(0.5, 3e-3, 1.5), Weight()),
        ("standing tank of two courses", standing, Weight(Support.STANDING)),
    ):
        material = one_steel(meridian, LAWS["S"])

        heights = shares * meridian.tangent_heights[1]

        def work(meridian=meridian, material=material, weight=weight, heights=heights):
            return solve(meridian, material, Target(growth=0.05), heights, weight)

        seconds, trace = timed(work, 5)
        say(f"{name}, {len(trace.along.part)} elements: {seconds:.3f} s; wanted: at most 0.3")
        assert trace.end == ("reached",)


@pytest.mark.parametrize("fineness", [COARSE, PLAN], ids=["coarse", "plan"])
def test_five_hundred_draws(fineness, say):
    rng = np.random.default_rng(0)
    meridian, count = simple(0.5, 3e-3, 1.5), 500
    scaled = Scaled(LAWS["S"], np.exp(0.06 * rng.normal(size=count)))
    curve = WithCriterion(scaled, rng.triangular(1.03, 1.13, 1.17, count))
    material = Material((curve,) * 3, ELASTIC, count)
    target = Target(growth=0.05)
    seconds, trace = timed(
        lambda: solve(meridian, material, target, [0.3, 0.75], fineness=fineness), 1
    )
    say(f"500 draws, {len(trace.along.part)} elements: {seconds:.1f} s; wanted: at most 20")
    assert set(trace.end) == {"reached"}

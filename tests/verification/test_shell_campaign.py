"""A thousand random tanks: each converges on the physical branch, or says truly why not.

Radius 100 to 1500 mm, radius/wall 40 to 600, length/diameter 0.3 to 6, three head kinds of
0.6 to 2 walls, one to five courses up to 15 % apart in wall and in strength, straight
flanges, weightless, standing and hanging, five laws, 1 to 10 % at the largest place.
"""

import sys
import time
from dataclasses import replace

import numpy as np
import pytest
from laws import campaign_size
from shell_cases import random_tank

from stretchform.errors import NoSolution
from stretchform.forming.shell import COARSE, Target, maximum_pressure, solve

FULL = 1000


def run(seed):
    """Outcome of one tank: reached or the reason, with the time it took."""
    meridian, material, growth, weight = random_tank(seed)
    start = time.perf_counter()
    heights = np.array([0.0, 0.5, 1.0]) * meridian.tangent_heights[1]
    try:
        trace = solve(meridian, material, Target(growth=growth), heights, weight)
    except NoSolution as reason:
        require_truth(reason, meridian, material, growth, weight)
        return str(reason.problem), time.perf_counter() - start
    seconds = time.perf_counter() - start
    for values in (trace.growth, trace.released, trace.wall, trace.along.hoop_stress):
        assert np.all(np.isfinite(values)), f"tank {seed}: not a number"
    assert trace.largest[0, -1] == pytest.approx(growth, rel=1e-3), f"tank {seed}"
    require_same_branch(trace, meridian, material, growth, weight, seed)
    return "reached", seconds


def require_same_branch(trace, meridian, material, growth, weight, seed):
    """Another mesh and other steps find the same state, so it is no accident of a step."""
    other = replace(COARSE, smallest=0.3, layers=4, step=0.006)
    again = solve(meridian, material, Target(growth=growth), [0.0], weight, other)
    # a coarse mesh errs by 0.1 % in pressure at 5 %, more at first yield and short tanks
    assert again.pressure[0, -1] == pytest.approx(trace.pressure[0, -1], rel=1e-2), seed
    rows = [np.max(each.along.plastic_strain) for each in (trace, again)]
    assert rows[0] == pytest.approx(rows[1], rel=0.15), f"tank {seed}: another branch"


def require_truth(reason, meridian, material, growth, weight):
    """A maximum named as the cause is one: another mesh finds it too, before the target."""
    assert "passes its maximum" in reason.problem, reason.problem
    _, largest = maximum_pressure(meridian, material, weight, COARSE)
    assert largest[0] < growth * 1.05  # the top of the curve is flat


def summary(rows):
    slowest = sorted(rows, key=lambda row: -row[2])[:10]
    lines = [f"tank {seed}: {seconds:.2f} s, {end}" for seed, end, seconds in slowest]
    return "ten slowest:\n" + "\n".join(lines)


@pytest.mark.campaign
@pytest.mark.timeout(3600)
def test_random_tanks_converge_or_say_truly_why_not(capsys):
    seeds = range(campaign_size(FULL))
    rows = [(seed, *run(seed)) for seed in seeds]
    refused = [row for row in rows if row[1] != "reached"]
    with capsys.disabled():
        sys.stdout.write(f"\n{len(rows)} tanks, {len(refused)} refused; {summary(rows)}\n")
    assert len(refused) <= 0.05 * len(rows)


@pytest.mark.parametrize("seed", [3, 8, 11, 576])
def test_some_of_the_random_tanks_every_time(seed):
    end, _ = run(seed)
    assert end == "reached"

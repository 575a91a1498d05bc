"""Closed formulas of arms against the beam solve on random arms of every kind.

Steels harden like annealed sheet (Ludwik and Swift laws, mean exponent 0.18 to 0.42), travels
up to 35 mm, depths 4 to 10 mm, root strains mostly 5 to 20 %. Asked: above 9 % strain a
formula is never unsafe by more than a tenth. The whole table of ratios is printed by
`pytest -m campaign -s`.
"""

from sys import stdout

import numpy as np
import pytest
from laws import campaign_size

from stretchform.plates import arms
from stretchform.plates.beam import Strip, solve
from stretchform.steel.curve import Ludwik, Swift

E = 195e9
T = 1.5e-3
KINDS = ["single", "folded", "concentric single", "bridge", "concentric bridge"]


def random_steel(rng):
    if rng.random() < 0.6:
        strength = rng.uniform(900, 1500) * 1e6
        return Ludwik(rng.uniform(200, 300) * 1e6, strength, rng.uniform(0.55, 0.8))
    return Swift(
        rng.uniform(1000, 1500) * 1e6, rng.uniform(0.01, 0.04), rng.uniform(0.35, 0.55)
    )


def random_arm(kind, rng):
    """Steel, depth, length, travel of one limb and bow radius within the stated range."""
    while True:
        curve, depth = random_steel(rng), rng.uniform(4e-3, 10e-3)
        radius = rng.uniform(0.15, 0.8)
        growth = (
            rng.uniform(0.002, 0.01)
            if kind == "concentric bridge"
            else rng.uniform(0.005, 0.07)
        )
        travel = min(1.1 * radius * growth, 35e-3)
        if kind == "folded":
            travel /= rng.integers(2, 5)
        strain = rng.uniform(0.06, 0.2)
        bow = radius if kind.startswith("concentric") else None
        if kind.endswith("bridge"):
            factors = arms.bridge_factors(curve)
            length = float(arms.bridge_length(depth, travel, strain, bow, factors))
        else:
            factor = arms.strain_factor(curve)
            length = float(arms.single_length(depth, travel, strain, factor))
        slope = float(arms.effective_slope(length, travel, bow))
        limit = arms.SLOPE_BRIDGE if kind.endswith("bridge") else 2 * arms.SLOPE_SINGLE
        if np.isfinite(length) and length / radius < 0.5 and slope <= limit * (1 + 1e-9):
            return curve, depth, length, travel, bow


def closed(kind, curve, depth, length, travel, bow):
    """Strain and force of one arm, of a bridge one half, by the closed formulas."""
    if kind.endswith("bridge"):
        strain = arms.bridge_strain(depth, length, travel, bow, arms.bridge_factors(curve))
        factor = arms.bending_factor(curve)
        moment = arms.root_moment(depth, length, travel, T, curve, factor)
        tension = arms.tie_tension(depth, T, arms.tie_strain(length, travel, bow), curve, E)
        slope = arms.effective_slope(length, travel, bow)
        return float(strain), float(arms.bridge_force(moment, tension, length, slope)) / 2
    strain = arms.single_strain(depth, length, travel, arms.strain_factor(curve))
    factor = arms.YIELD_POINT * arms.bending_factor(curve)
    moment = arms.root_moment(depth, length, travel, T, curve, factor)
    return float(strain), float(arms.single_force(moment, length, travel))


def ratios(kind, count):
    rng = np.random.default_rng([20, KINDS.index(kind)])
    found = []
    for _ in range(count):
        curve, depth, length, travel, bow = random_arm(kind, rng)
        strain, force = closed(kind, curve, depth, length, travel, bow)
        beam = solve(Strip(depth, T, length, kind.endswith("bridge"), bow), travel, curve, E)
        found.append((beam.root_strain, strain / beam.root_strain, force / beam.force))
    return np.array(found)


def judge(kind, count):
    table = ratios(kind, count)
    strain, force = table[:, 1], table[:, 2]
    stdout.write(
        f"{kind:18s} {count:3d} arms: strain {strain.min():.2f} to {strain.max():.2f}, "
        f"force {force.min():.2f} to {force.max():.2f}\n"
    )
    high = table[:, 0] > 0.09
    assert np.all(strain[high] >= 0.90)  # asked: at most a tenth unsafe above 9 %
    assert np.all(strain <= 1.75)  # a formula that is only safe would be of no use
    assert np.all(force >= 0.85)  # 15 % is the stated accuracy of the force
    return high


@pytest.mark.parametrize("kind", KINDS)
def test_formulas_are_safe_on_a_few_random_arms(kind):
    judge(kind, 6)


@pytest.mark.campaign
@pytest.mark.parametrize("kind", KINDS)
def test_formulas_are_safe_on_sixty_random_arms_of_each_kind(kind):
    count = campaign_size(60, least=60)  # two seconds each: always at its full size
    assert np.sum(judge(kind, count)) >= count // 4  # enough arms where it matters

"""Random plates: the proposal passes its own checks by the beam, or nothing is proposed
and every option says why."""

import numpy as np
import pytest
from laws import campaign_size

from stretchform.plates.case import PlateCase
from stretchform.plates.options import propose
from stretchform.steel.curve import Ludwik, Swift


def random_plate(rng):
    if rng.random() < 0.6:
        curve = Ludwik(
            rng.uniform(200, 300) * 1e6, rng.uniform(800, 1500) * 1e6, rng.uniform(0.5, 0.8)
        )
    else:
        curve = Swift(
            rng.uniform(900, 1500) * 1e6, rng.uniform(0.005, 0.05), rng.uniform(0.3, 0.55)
        )
    radius, growth = rng.uniform(0.12, 0.9), rng.uniform(0.01, 0.09)
    wall = radius * rng.uniform(0.004, 0.012)
    flow = float(curve.stress(np.log1p(growth) * 1.155)) * 1.155
    return PlateCase(
        kind="single",
        radius=radius,
        wall=wall,
        growth_under_pressure=growth,
        springback=min(0.0025, growth / 2),
        pressure=0.93 * flow * wall / radius * np.exp(-2 * np.log1p(growth)),
        thickness=rng.choice([1.0, 1.5, 2.0, 3.0]) * 1e-3,
        depth=7e-3,
        length=None,
        tabs=int(rng.integers(2, 7)),
        clearance=rng.uniform(1e-3, 5e-3),
        tab_length=rng.uniform(15e-3, 40e-3),
        curve=curve,
        ring_width=None if rng.random() < 0.2 else radius * rng.uniform(0.08, 0.3),
        straight=bool(rng.random() < 0.8),
        ledge=bool(rng.random() < 0.5),
    )


def judge(count, seed):
    rng = np.random.default_rng(seed)
    chosen = 0
    for _ in range(count):
        found = propose(random_plate(rng), kinds=("single", "folded", "bridge"))
        if found.chosen is None:
            assert found.reasons, "nothing proposed and no reason given"
            assert all(reason for _, _, reason in found.reasons)
            continue
        chosen += 1
        result = found.chosen.result
        assert result.method == "beam"
        assert result.passes
        assert result.root_strain <= 0.15  # its own limit
    return chosen


def test_a_few_random_plates_get_an_arm_that_passes_or_a_reason():
    assert judge(8, 300) >= 2  # both outcomes occur among them


@pytest.mark.campaign
def test_three_hundred_random_plates_get_an_arm_that_passes_or_a_reason():
    count = campaign_size(300)
    assert judge(count, 301) > count // 4

"""Strain in a thin seam against its own equation and the maximum that limits it."""

import numpy as np
import pytest
from scipy.optimize import brentq

from stretchform.errors import InputError, NoSolution
from stretchform.steel.curve import Hollomon, Swift
from stretchform.steel.gained import groove_strain

PAIR = Hollomon(1275e6, 0.45)


@pytest.mark.parametrize(("left", "per_cent"), [(0.95, 5.7), (0.90, 6.6), (0.80, 9.1)])
def test_groove_strain_of_the_handbook_pair(left, per_cent):
    # growths in and out; computed by another program, one decimal
    growth = np.expm1(groove_strain(PAIR, np.log(1.05), left))
    assert 100 * growth == pytest.approx(per_cent, abs=0.051)


@pytest.mark.parametrize("criterion", [1.0, 1.13, 1.1547])
def test_groove_strain_balances_the_hoop_force(criterion):
    law = Swift(1400e6, 0.04, 0.55)

    def force(e):
        return law.stress(criterion * e) * np.exp(-e)

    exact = brentq(lambda e: 0.9 * force(e) - force(0.05), 0.05, 0.3)
    # bisection to 2^-60 of a grid step, brentq to 2e-12
    assert groove_strain(law, 0.05, 0.9, criterion) == pytest.approx(exact, abs=1e-9)


def test_no_groove_no_extra_strain():
    assert groove_strain(PAIR, 0.05, 1.0) == pytest.approx(0.05, abs=1e-9)


def test_a_deep_groove_necks_first():
    with pytest.raises(NoSolution, match="would neck"):
        groove_strain(PAIR, 0.15, 0.5)


@pytest.mark.parametrize("left", [0.0, -0.1, 1.1])
def test_a_groove_deeper_than_the_wall_is_refused(left):
    with pytest.raises(InputError):
        groove_strain(PAIR, 0.05, left)

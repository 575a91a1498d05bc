"""The weld of a tab."""

import numpy as np
import pytest

from stretchform.plates import weld
from stretchform.steel.curve import Hollomon, Ludwik

MM = 1e-3


def test_tensile_strength_of_a_power_law():
    found = weld.tensile_strength(Hollomon(1275e6, 0.45))
    assert found == pytest.approx(1275e6 * (0.45 / np.e) ** 0.45, rel=1e-6)  # grid of strains


def test_tensile_strength_of_the_invented_steel():
    assert weld.tensile_strength(Ludwik(230e6, 1256e6, 0.66)) == pytest.approx(600e6, rel=0.05)


def test_strength_of_a_weld():
    assert weld.strength(520e6) == pytest.approx(240e6, abs=0.5e6)  # printed to 1 MPa


def test_plain_pull_of_two_kilonewton():
    assert weld.peak_stress(2000.0, 0.0, 30 * MM, 1.05 * MM) == pytest.approx(32e6, abs=0.5e6)


def test_end_forces_of_arms_of_the_invented_example():
    assert weld.end_force(155.0, 6.06, 30 * MM) == pytest.approx(380.0, abs=2.0)
    # peak stress and end force belong to one linear line force
    force, moment, length, throat = 155.0, 6.0, 30 * MM, 1 * MM
    along = np.linspace(-length / 2, length / 2, 20001)
    line = force / length + 12 * moment * along / length**3
    assert np.trapezoid(line * along, along) == pytest.approx(moment, rel=1e-6)
    half = np.trapezoid(line[10000:], along[10000:])
    assert weld.end_force(force, moment, length) == pytest.approx(half, rel=1e-6)
    assert weld.peak_stress(force, moment, length, throat) == pytest.approx(
        line[-1] / (2 * throat), rel=1e-12
    )


def test_a_long_high_tab_resists_the_growth_of_the_wall_with_eleven_kilonewton():
    found = weld.growth_force(400e6, 1.5 * MM, 18.5 * MM, 60 * MM)
    assert found == pytest.approx(11e3, rel=0.02)
    low = weld.growth_force(400e6, 1.5 * MM, 7.5 * MM, 20 * MM)
    assert low < found / 2
    assert weld.growth_force(400e6, 1.5 * MM, 50 * MM, 20 * MM) == pytest.approx(6e3)


def test_half_a_weld_carries_its_throats():
    assert weld.half_strength(20 * MM, 1.05 * MM, 520e6) == pytest.approx(
        2 * 1.05 * MM * 10 * MM * 520e6 / np.sqrt(3) / 1.25
    )

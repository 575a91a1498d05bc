"""What a tab does to the wall."""

import numpy as np
import pytest
from scipy.optimize import brentq

from stretchform.plates import wall
from stretchform.steel.curve import Hollomon

MM = 1e-3


def test_dent_modulus_vanishes_at_the_maximum_pressure_of_a_closed_cylinder():
    curve = Hollomon(1200e6, 0.40)
    root3 = np.sqrt(3.0)

    def modulus(hoop):
        stress = 2 / root3 * curve.stress(2 / root3 * hoop)
        return float(wall.dent_modulus(curve, np.expm1(hoop), stress))

    assert brentq(modulus, 0.05, 0.5) == pytest.approx(0.40 / 2, rel=1e-9)  # maximum at n/2
    assert modulus(0.1) > 0.0 > modulus(0.3)


def test_dents_run_away_beyond_the_maximum_pressure():
    assert np.isinf(wall.dent(300.0, 3.3e6, 0.35, 3 * MM, -1e9, 5 * MM))
    assert wall.dent(0.0, 3.3e6, 0.35, 3 * MM, -1e9, 5 * MM) == 0.0


@pytest.mark.parametrize(("force", "depth"), [(300, 0.13), (700, 0.31), (2000, 0.89)])
def test_dents_of_the_invented_example(force, depth):
    found = wall.dent(float(force), 3.3e6, 0.35, 3 * MM, 2000e6, 15 * MM)
    assert found / MM == pytest.approx(depth, abs=0.005)  # printed to 0.01 mm


def test_dent_is_proportional_to_force_and_smaller_for_longer_tabs():
    one = wall.dent(300.0, 3.3e6, 0.35, 3 * MM, 2e9, 5 * MM)
    assert wall.dent(600.0, 3.3e6, 0.35, 3 * MM, 2e9, 5 * MM) == pytest.approx(2 * one)
    assert wall.dent(300.0, 3.3e6, 0.35, 3 * MM, 2e9, 10 * MM) < one


def test_local_stress_of_a_point_and_of_a_tab_line():
    radius, t = 0.35, 3 * MM
    point = wall.local_stress(1000.0, t, radius, 0.0) * t**2 / 1000.0
    line = wall.local_stress(1000.0, t, radius, 30.2 * MM) * t**2 / 1000.0
    assert point == pytest.approx(2.75)  # 0.4 membrane and 2.35 bending
    assert line == pytest.approx(1.55, abs=0.005)  # 0.4 and 1.15; the line is 0.932 long
    assert wall.local_stress(-1000.0, t, radius, 0.1) == wall.local_stress(
        1000.0, t, radius, 0.1
    )


def test_bending_makes_local_stress_several_times_its_membrane_part():
    membrane = 0.4 * 1000.0 / (3 * MM) ** 2
    assert membrane == pytest.approx(44e6, rel=0.02)
    assert 3.0 < wall.local_stress(1000.0, 3 * MM, 0.35, 30 * MM) / membrane < 6.0

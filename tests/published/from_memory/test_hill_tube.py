"""Hill's tube without hardening: NOT counted as a published check.

Source: hill-1950, chapter V, formulas from memory; thick-tube-problem, whose data (bore 100 mm,
outside 200 mm, yield 450 MPa; first yield, partial and full plasticity asked) were read, but
whose answers were not. So the answers below come from other routes: Lamé's elastic tube,
numerical integration of the radial balance, and superposition of an elastic unloading.
Would fail for: diameters taken for radii, Y for Y/2 in shear, a lost factor of two in the
logarithm, or an unloading that forgets the axial stress is not part of Tresca here.
"""

import numpy as np
import pytest
from scipy.integrate import quad

from stretchform.forming import thick

MPA = 1e6
INNER, OUTER, YIELD = 0.050, 0.100, 450.0 * MPA
SHEAR = {"tresca": YIELD / 2.0, "mises": YIELD / np.sqrt(3.0)}


def lame(pressure, inner, outer, radius):
    """Radial and hoop stress of an elastic tube under inner pressure."""
    scale = pressure * inner**2 / (outer**2 - inner**2)
    return scale * (1.0 - outer**2 / radius**2), scale * (1.0 + outer**2 / radius**2)


@pytest.mark.parametrize("name", list(SHEAR))
def test_onset_is_where_the_elastic_tube_reaches_the_shear_yield_at_its_bore(name):
    onset = thick.tube_pressure(INNER, OUTER, INNER, SHEAR[name])
    radial, hoop = lame(onset, INNER, OUTER, INNER)
    assert (hoop - radial) / 2.0 == pytest.approx(SHEAR[name], rel=1e-13)  # exact: rounding


@pytest.mark.parametrize("front", [0.060, 0.075, 0.090, 0.100])
@pytest.mark.parametrize("name", list(SHEAR))
def test_a_front_carries_the_plastic_zone_and_an_elastic_tube_outside_it(name, front):
    shear = SHEAR[name]
    plastic, _ = quad(lambda r: 2.0 * shear / r, INNER, front)  # d(radial)/dr = 2 k / r
    rest = shear * (1.0 - front**2 / OUTER**2)  # onset of the tube that remains elastic
    ours = thick.tube_pressure(INNER, OUTER, front, shear)
    assert ours == pytest.approx(plastic + rest, rel=1e-12)  # quad on a smooth integrand


@pytest.mark.parametrize(
    ("name", "onset", "full"), [("tresca", 168.75, 311.92), ("mises", 194.86, 360.17)]
)
def test_answers_to_the_problem_for_first_yield_and_full_plasticity(name, onset, full):
    # computed: k (1 − 1/4) and 2 k ln 2, printed to 0.01 MPa
    first = thick.tube_pressure(INNER, OUTER, INNER, SHEAR[name]) / MPA
    last = thick.tube_pressure(INNER, OUTER, OUTER, SHEAR[name]) / MPA
    assert first == pytest.approx(onset, abs=0.006)
    assert last == pytest.approx(full, abs=0.006)


def test_pressure_rises_as_the_front_moves_out():
    fronts = np.linspace(INNER, OUTER, 50)
    pressures = thick.tube_pressure(INNER, OUTER, fronts, SHEAR["tresca"])
    assert np.all(np.diff(pressures) > 0.0)


@pytest.mark.parametrize("front", [0.055, 0.075])
def test_hoop_stress_left_at_the_bore_is_the_flow_minus_the_elastic_unloading(front):
    pressure = thick.tube_pressure(INNER, OUTER, front, SHEAR["tresca"])
    under_load = YIELD - pressure  # Tresca at the bore: hoop − radial = Y, radial = −p
    _, unloading = lame(pressure, INNER, OUTER, INNER)
    ours = thick.tube_residual_hoop(INNER, OUTER, front, YIELD)
    assert ours == pytest.approx(under_load - unloading, rel=1e-12)
    assert ours < 0.0  # the bore is left in compression: the purpose of such overstrain


def test_a_tube_that_only_just_yields_keeps_no_stress():
    left = thick.tube_residual_hoop(INNER, OUTER, INNER, YIELD)
    assert left == pytest.approx(0.0, abs=1e-6)  # Pa; rounding of 450e6

"""The shipped water fit against the reference equation of state, and fitted again from it.

Source: IAPWS-95 as computed by the package CoolProp (an independent program, test extra only).
"""

import numpy as np
import pytest

from stretchform.water import properties

coolprop = pytest.importorskip("CoolProp.CoolProp")

TEMPERATURES = np.linspace(1.0, 45.0, 45)
PRESSURES = np.linspace(0.0, 20e6, 21)
T, P = (grid.ravel() for grid in np.meshgrid(TEMPERATURES, PRESSURES, indexing="ij"))


def state(key, temperature=T, pressure=P):
    return np.asarray(
        coolprop.PropsSI(key, "T", temperature + 273.15, "P", pressure + 101_325.0, "Water")
    )


def refitted(values, shape):
    x, y = (T - 23.0) / 22.0, (P - 10e6) / 10e6
    terms = np.polynomial.polynomial.polyvander2d(x, y, [shape[0] - 1, shape[1] - 1])
    return np.linalg.lstsq(terms, values, rcond=None)[0].reshape(shape)


def test_density_coefficients_come_out_again_from_a_new_fit():
    again = refitted(state("D"), properties.DENSITY.shape)
    # half a unit of the last printed digit, and rounding of another release of CoolProp
    assert again == pytest.approx(properties.DENSITY, abs=2e-7)


def test_heat_capacity_coefficients_come_out_again_from_a_new_fit():
    again = refitted(state("C"), properties.HEAT_CAPACITY.shape)
    # half a unit of the last printed digit, and rounding of another release of CoolProp
    assert again == pytest.approx(properties.HEAT_CAPACITY, abs=2e-3)


@pytest.mark.parametrize("shift", [0.0, 0.37])  # on the nodes of the fit and between them
def test_the_stated_largest_errors_hold_on_the_grid(shift):
    t, p = np.clip(T + shift, 1.0, 45.0), np.clip(P + shift * 1e6, 0.0, 20e6)
    density, stiffness = state("D", t, p), 1.0 / state("isothermal_compressibility", t, p)
    sudden = density * state("A", t, p) ** 2
    # the tolerances are the errors that the module states
    assert properties.density(t, p) == pytest.approx(density, rel=0, abs=1e-4)
    assert properties.isothermal_stiffness(t, p) == pytest.approx(stiffness, rel=0, abs=0.05e6)
    assert properties.isentropic_stiffness(t, p) == pytest.approx(sudden, rel=0, abs=0.1e6)
    swelling = state("isobaric_expansion_coefficient", t, p)
    assert properties.expansion(t, p) == pytest.approx(swelling, rel=0, abs=1e-7)
    assert properties.heat_capacity(t, p) == pytest.approx(state("C", t, p), rel=0, abs=5.0)

"""Stability of metered and gas-fed growth against differences and numerical maxima."""

import numpy as np
import pytest

from stretchform.water import properties, runaway, volumes

R, T, K, N = 0.3, 1.5e-3, 1400e6, 0.45  # the steel is invented
V = np.pi * R**2 * 1.2
SWELLING = volumes.swelling(R, T, 200e9, 0.3)


def pressure(strain):
    root = 2.0 / np.sqrt(3.0)
    return root * K * (root * strain) ** N * T / R * np.exp(-2.0 * strain)


def test_slope_beyond_the_maximum_is_small_beside_the_stiffness_of_water():
    e, step = 0.4, 1e-5
    volume = V * np.exp(2 * e)
    ours = runaway.pressure_per_volume(pressure(e), e, N, volume)
    assert ours / 1e9 == pytest.approx(-1.4864e-3, abs=6e-8)  # MPa per litre, printed digits
    wider, narrower = (V * np.exp(2 * (e + s)) for s in (step, -step))
    difference = (pressure(e + step) - pressure(e - step)) / (wider - narrower)
    assert ours == pytest.approx(difference, rel=1e-6)  # central difference
    stiffness = properties.isothermal_stiffness(20.0, 0.0)
    assert stiffness / volume / 1e9 == pytest.approx(2.886, abs=6e-4)  # printed digits


def test_maximum_pressure_is_where_the_slope_vanishes():
    assert runaway.pressure_per_volume(2.8e6, N / 2, N, V) == pytest.approx(0.0, abs=1e-3)
    assert pressure(N / 2) / 1e6 == pytest.approx(2.8101, abs=6e-5)  # printed digits
    assert pressure(np.log(1.05)) / 1e6 == pytest.approx(2.00932, abs=6e-6)  # printed digits


def test_patch_that_the_rest_of_the_tank_feeds():
    stiffness = properties.isothermal_stiffness(20.0, 0.0)
    # printed digits
    assert runaway.softest_patch(2e6, stiffness, SWELLING) == pytest.approx(0.00472, abs=6e-6)
    assert runaway.softest_patch(2e6, stiffness, 0.0) == pytest.approx(0.00092, abs=6e-6)


@pytest.mark.parametrize(
    ("share", "strain"), [(1e9, 0.225), (4.0, 0.28125), (1.0, 0.45), (0.5, 0.675)]
)
def test_gas_brings_the_loss_of_stability_forward(share, strain):
    assert runaway.gas_fed_limit(N, share) == pytest.approx(strain, rel=1e-8)  # exact figures


@pytest.mark.parametrize("share", [4.0, 1.5])
def test_gas_fed_limit_is_the_maximum_of_pressure_times_all_volume(share):
    limit = runaway.gas_fed_limit(N, share)
    gas = share * np.exp(2 * limit)  # over the volume before forming
    strains = np.linspace(0.01, 1.0, 200_001)
    product = pressure(strains) * (np.exp(2 * strains) + gas)
    # step of the grid is 5e-6
    assert strains[np.argmax(product)] == pytest.approx(limit, abs=1e-5)

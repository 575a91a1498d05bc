"""Drift and leaks of the reference tank; status of the figures: computed from the same closed
forms with the properties of CoolProp, so they guard our fit and our coding.

Tank: R/t 200, E 200 GPa, nu 0.3, V 0.339292 m3; expansion of the wall 16e-6 per kelvin.
"""

import numpy as np
import pytest

from stretchform.water import drift, properties, volumes

ALPHA = 16e-6
SWELLING = volumes.swelling(0.3, 1.5e-3, 200e9, 0.3)
V = np.pi * 0.3**2 * 1.2
ELASTIC = volumes.compliance(V, 20.0, 0.0, SWELLING)
# one unit of the last digit of the figures is 1e-5 MPa/K; the fit of the expansion errs by at
# most 1e-7/K, which the stiffness of the elastic tank (0.42 GPa) turns into 4e-5 MPa/K
ELASTIC_ERROR = 5e-5


@pytest.mark.parametrize(("pressure", "printed"), [(0.0, 0.4507), (2e6, 0.4594)])
def test_drift_of_a_rigid_tank(pressure, printed):
    ours = drift.per_kelvin(20.0, pressure, 0.0, 0.0) / 1e6
    assert ours == pytest.approx(printed, abs=3e-4)  # 1e-7/K times 2.2 GPa, and the digits


@pytest.mark.parametrize(
    ("temperature", "printed"),
    [
        (5.0, -0.01084),
        (10.0, 0.0188),
        (15.0, 0.0451),
        (20.0, 0.06864),
        (25.0, 0.0900),
        (30.0, 0.1096),
        (40.0, 0.1445),
    ],
)
def test_drift_of_an_elastic_tank(temperature, printed):
    ours = drift.per_kelvin(temperature, 2e6, SWELLING, ALPHA) / 1e6
    assert ours == pytest.approx(printed, abs=ELASTIC_ERROR + 5e-5)  # and the digits


@pytest.mark.parametrize(
    ("temperature", "printed"), [(5.0, -0.0100), (20.0, 0.0658), (40.0, 0.1380)]
)
def test_drift_with_half_a_per_cent_of_air(temperature, printed):
    ours = drift.per_kelvin(temperature, 2e6, SWELLING, ALPHA, air=0.005) / 1e6
    assert ours == pytest.approx(printed, abs=ELASTIC_ERROR + 5e-5)  # and the digits


@pytest.mark.parametrize(("temperature", "printed"), [(5.0, -0.13), (20.0, 0.81), (40.0, 1.69)])
def test_strain_per_kelvin_while_the_wall_flows(temperature, printed):
    ours = drift.strain_per_kelvin(temperature, 2e6, ALPHA) * 1e4
    assert ours == pytest.approx(printed, abs=0.006)  # printed digits


def test_strain_per_kelvin_at_20_degrees():
    assert drift.strain_per_kelvin(20.0, 2e6, ALPHA) == pytest.approx(8.09e-5, abs=1e-7)


@pytest.mark.parametrize(("pressure", "printed"), [(0.0, 7.135), (2e6, 6.752)])
def test_temperature_without_drift(pressure, printed):
    ours = drift.still_temperature(pressure, ALPHA)
    # 1e-7/K of the fit over a slope of 1.4e-5/K2
    assert ours == pytest.approx(printed, abs=0.008)
    below = drift.per_kelvin(ours - 1.0, pressure, SWELLING, ALPHA)
    above = drift.per_kelvin(ours + 1.0, pressure, SWELLING, ALPHA)
    assert below < 0.0 < above


def test_pressure_that_a_small_leak_takes():
    fall = drift.pressure_fall(1e-6 / 60, ELASTIC)
    assert fall * 60 == pytest.approx(-1249.0, abs=1.0)  # printed to the pascal
    assert drift.leak(fall, ELASTIC) == pytest.approx(1e-6 / 60, rel=1e-12)  # inverse


def test_twelve_kilopascals_are_a_fifth_of_a_kelvin_and_not_a_leak():
    warming = drift.per_kelvin(20.0, 2e6, SWELLING, ALPHA)
    assert 12.5e3 / warming == pytest.approx(0.18, abs=0.005)  # printed digits
    cooling = -0.18 / 600.0
    assert drift.leak(warming * cooling, ELASTIC, warming, cooling) == pytest.approx(
        0.0, abs=1e-15
    )


def test_lock_in_of_a_larger_tank():
    swelling = volumes.swelling(0.6, 3e-3, 200e9, 0.3)
    printed = 0.0675  # MPa/K, given to 1 %, with round properties of water
    assert (2.07e-4 - 48e-6) / (1 / 2.2e9 + swelling) / 1e6 == pytest.approx(printed, rel=0.01)
    ours = drift.per_kelvin(20.0, 0.0, swelling, ALPHA) / 1e6
    assert ours == pytest.approx(printed, rel=0.01)  # stated tolerance


def test_drift_is_the_derivative_of_a_volume_balance():
    """Warm the tank by a little and find the pressure at which water and wall fit again."""
    start, p, air = 20.0, 2e6, 0.003
    mass = properties.density(start, p) * (1.0 - air * 101_325.0 / (p + 101_325.0))

    def misfit(temperature, pressure):
        top = pressure + 101_325.0
        hot = (temperature + 273.15) / (start + 273.15)
        room = 1.0 + SWELLING * (pressure - p) + 3 * ALPHA * (temperature - start)
        pocket = air * 101_325.0 / top * hot
        return mass / properties.density(temperature, pressure) + pocket - room

    dt, dp = 1e-3, 100.0
    by_temperature = (misfit(start + dt, p) - misfit(start - dt, p)) / (2 * dt)
    by_pressure = (misfit(start, p + dp) - misfit(start, p - dp)) / (2 * dp)
    ours = drift.per_kelvin(start, p, SWELLING, ALPHA, air)
    # the pocket takes 0.015 % of the volume, which the formula neglects beside the water
    assert -by_temperature / by_pressure == pytest.approx(ours, rel=1e-3)

"""Stored energies against integrals of pressure over volume, done by other means."""

import numpy as np
import pytest
from scipy.integrate import quad

from stretchform.steel.curve import Hollomon, Ludwik, Voce
from stretchform.water import air, energy
from stretchform.water.air import AirWay

ATMOSPHERE = 101_325.0
R, T, E, NU = 0.300, 1.5e-3, 200e9, 0.3


@pytest.mark.parametrize(
    ("carried", "stretch", "metal_per_volume"),
    [
        (energy.Wall.CLOSED, 2.5 - 2 * NU, 2 * T / R),
        (energy.Wall.TIED, 2.0, 2 * T / R),
        (energy.Wall.SPHERE, 1.5 * (1 - NU), 3 * T / R),
    ],
)
def test_wall_holds_half_of_pressure_times_elastic_swelling(carried, stretch, metal_per_volume):
    p = 2e6
    swelling = stretch * p * R / (E * T)
    ours = energy.wall_density(p, R, T, E, NU, carried) * metal_per_volume
    assert ours == pytest.approx(0.5 * p * swelling, rel=1e-12)  # identity


@pytest.mark.parametrize("pressure", [0.2e6, 2e6, 10e6])
def test_air_formulas_are_integrals_of_their_paths(pressure):
    top = pressure + ATMOSPHERE
    start = ATMOSPHERE / top

    def work(path, end, outside=0.0):
        return quad(lambda v: path(v) - outside, start, end, epsabs=1e-6, epsrel=1e-11)[0]

    isentropic = lambda v: top * (start / v) ** 1.4  # noqa: E731
    isothermal = lambda v: top * start / v  # noqa: E731
    far = start * (top / ATMOSPHERE) ** (1 / 1.4)
    expected = {
        AirWay.ISENTROPIC: work(isentropic, far),
        AirWay.ISENTROPIC_NET: work(isentropic, far, ATMOSPHERE),
        AirWay.ISOTHERMAL: work(isothermal, 1.0),
        AirWay.AVAILABILITY: work(isothermal, 1.0, ATMOSPHERE),
    }
    for way, value in expected.items():
        # accuracy of the quadrature
        assert air.stored(1.0, pressure, way) == pytest.approx(value, rel=1e-9)


def membrane_energy_factor(depth_ratio):
    """Mean membrane energy of an ellipsoid over that of (pR/t)^2/(2E), by midpoints."""
    angle = (np.arange(20_000) + 0.5) / 20_000 * np.pi / 2
    x = np.sin(angle)
    arc = np.hypot(np.cos(angle), depth_ratio * x)
    around, along = arc / depth_ratio, arc**3 / depth_ratio  # radii of curvature
    meridian = around / 2
    hoop = around * (1 - around / (2 * along))
    density = meridian**2 + hoop**2 - 2 * NU * meridian * hoop
    return np.sum(density * x * arc) / np.sum(x * arc)


@pytest.mark.parametrize("depth_ratio", [0.5, 0.7, 1.0])
def test_head_metal_is_counted_above_its_membrane_energy(depth_ratio):
    counted = (1.25 - NU) * energy.head_factor(NU)
    assert membrane_energy_factor(depth_ratio) < counted


def test_a_crown_at_the_flow_stress_of_the_shell_holds_what_is_counted():
    flow = 300e6
    crown = flow**2 * (1 - NU) / E
    hoop = flow * 2 / np.sqrt(3.0)
    shell = energy.wall_density(hoop * T / R, R, T, E, NU)
    assert crown == pytest.approx(shell * energy.head_factor(NU), rel=1e-12)  # identity


def test_head_factor_of_other_shells():
    assert energy.head_factor(NU, energy.Wall.SPHERE) == 1.0
    # a tied shell at its flow stress holds flow^2/2E, a crown 2 (1 - nu) times that
    assert energy.head_factor(NU, energy.Wall.TIED) == pytest.approx(1.4, rel=1e-12)  # identity


@pytest.mark.parametrize(
    "curve",
    [Hollomon(1400e6, 0.45), Ludwik(240e6, 900e6, 0.62), Voce(260e6, 700e6, 3.2)],
    ids=["power", "yield and power", "saturating"],
)
def test_plastic_work_equals_the_integral_of_pressure_over_volume(curve):
    root, length = 2.0 / np.sqrt(3.0), 1.2

    def pressure_times_rate(e):
        pressure = root * curve.stress(root * e) * T / R * np.exp(-2 * e)
        return pressure * 2.0 * np.pi * R**2 * length * np.exp(2 * e)

    target = np.log(1.05)
    work = quad(pressure_times_rate, 0.0, target, epsrel=1e-10)[0]
    metal = 2.0 * np.pi * R * T * length
    # accuracy of both quadratures
    assert energy.plastic_work(metal, curve, root * target) == pytest.approx(work, rel=1e-7)

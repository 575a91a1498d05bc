"""What stored energies must obey whatever the tank."""

import numpy as np
import pytest

from stretchform.errors import InputError, NoSolution
from stretchform.steel.curve import Hollomon
from stretchform.water import air, ejection, energy

TANK = {
    "pressure": 2e6,
    "volume": 0.34,
    "temperature": 20.0,
    "radius": 0.3,
    "wall": 1.5e-3,
    "shell_metal": 3.4e-3,
    "head_metal": 1.0e-3,
    "youngs_modulus": 200e9,
    "poisson_ratio": 0.3,
    "air_volume": 0.34e-3,
}


@pytest.mark.parametrize(
    "name", ["pressure", "volume", "shell_metal", "head_metal", "air_volume", "radius"]
)
def test_more_of_it_never_holds_less(name):
    more = energy.stored(**{**TANK, name: TANK[name] * 1.3})
    assert more.recoverable > energy.stored(**TANK).recoverable


def test_recoverable_is_water_wall_and_air_and_leaves_plastic_work_out():
    found = energy.stored(**TANK, plastic_work=50e3)
    # sum of three floats
    assert found.recoverable == pytest.approx(found.water + found.wall + found.air, rel=1e-14)
    assert found.recoverable < found.plastic_work


def test_arrays_give_the_same_as_one_by_one():
    pressures = np.array([0.0, 0.5e6, 2e6])
    many = energy.stored(**{**TANK, "pressure": pressures})
    for index, pressure in enumerate(pressures):
        one = energy.stored(**{**TANK, "pressure": float(pressure)})
        assert many.recoverable[index] == pytest.approx(one.recoverable, rel=1e-14)  # rounding


def test_no_pressure_holds_nothing_and_has_no_ratio():
    found = energy.stored(**{**TANK, "pressure": 0.0})
    assert found.recoverable == 0.0
    assert np.isnan(found.ratio_gas)


@pytest.mark.parametrize(("pressure", "way"), [(0.83e6, "brode"), (0.86e6, "isothermal")])
def test_the_leading_air_formula_changes_at_0_84_megapascals(pressure, way):
    assert energy.stored(**{**TANK, "pressure": pressure}).method == way
    assert air.leading(np.array([0.1e6, pressure])).value == way


@pytest.mark.parametrize("name", ["volume", "shell_metal", "head_metal", "air_volume"])
def test_negative_sizes_are_refused(name):
    with pytest.raises(InputError):
        energy.stored(**{**TANK, name: -1e-6})


def test_need_size_lets_an_undefined_draw_pass():
    air.need_size(np.array([np.nan, 0.0]), 1.0)
    with pytest.raises(InputError):
        air.need_size(1.0, np.array([np.nan, -1.0]))


def test_a_fitting_without_mass_is_refused():
    with pytest.raises(InputError):
        ejection.ejected_speed(0.0, 1000.0, 0.1)


def test_plastic_work_beyond_the_curve_is_refused():
    with pytest.raises(NoSolution):
        energy.plastic_work(1e-3, Hollomon(1400e6, 0.45, strain_limit=0.3), 0.31)


def test_plastic_work_takes_arrays():
    curve = Hollomon(1400e6, 0.45)
    strains = np.array([0.02, 0.05])
    exact = 1e-3 * 1400e6 * strains**1.45 / 1.45
    # 48 nodes on a smoothed power law
    assert energy.plastic_work(1e-3, curve, strains) == pytest.approx(exact, rel=1e-9)

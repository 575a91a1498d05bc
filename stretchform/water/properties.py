"""Density, stiffness and thermal expansion of liquid water, 1 to 45 °C, 0 to 20 MPa gauge.

One polynomial for density and one for heat capacity stand behind everything: stiffness and
expansion are slopes of the density, so the four can never contradict each other. A test fits
both again to the reference equation of state and checks the errors stated here: density
0.0001 kg/m³, stiffness 0.05 MPa, expansion 1e-7 per kelvin. Pressures are gauge.
"""

import numpy as np
from numpy.polynomial import polynomial

from stretchform.errors import InputError
from stretchform.si import (
    Array,
    Celsius,
    JoulePerKilogramKelvin,
    Kelvin,
    KilogramPerCubicMetre,
    Pascal,
    PerKelvin,
)

SOURCES = ("iapws-95", "own-derivation")

LOWEST, HIGHEST = 1.0, 45.0  # °C
TOP_PRESSURE = 20e6  # Pa gauge
ICE_POINT = 273.15  # K
_MIDDLE, _HALF = 23.0, 22.0  # °C, centre and half-width of the fit
_PRESSURE_HALF = 10e6  # Pa, both centre and half-width of the fit

# Rows: powers of scaled temperature; columns: powers of scaled pressure.
DENSITY = np.array(
    [
        (1002.0310304, 4.4427960, -0.0462761, 0.0005679),
        (-5.5110622, -0.2917138, 0.0035745, 0.0001090),
        (-2.2404706, 0.1535284, -0.0043331, 0.0000651),
        (0.3134969, -0.0338509, 0.0014687, -0.0000305),
        (-0.0695991, 0.0091708, -0.0006374, 0.0000203),
        (0.0191085, -0.0030929, 0.0003141, -0.0000101),
        (-0.0050856, 0.0009852, -0.0001160, 0.0000032),
    ]
)
HEAT_CAPACITY = np.array([(4153.726, -27.616), (-5.132, 9.786), (10.150, -5.173)])


def density(temperature: Celsius, pressure: Pascal) -> KilogramPerCubicMetre:
    """Density of water at a gauge pressure.

        rho = sum a_ij x^i y^j, x = (t - 23)/22, y = (p - 10 MPa)/10 MPa

    Source: iapws-95, fit of this project to CoolProp's values, largest error 0.0001 kg/m3.
    Checked: tests/verification/test_water_properties_refit.py (fitted again on a grid).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return _value(DENSITY, temperature, pressure)


def isothermal_stiffness(temperature: Celsius, pressure: Pascal) -> Pascal:
    """Bulk modulus of water at constant temperature (slow pressing).

        K_T = rho / (d rho / d p)

    Source: iapws-95, slope of the density fit, largest error 0.05 MPa.
    Checked: tests/verification/test_water_properties_refit.py (grid),
    tests/published/test_water_uw_vessel_manual.py (an independent table).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    slope = _value(polynomial.polyder(DENSITY, axis=1), temperature, pressure)
    return density(temperature, pressure) * _PRESSURE_HALF / slope


def isentropic_stiffness(temperature: Celsius, pressure: Pascal) -> Pascal:
    """Bulk modulus of water without exchange of heat (fast release).

        1/K_S = 1/K_T - alpha^2 T / (rho c)

    Source: iapws-95, slopes of the density fit and the heat-capacity fit, error 0.1 MPa.
    Checked: tests/verification/test_water_properties_refit.py (grid).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    swelling = expansion(temperature, pressure)
    heat = density(temperature, pressure) * heat_capacity(temperature, pressure)
    warming = swelling**2 * (temperature + ICE_POINT) / heat
    return 1.0 / (1.0 / isothermal_stiffness(temperature, pressure) - warming)


def expansion(temperature: Celsius, pressure: Pascal) -> PerKelvin:
    """Volume expansion of water per kelvin at constant pressure; it vanishes near 4 °C.

        alpha = -(d rho / d t) / rho

    Source: iapws-95, slope of the density fit, largest error 1e-7 per kelvin.
    Checked: tests/verification/test_water_properties_refit.py (grid).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    slope = _value(polynomial.polyder(DENSITY, axis=0), temperature, pressure)
    return -slope / (_HALF * density(temperature, pressure))


def heat_capacity(temperature: Celsius, pressure: Pascal) -> JoulePerKilogramKelvin:
    """Heat capacity of water at constant pressure.

        c = sum c_ij x^i y^j, x and y as for the density

    Source: iapws-95, fit of this project to CoolProp's values, largest error 5 J/(kg K).
    Checked: tests/verification/test_water_properties_refit.py (fitted again on a grid).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return _value(HEAT_CAPACITY, temperature, pressure)


def cooling_on_release(temperature: Celsius, pressure: Pascal) -> Kelvin:
    """How much water cools when a pressure is released at once (negative: it cools).

        dT = - integral of alpha T / (rho c) dp from 0 to p

    Source: iapws-95, isentropic path through the fits above.
    Checked: tests/verification/test_water_energy_states.py (CoolProp's states).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    nodes, weights = np.polynomial.legendre.leggauss(4)
    total = np.zeros(np.broadcast(temperature, pressure).shape)
    for node, weight in zip(nodes, weights, strict=True):
        step = np.multiply(pressure, (node + 1.0) / 2.0)
        heat = density(temperature, step) * heat_capacity(temperature, step)
        cooling = expansion(temperature, step) * np.add(temperature, ICE_POINT) / heat
        total = total - weight / 2.0 * np.multiply(pressure, cooling)
    return total


def check_range(temperature: Celsius, pressure: Pascal) -> None:
    """Refuse water that the fits do not cover; an undefined draw (NaN) passes.

        1 <= t <= 45 degC and 0 <= p <= 20 MPa

    Source: own-derivation, range in which the fits were made.
    Checked: tests/unit/water/test_water_properties.py (both ends).
    Raises InputError outside.
    """
    if np.any(np.less(temperature, LOWEST)) or np.any(np.greater(temperature, HIGHEST)):
        raise InputError(
            "water temperature",
            f"{_worst(temperature, LOWEST, HIGHEST):g} °C lies outside 1 to 45 °C",
            'temperature = "20 degC"',
        )
    if np.any(np.less(pressure, 0.0)) or np.any(np.greater(pressure, TOP_PRESSURE)):
        megapascals = _worst(pressure, 0.0, TOP_PRESSURE) / 1e6
        raise InputError(
            "water pressure",
            f"{megapascals:g} MPa (gauge) lies outside 0 to 20 MPa",
            'maximum_pressure = "20 MPa"',
        )


def _worst(values: Celsius | Pascal, low: float, high: float) -> float:
    found = np.atleast_1d(np.asarray(values, dtype=np.float64))
    return float(found[(found < low) | (found > high)][0])


def _value(table: Array, temperature: Celsius, pressure: Pascal) -> Array:
    check_range(temperature, pressure)
    x = np.divide(np.subtract(temperature, _MIDDLE), _HALF)
    y = np.divide(np.subtract(pressure, _PRESSURE_HALF), _PRESSURE_HALF)
    x, y = np.broadcast_arrays(x, y)
    return np.asarray(polynomial.polyval2d(x, y, table), dtype=np.float64)[()]

"""What temperature and leaks do to a full, closed tank.

Water and wall warm together. While the wall is elastic, warming shows as pressure; once it
flows, as growth. Near 7 °C the sign turns: colder water then presses more. A fall of
pressure is a leak only when temperature and creep are ruled out.
"""

import numpy as np

from stretchform.errors import NoSolution
from stretchform.si import (
    STANDARD_ATMOSPHERE,
    Celsius,
    CubicMetrePerPascal,
    CubicMetrePerSecond,
    KelvinPerSecond,
    Pascal,
    PascalPerKelvin,
    PascalPerSecond,
    PerKelvin,
    PerPascal,
    Ratio,
)
from stretchform.water import properties

SOURCES = ("own-derivation", "iapws-95", "en-10088-1")

_HALVINGS = 50


def per_kelvin(
    temperature: Celsius,
    pressure: Pascal,
    wall_swelling: PerPascal,
    wall_expansion: PerKelvin,
    air: Ratio = 0.0,
) -> PascalPerKelvin:
    """Change of pressure per kelvin in a full, shut tank whose wall is elastic.

        dp/dT = (alpha - 3 alpha_wall + x p0/(P T)) / (1/K_T + swelling + x p0/P^2)

    `air` x is the trapped air as a share of the tank at one atmosphere; swelling as in
    volumes.swelling (zero for a rigid wall).

    Source: own-derivation, volume balance of water, wall and air.
    Checked: tests/verification/test_water_drift_rows.py (two tanks, 5 to 40 degC).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    top = np.add(pressure, STANDARD_ATMOSPHERE)
    absolute = np.add(temperature, properties.ICE_POINT)
    pocket = np.multiply(air, STANDARD_ATMOSPHERE) / top
    drive = properties.expansion(temperature, pressure) - np.multiply(3.0, wall_expansion)
    give = 1.0 / properties.isothermal_stiffness(temperature, pressure) + wall_swelling
    return (drive + pocket / absolute) / (give + pocket / top)


def strain_per_kelvin(
    temperature: Celsius, pressure: Pascal, wall_expansion: PerKelvin
) -> PerKelvin:
    """Hoop strain per kelvin while the wall of a long cylinder flows and the tank is shut.

        de/dT = (alpha - 3 alpha_wall)/2

    Source: own-derivation, all surplus volume becomes growth.
    Checked: tests/verification/test_water_drift_rows.py (reference tank).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    swelling = properties.expansion(temperature, pressure)
    return (swelling - np.multiply(3.0, wall_expansion)) / 2.0


def still_temperature(pressure: Pascal, wall_expansion: PerKelvin) -> Celsius:
    """Temperature at which a full, shut tank does not drift; below it the sign turns.

        alpha(t, p) = 3 alpha_wall, by halving

    Source: own-derivation, zero of `per_kelvin` without air.
    Checked: tests/verification/test_water_drift_rows.py (reference tank).
    Raises NoSolution when it lies outside 1 to 45 degC.
    """
    pressure, wanted = np.broadcast_arrays(
        np.asarray(pressure, dtype=np.float64), np.multiply(3.0, wall_expansion)
    )
    low = np.full(pressure.shape, properties.LOWEST)
    high = np.full(pressure.shape, properties.HIGHEST)
    outside = properties.expansion(low, pressure) > wanted
    outside |= properties.expansion(high, pressure) < wanted
    if np.any(outside):
        raise NoSolution(
            "temperature without drift",
            "it lies outside 1 to 45 °C for this expansion of the wall",
            "an expansion of 16e-6 per kelvin, as austenitic steel has",
        )
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        below = properties.expansion(middle, pressure) < wanted
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.asarray((low + high) / 2.0)[()]


def pressure_fall(leak: CubicMetrePerSecond, give: CubicMetrePerPascal) -> PascalPerSecond:
    """How fast a leak lets the pressure fall with the pump off.

        dp/dt = -q/C

    Source: own-derivation, volume balance.
    Checked: tests/verification/test_water_drift_rows.py (reference tank).
    Raises nothing.
    """
    return -np.divide(leak, give)


def leak(
    pressure_change: PascalPerSecond,
    give: CubicMetrePerPascal,
    drift: PascalPerKelvin = 0.0,
    warming: KelvinPerSecond = 0.0,
) -> CubicMetrePerSecond:
    """Leak told by the change of pressure with the pump off, temperature taken off.

        q = -C (dp/dt - drift dT/dt)

    Trust it only after backing off to 80 to 90 % of the peak, where creep has stopped, and
    not in the first hour, while air goes into solution.

    Source: own-derivation, volume balance.
    Checked: tests/verification/test_water_drift_rows.py (reference tank, 12.5 kPa are 0.18 K).
    Raises nothing.
    """
    return -give * (pressure_change - np.multiply(drift, warming))

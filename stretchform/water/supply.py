"""Pump, relief valve, hose and gauge: what each is worth in growth and what it lets pass.

Above yield a pressure limit hardly limits strain: the metered water does. A relief valve
stops a runaway pump only if it can pass more than the pump delivers.
"""

from collections.abc import Callable
from math import sqrt

import numpy as np

from stretchform.errors import InputError
from stretchform.si import (
    STANDARD_GRAVITY,
    Array,
    Celsius,
    CubicMetre,
    CubicMetrePerPascal,
    CubicMetrePerSecond,
    Growth,
    Metre,
    Pascal,
    PerPascal,
    Ratio,
    Second,
    SquareMetre,
)
from stretchform.water import ejection, properties

SOURCES = ("common-practice", "en-837-1", "own-derivation", "own-judgement")

RELIEF_OVERPRESSURE = 1.10  # share of the set pressure while the valve blows; judged
_ROOT3 = sqrt(3.0)


def gauge_limit(span: Pascal, accuracy_class: Ratio) -> Pascal:
    """Largest permissible error of a dial gauge, anywhere on its scale.

        limit = class/100 * span

    Source: en-837-1, Table 11 (seen): classes in per cent of the span.
    Checked: tests/published/test_water_gauges.py (reference tank).
    Raises InputError for a class or span that is not positive.
    """
    if not (np.all(np.greater(span, 0.0)) and np.all(np.greater(accuracy_class, 0.0))):
        raise InputError("gauge", "range and class must be positive", 'class = "0.6"')
    return np.multiply(accuracy_class, span) / 100.0


def gauge_uncertainty(span: Pascal, accuracy_class: Ratio) -> Pascal:
    """Standard uncertainty of one reading of a gauge that meets its class.

        u = limit/sqrt(3)

    Source: own-derivation, even spread between the limits (GUM).
    Checked: tests/published/test_water_gauges.py (reference tank).
    Raises InputError for a class or span that is not positive.
    """
    return gauge_limit(span, accuracy_class) / _ROOT3


def worth_in_growth(pressure_error: Pascal, growth_per_pascal: PerPascal) -> Growth:
    """What an error of pressure is worth in growth on the slope of the forming curve.

        de = dp * de/dp

    Source: own-derivation, first order.
    Checked: tests/published/test_water_gauges.py (a class 1 gauge of 4 MPa: 0.28 points).
    Raises nothing.
    """
    return np.multiply(pressure_error, growth_per_pascal)


def range_share(span: Pascal, pressure: Pascal) -> Ratio:
    """Range of the gauge over the pressure to be read; usual practice asks for 1.5 to 4.

        share = span/p

    Source: common-practice, limits; own-derivation, division.
    Checked: tests/published/test_water_gauges.py.
    Raises nothing.
    """
    return np.divide(span, pressure)


def water_head(height_above: Metre, temperature: Celsius, pressure: Pascal = 0.0) -> Pascal:
    """Pressure of a column of water: add it going down, take it off going up.

        p = rho g h

    Source: own-derivation, hydrostatics.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return properties.density(temperature, pressure) * STANDARD_GRAVITY * height_above


def gauge_reading(
    wanted: Pascal, point_height: Metre, gauge_height: Metre, temperature: Celsius
) -> Pascal:
    """What a gauge shows when a point at another height has a wanted pressure.

        reading = wanted + rho g (z_point - z_gauge)

    The line between them must be full of water.

    Source: own-derivation, hydrostatics.
    Checked: tests/unit/water/test_water_supply.py (round trip and signs).
    Raises InputError outside 1 to 45 degC.
    """
    rise = np.subtract(point_height, gauge_height)
    return wanted + water_head(rise, temperature)


def growth_at_relief(
    setting: Pascal,
    growth_at: Callable[[Pascal], Growth],
    overpressure: Ratio = RELIEF_OVERPRESSURE,
) -> Growth:
    """Growth that the relief valve would still allow.

        e(1.1 * set pressure); the valve needs about a tenth more to pass its flow

    `growth_at` gives growth at a pressure and NaN beyond the maximum pressure: NaN means
    that the valve does not protect the tank at all.

    Source: own-judgement, overpressure of a tenth.
    Checked: tests/unit/water/test_water_supply.py (5 % becomes 6.7 %).
    Raises nothing.
    """
    return growth_at(np.multiply(setting, overpressure))


def growth_along(pressures: Array, growths: Array) -> Callable[[Pascal], Growth]:
    """A forming curve given by points, for `growth_at_relief`; NaN outside the points.

        straight lines between points of rising pressure

    Source: own-derivation, linear interpolation.
    Checked: tests/unit/water/test_water_supply.py.
    Raises InputError unless the pressures rise.
    """
    pressures, growths = np.asarray(pressures, dtype=float), np.asarray(growths, dtype=float)
    if pressures.ndim != 1 or np.any(np.diff(pressures) <= 0.0):
        raise InputError(
            "forming curve",
            "its pressures must rise: cut it at the maximum pressure",
            "points up to the maximum pressure only",
        )
    return lambda pressure: np.interp(pressure, pressures, growths, left=np.nan, right=np.nan)


def orifice_flow(
    area: SquareMetre, pressure: Pascal, temperature: Celsius, discharge: Ratio = 0.6
) -> CubicMetrePerSecond:
    """Flow of water through a valve seat or bleed opening into the open.

        Q = Cd A sqrt(2 p/rho)

    The maker's rating of a valve goes first; 0.6 is that of a sharp edge (judged).

    Source: own-derivation, Bernoulli with a discharge factor.
    Checked: tests/unit/water/test_water_supply.py.
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return np.multiply(discharge, area) * ejection.jet_speed(temperature, pressure)


def relief_share(relief_flow: CubicMetrePerSecond, pump_flow: CubicMetrePerSecond) -> Ratio:
    """What the relief valve can pass over what the pump can deliver: it must exceed 1.

        share = Q_relief/Q_pump

    Source: own-derivation, division.
    Checked: tests/unit/water/test_water_supply.py.
    Raises InputError for a pump that delivers nothing.
    """
    if not np.all(np.greater(pump_flow, 0.0)):
        raise InputError("pump flow", "it delivers nothing", 'flow = "1 l/min"')
    return np.divide(relief_flow, pump_flow)


def growth_in_reaction(
    flow: CubicMetrePerSecond, reaction: Second, volume: CubicMetre
) -> Growth:
    """Growth that passes while a person reacts, once the wall flows.

        de = Q t/(2 V)

    Source: own-derivation, volume gain of a long cylinder.
    Checked: tests/unit/water/test_water_supply.py (10 min for 5 %: under 0.1 % in 10 s).
    Raises nothing.
    """
    return np.multiply(flow, reaction) / (2.0 * np.asarray(volume))


def hose_compliance(
    length: Metre, bore: Metre, swelling: PerPascal, temperature: Celsius
) -> CubicMetrePerPascal:
    """Water that a pressure hose takes per unit of pressure.

        C = pi/4 d^2 L (swelling + 1/K_T); swelling from the maker, 0 for a stiff pipe

    Source: own-derivation, hose and its water in series.
    Checked: tests/unit/water/test_water_supply.py.
    Raises InputError outside 1 to 45 degC or for a negative size.
    """
    if np.any(np.less(length, 0.0)) or np.any(np.less(bore, 0.0)):
        raise InputError("hose", "its sizes must not be negative", 'hose_length = "3 m"')
    stiffness = properties.isothermal_stiffness(temperature, 0.0)
    return np.pi / 4.0 * np.square(bore) * length * (swelling + 1.0 / stiffness)

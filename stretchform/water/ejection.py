"""What pressure throws: jets from a leak, fittings, plugs and ends.

Upper bounds without losses. The answer to them is a barrier and nobody in line, never a
distance: none is computed here.
"""

import numpy as np

from stretchform.errors import InputError
from stretchform.si import (
    Celsius,
    Joule,
    Kilogram,
    Metre,
    MetrePerSecond,
    Newton,
    Pascal,
    Ratio,
)
from stretchform.water import properties

SOURCES = ("own-derivation",)


def jet_speed(temperature: Celsius, pressure: Pascal) -> MetrePerSecond:
    """Speed of water from a leak without losses; any forming pressure goes through skin.

        v = sqrt(2 p / rho)

    Source: own-derivation, Bernoulli.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    return np.sqrt(2.0 * np.asarray(pressure) / properties.density(temperature, 0.0))


def ejected_speed(mass: Kilogram, energy: Joule, share: Ratio) -> MetrePerSecond:
    """Speed of a fitting or plug that takes a share of the recoverable energy.

        v = sqrt(2 share E / m)

    Source: own-derivation, kinetic energy.
    Checked: tests/verification/test_water_rows.py (a 0.1 kg fitting).
    Raises InputError for a mass that is not positive.
    """
    if not np.all(np.greater(mass, 0.0)):
        raise InputError("mass of a fitting", "it must be positive", 'mass = "0.1 kg"')
    return np.sqrt(2.0 * np.multiply(share, energy) / mass)


def end_thrust(pressure: Pascal, bore_radius: Metre) -> Newton:
    """Force with which pressure pushes an end, a plug or a cover out of a round bore.

        F = p pi R^2

    Source: own-derivation, pressure times area.
    Checked: tests/verification/test_water_rows.py (reference tank, a 21 mm plug).
    Raises nothing.
    """
    return np.pi * np.multiply(pressure, np.square(bore_radius))

"""Energy of air trapped in the tank, and of gas in the place of water.

Air is pressed slowly by the water and let out at once by a break. The named formulas differ
three-fold, so the larger of Brode and gross isothermal leads and its name is printed.
Volumes of air are those at one atmosphere, before pressing; pressures are gauge.
"""

from enum import StrEnum

import numpy as np

from stretchform.errors import InputError
from stretchform.si import STANDARD_ATMOSPHERE, CubicMetre, Joule, Pascal

SOURCES = ("asme-pcc-2", "crowl-explosions", "own-derivation")

AIR_EXPONENT = 1.4  # ratio of heat capacities of air
PCC2_ATMOSPHERE = 101_000.0  # Pa, as that standard rounds it
PCC2_EXPONENT = 0.286  # as that standard rounds (k - 1)/k


class AirWay(StrEnum):
    """Named formulas for the energy of compressed gas."""

    BRODE = "brode"  # heating at constant volume
    ISENTROPIC = "isentropic"  # expansion without heat, work on the atmosphere included
    ISOTHERMAL = "isothermal"  # expansion at constant temperature, gross
    AVAILABILITY = "availability"  # isothermal less the work on the atmosphere
    ISENTROPIC_NET = "isentropic net"  # isentropic less the work on the atmosphere


def stored(volume: CubicMetre, pressure: Pascal, way: AirWay) -> Joule:
    """Energy of air trapped as `volume` at one atmosphere and pressed slowly to `pressure`.

        P = p + p0, V1 = V0 p0 / P, k = 1.4
        brode (P - p0) V1/(k-1) · isentropic P V1/(k-1) [1 - (p0/P)^((k-1)/k)]
        isothermal P V1 ln(P/p0) · availability P V1 [ln(P/p0) - (1 - p0/P)]
        isentropic net = isentropic - p0 (V2 - V1), V2 = V1 (P/p0)^(1/k)

    Source: crowl-explosions, Appendix B (equations B-1 and B-2 seen; isothermal and
    availability from memory; the last is our own).
    Checked: tests/verification/test_water_rows.py (reference tank),
    tests/verification/test_water_work.py (integral of p dV).
    Raises InputError for a negative volume.
    """
    need_size(volume)
    top = np.add(pressure, STANDARD_ATMOSPHERE)
    ratio = top / STANDARD_ATMOSPHERE
    product = np.multiply(volume, STANDARD_ATMOSPHERE)  # P V1 = p0 V0
    rest = AIR_EXPONENT - 1.0
    isentropic = product / rest * (1.0 - ratio ** (-rest / AIR_EXPONENT))
    on_atmosphere = product / ratio * (ratio ** (1.0 / AIR_EXPONENT) - 1.0)
    return {
        AirWay.BRODE: product / rest * (1.0 - 1.0 / ratio),
        AirWay.ISENTROPIC: isentropic,
        AirWay.ISOTHERMAL: product * np.log(ratio),
        AirWay.AVAILABILITY: product * (np.log(ratio) - 1.0 + 1.0 / ratio),
        AirWay.ISENTROPIC_NET: isentropic - on_atmosphere,
    }[way]


def cautious(volume: CubicMetre, pressure: Pascal) -> Joule:
    """Energy of trapped air by the larger of Brode and gross isothermal.

        they cross where ln(P/p0) = (1 - p0/P)/(k - 1), 0.84 MPa gauge

    Source: own-derivation, choice of the larger named formula.
    Checked: tests/verification/test_water_rows.py (the larger of the named ones).
    Raises InputError for a negative volume.
    """
    brode = stored(volume, pressure, AirWay.BRODE)
    return np.maximum(brode, stored(volume, pressure, AirWay.ISOTHERMAL))


def leading(pressure: Pascal) -> AirWay:
    """Which air formula leads; of several pressures the highest decides.

        isothermal above 0.84 MPa gauge, Brode below

    Source: own-derivation, the larger of the two.
    Checked: tests/unit/water/test_water_energy.py.
    Raises nothing.
    """
    highest = float(np.nanmax(pressure))
    brode = stored(1.0, highest, AirWay.BRODE)
    return (
        AirWay.BRODE if brode > stored(1.0, highest, AirWay.ISOTHERMAL) else AirWay.ISOTHERMAL
    )


def gas_instead(volume: CubicMetre, pressure: Pascal) -> Joule:
    """Energy of the same tank filled with air or nitrogen: why gas is never used.

        E = 2.5 P V [1 - (Pa/P)^0.286], Pa = 101 kPa, P = p + Pa

    Source: asme-pcc-2, Article 501, equations II-1 and II-2 (2008 pages, seen).
    Checked: tests/published/test_water_pcc2.py (worked figures computed from the equation).
    Raises InputError for a negative volume.
    """
    need_size(volume)
    top = np.add(pressure, PCC2_ATMOSPHERE)
    return 2.5 * top * volume * (1.0 - (PCC2_ATMOSPHERE / top) ** PCC2_EXPONENT)


def need_size(*volumes: CubicMetre) -> None:
    """Refuse a negative volume; an undefined draw (NaN) passes.

        V >= 0

    Source: own-derivation, a volume.
    Checked: tests/unit/water/test_water_energy.py.
    Raises InputError for a negative volume.
    """
    for volume in volumes:
        if np.any(np.less(volume, 0.0)):
            raise InputError("volume", "it is negative", 'air = "0.1 %"')

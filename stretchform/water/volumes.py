"""How much water a tank takes: to fill it, to press it, to make it grow; and air in between.

Volumes are inside, temperatures of water and wall alike. While the wall is elastic, added
water goes into squeezing the water, swelling the wall and squeezing air; once it flows,
nearly all goes into growth. Air presses slowly and isothermally; its volume is that at one
atmosphere. Whole-tank growth must come from the whole-tank model, not from one radius.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import InputError
from stretchform.si import (
    STANDARD_ATMOSPHERE,
    Array,
    Celsius,
    CubicMetre,
    CubicMetrePerPascal,
    CubicMetrePerSecond,
    Growth,
    Kilogram,
    Metre,
    Number,
    Pascal,
    PascalPerSecond,
    PerPascal,
    PerSecond,
    Ratio,
    Second,
    SquareMetre,
)
from stretchform.water import properties
from stretchform.water.carrying import Wall

SOURCES = ("own-derivation", "iapws-95")

AIR_FILM = 5e-3  # m under a level plate, judged: surface tension holds about this much


@dataclass(frozen=True, slots=True)
class FirstStrokes:
    """What a line through the first readings says."""

    air: CubicMetre  # at one atmosphere
    compliance: CubicMetrePerPascal  # water, wall and hose
    slack: CubicMetre  # added before the pressure rose: last filling, hose taking shape


def filling(
    bore_radii: Metre, lengths: Metre, heads: CubicMetre, displaced: CubicMetre = 0.0
) -> CubicMetre:
    """Water that fills a tank of courses (last axis) with both heads.

        V = sum pi R^2 L + heads - displaced

    Source: own-derivation, volume of cylinders.
    Checked: tests/unit/water/test_water_volumes.py.
    Raises InputError when the plates would displace more than the tank holds.
    """
    shell = _total(np.pi * np.square(bore_radii) * lengths)
    volume = shell + np.subtract(heads, displaced)
    if np.any(volume <= 0.0):
        raise InputError(
            "tank volume",
            "internal parts displace more than the tank holds",
            'thickness = "2 mm"',
        )
    return volume


def filled_mass(volume: CubicMetre, metal: Kilogram, temperature: Celsius) -> Kilogram:
    """Mass that stands on floor and supports when the tank is full, before pressing.

        m = rho V + metal

    Source: own-derivation, sum; density from iapws-95.
    Checked: tests/verification/test_water_rows.py (339 kg of water in the reference tank).
    Raises InputError outside 1 to 45 degC.
    """
    return properties.density(temperature, 0.0) * volume + metal


def course_gain(volume: CubicMetre, growth: Growth, axial: Growth = 0.0) -> CubicMetre:
    """Volume gained by a cylinder whose radius and length grow; not for a whole tank.

        dV = V [(1 + e)^2 (1 + a) - 1]

    Source: own-derivation, exact.
    Checked: tests/verification/test_water_rows.py (exact squares).
    Raises nothing.
    """
    return volume * (np.square(np.add(1.0, growth)) * np.add(1.0, axial) - 1.0)


def swelling(
    radius: Metre,
    wall: Metre,
    youngs_modulus: Pascal,
    poisson_ratio: Ratio,
    carried: Wall = Wall.CLOSED,
) -> PerPascal:
    """Elastic gain of a tank's volume per unit of pressure.

        R/(E t) (5/2 - 2 nu) closed, 2 R/(E t) tied, 3/2 (1 - nu) R/(E t) sphere

    Source: own-derivation, Hooke's law with the membrane stresses.
    Checked: tests/verification/test_water_work.py (energy = half of p dV).
    Raises nothing.
    """
    factor = {
        Wall.CLOSED: np.subtract(2.5, np.multiply(2.0, poisson_ratio)),
        Wall.TIED: np.full_like(poisson_ratio, 2.0, dtype=np.float64),
        Wall.SPHERE: 1.5 * np.subtract(1.0, poisson_ratio),
    }[carried]
    return radius / np.multiply(youngs_modulus, wall) * factor


def compliance(
    volume: CubicMetre,
    temperature: Celsius,
    pressure: Pascal,
    wall_swelling: PerPascal,
    hose: CubicMetrePerPascal = 0.0,
) -> CubicMetrePerPascal:
    """Water that must be added per unit of pressure while nothing yields; without the air.

        C = V [1/K_T + swelling] + hose

    Source: own-derivation, sum of what gives way; K_T from iapws-95.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    stiffness = properties.isothermal_stiffness(temperature, pressure)
    return volume * (1.0 / stiffness + wall_swelling) + hose


def squeezed_in(volume: CubicMetre, temperature: Celsius, pressure: Pascal) -> CubicMetre:
    """Water added only because the water is squeezed, as poured (at one atmosphere).

        dV = V [rho(p)/rho(0) - 1]

    Source: iapws-95, ratio of densities.
    Checked: tests/verification/test_water_rows.py (0.916 L per cubic metre at 2 MPa).
    Raises InputError outside 1 to 45 degC or 0 to 20 MPa.
    """
    loose = properties.density(temperature, 0.0)
    return volume * (properties.density(temperature, pressure) / loose - 1.0)


def air_give(air: CubicMetre, pressure: Pascal) -> CubicMetre:
    """How much trapped air gives way under pressure.

        dV = V0 p/(p + p0)

    Source: own-derivation, Boyle's law.
    Checked: tests/verification/test_water_rows.py (1.286 L to reach 0.2 MPa).
    Raises nothing.
    """
    return air * np.divide(pressure, np.add(pressure, STANDARD_ATMOSPHERE))


def pumped(
    gain_released: CubicMetre,
    elastic: CubicMetrePerPascal,
    pressure: Pascal,
    air: CubicMetre = 0.0,
    slack: CubicMetre = 0.0,
) -> CubicMetre:
    """Water the pump must deliver from full to a pressure.

        V = gain + C p + V0 p/(p + p0) + slack

    `gain_released` is the volume gained as it stays AFTER release: C p, with the grown sizes
    in C, already holds the elastic wall. On release C p and the air's share come back.

    Source: own-derivation, sum of what takes water.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises nothing.
    """
    return gain_released + np.multiply(elastic, pressure) + air_give(air, pressure) + slack


def mean_growth(
    pumped_in: CubicMetre,
    volume: CubicMetre,
    elastic: CubicMetrePerPascal,
    pressure: Pascal,
    air: CubicMetre = 0.0,
) -> Growth:
    """Mean released growth told by the metered water: for plausibility, heads included.

        e = sqrt(1 + (V_pumped - C p - air)/V0) - 1

    Source: own-derivation, inverse of `pumped` and `course_gain`.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises nothing.
    """
    gain = pumped_in - np.multiply(elastic, pressure) - air_give(air, pressure)
    return np.sqrt(1.0 + gain / volume) - 1.0


def air_from_intercept(intercept: CubicMetre, pressure: Pascal) -> CubicMetre:
    """Trapped air from where the tangent of the water-pressure line meets zero pressure.

        V0 = V_int ((p + p0)/p)^2, exact for air that presses isothermally

    Source: own-derivation, tangent of C p + V0 p/(p + p0).
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError for a pressure that is not positive.
    """
    if not np.all(np.greater(pressure, 0.0)):
        raise InputError(
            "first strokes", "the tangent needs a pressure", 'pressure = "0.2 MPa"'
        )
    return intercept * np.square(np.add(pressure, STANDARD_ATMOSPHERE) / pressure)


def first_strokes(pressures: Array, added: Array) -> FirstStrokes:
    """Air, compliance and slack from readings of added water, all below the yield pressure.

        least squares of added = slack + C p + V0 p/(p + p0)

    Take at least four readings, the first ones below two atmospheres: only there do air and
    stiffness look different.

    Source: own-derivation, linear in the three unknowns.
    Checked: tests/unit/water/test_water_volumes.py (recovers what was put in).
    Raises InputError for fewer than four readings or readings too much alike.
    """
    pressures, added = np.asarray(pressures, dtype=float), np.asarray(added, dtype=float)
    if pressures.shape != added.shape or np.unique(pressures).size < 4:
        raise InputError(
            "first strokes",
            "at least four different pressures, each with its water, are needed",
            "read at 0.05, 0.1, 0.2 and 0.4 MPa",
        )
    scale = STANDARD_ATMOSPHERE
    terms = np.column_stack(
        [np.ones_like(pressures), pressures / scale, pressures / (pressures + scale)]
    )
    slack, elastic, air = np.linalg.lstsq(terms, added, rcond=None)[0]
    return FirstStrokes(air=float(air), compliance=float(elastic / scale), slack=float(slack))


def air_under_plates(
    areas: SquareMetre, level: bool, bore_radius: Metre, length: Metre, notched: bool
) -> CubicMetre:
    """Air that stays under internal plates after filling, at one atmosphere.

        plates level (tank standing or hanging): sum of areas times 5 mm, notches or not
        plates upright (tank lying): none with a notch of 10 mm or more at the high side,
        else the crest of the bore, a circular segment 5 mm deep over the length

    `areas` are those that face downward, last axis summed. A gap of 3 mm does not vent a
    plate. Level plates keep their film unless the tank is tilted while it fills.

    Source: own-derivation, judged film thickness from surface tension.
    Checked: tests/unit/water/test_water_volumes.py.
    Raises nothing.
    """
    if level:
        return _total(areas) * AIR_FILM
    if notched:
        return np.multiply(bore_radius, 0.0)
    return segment(bore_radius, AIR_FILM) * length


def segment(radius: Metre, depth: Metre) -> SquareMetre:
    """Area of a circular segment.

        A = R^2 acos(1 - h/R) - (R - h) sqrt(2 R h - h^2)

    Source: own-derivation, sector less triangle.
    Checked: tests/unit/water/test_water_volumes.py (half and full circle).
    Raises nothing.
    """
    depth = np.asarray(depth, dtype=np.float64)
    chord = np.sqrt(depth * (2.0 * np.asarray(radius) - depth))
    return np.square(radius) * np.arccos(1.0 - depth / radius) - (radius - depth) * chord


def strokes(volume: CubicMetre, stroke: CubicMetre, efficiency: Ratio = 1.0) -> Ratio:
    """Strokes of a hand pump that deliver a volume.

        n = V/(v eta)

    Source: own-derivation, division.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError for a stroke or efficiency that is not positive.
    """
    delivered = np.multiply(stroke, efficiency)
    if not np.all(np.greater(delivered, 0.0)):
        raise InputError("pump stroke", "it delivers nothing", 'stroke = "40 ml"')
    return np.divide(volume, delivered)


def pumping_time(volume: CubicMetre, flow: CubicMetrePerSecond) -> Second:
    """Time to deliver a volume.

        t = V/Q

    Source: own-derivation, division.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises InputError for a flow that is not positive.
    """
    if not np.all(np.greater(flow, 0.0)):
        raise InputError("pump flow", "it delivers nothing", 'flow = "1 l/min"')
    return np.divide(volume, flow)


def growth_rate(flow: CubicMetrePerSecond, volume: CubicMetre) -> PerSecond:
    """Rate of hoop strain while the wall flows and the pump runs.

        de/dt = Q/(2 V)

    Source: own-derivation, volume gain of a long cylinder.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises nothing.
    """
    return np.divide(flow, 2.0 * np.asarray(volume))


def pressure_rate(flow: CubicMetrePerSecond, give: CubicMetrePerPascal) -> PascalPerSecond:
    """How fast pressure rises while nothing yields.

        dp/dt = Q/C

    Source: own-derivation, division.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises nothing.
    """
    return np.divide(flow, give)


def flowing_compliance(
    volume: CubicMetre, strain_per_pressure: PerPascal, elastic: CubicMetrePerPascal
) -> CubicMetrePerPascal:
    """Water per unit of pressure once the wall of a long cylinder flows.

        dV/dp = 2 V de/dp + C, with the volume now and the slope of the forming curve

    Source: own-derivation, volume gain of a long cylinder.
    Checked: tests/verification/test_water_rows.py (reference tank).
    Raises nothing.
    """
    return 2.0 * np.multiply(volume, strain_per_pressure) + elastic


def _total(parts: Number) -> Array:
    """Sum over the last axis."""
    return np.asarray(np.sum(parts, axis=-1), dtype=np.float64)

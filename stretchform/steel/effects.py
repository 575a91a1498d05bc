"""What moves a flow stress between the test and the tank: speed, water, heat, time at pressure.

A certificate is pulled in minutes in a warm room; a tank is held for hours in water. Each
effect is a factor with a low, a likely and a high value. None may act unseen: the band is
handed back after every step.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import NoSolution
from stretchform.si import (
    Array,
    Celsius,
    Kelvin,
    Metre,
    Pascal,
    PerSecond,
    Ratio,
    Second,
    Strain,
)
from stretchform.steel.curve import Curve
from stretchform.steel.properties import blackburn_304

SOURCES = (
    "own-derivation",
    "own-judgement",
    "blackburn-304",
    "subsized-tensile",
    "kassner-2011",
    "kujawski-1979",
)

HOLD_END_RATE = 1e-3 / 3600.0  # 0.1 % an hour, in 1/s
USUAL_TEST_RATE = 5e-4  # 1/s, middle of the speeds of certificate tests
COLDEST, WARMEST = 5.0, 40.0  # degC covered
_TEMPERATURE_BAND = 0.02  # judged half-width between 5 and 40 degC up to 10 % strain
_HEAT_SHARE = 0.9  # of the plastic work that becomes heat
_ROOT3 = 3.0**0.5
_FILM = 100.0  # W/(m² K), still water: judged, low


@dataclass(frozen=True, slots=True)
class Effect:
    """A factor on flow stress: 5, 50 and 95 % of what is believed."""

    code: str
    low: Ratio
    likely: Ratio
    high: Ratio


@dataclass(frozen=True, slots=True)
class Band:
    """Flow stress, low, likely and high, after one more effect."""

    code: str
    low: Pascal
    likely: Pascal
    high: Pascal


@dataclass(frozen=True, slots=True)
class HoldPrior:
    """Hoop growth per e-fold of time at pressure before it has been measured: low confidence."""

    low: Strain = 0.0005
    likely: Strain = 0.0012
    high: Strain = 0.003


def rate_exponent(
    slow_stress: Pascal, fast_stress: Pascal, slow_rate: PerSecond, fast_rate: PerSecond
) -> Ratio:
    """Rate sensitivity m between two tests of one steel.

        m = ln(s_fast / s_slow) / ln(rate_fast / rate_slow)

    Source: subsized-tensile, series of 304, 304L and 316L; definition.
    Checked: tests/verification/test_steel_check_values.py
    """
    return np.log(np.divide(fast_stress, slow_stress)) / np.log(np.divide(fast_rate, slow_rate))


def rate_factor(exponent: Ratio, from_rate: PerSecond, to_rate: PerSecond) -> Ratio:
    """Factor on flow stress from one strain rate to another.

        (to / from)^m

    Source: own-derivation, power law of rate.
    Checked: tests/unit/steel/test_effects.py
    """
    return np.power(np.divide(to_rate, from_rate), exponent)


def rate_effect(
    low: Ratio, likely: Ratio, high: Ratio, test_rate: PerSecond = USUAL_TEST_RATE
) -> Effect:
    """Factor from the speed of the test to the end of a hold at 0.1 % an hour.

        judged factor to the power ln(2.8e-7 / test rate) / ln(2.8e-7 / 5e-4)

    `low`, `likely`, `high` are judged for a usual certificate test of 5e-4 /s.

    Source: own-judgement, materials/forming.toml, rate.
    Checked: tests/unit/steel/test_effects.py
    """
    share = np.log(HOLD_END_RATE / test_rate) / np.log(HOLD_END_RATE / USUAL_TEST_RATE)
    share = np.maximum(share, 0.0)
    return Effect("rate", np.power(low, share), np.power(likely, share), np.power(high, share))


def temperature_effect(
    water: Celsius, test: Celsius = 20.0, covered: bool = True, strain: Strain = 0.05
) -> Effect:
    """Factor from the temperature of the test to that of the water, without martensite.

        ratio of the Blackburn law of 304 at 5 % strain, plus or minus 2 % where the
        temperatures differ by more than 2 K; where martensite is not excluded (`covered`
        false) the half-width is 15 % and the likely value 1

    Source: blackburn-304, temperature terms; own-judgement, half-widths.
    Checked: tests/unit/steel/test_effects.py
    Raises NoSolution outside 5 to 40 degC.
    """
    if np.any(np.less(water, COLDEST)) or np.any(np.greater(water, WARMEST)):
        raise NoSolution(
            "water temperature",
            f"{float(np.ravel(water)[0]):.3g} degC; the curves hold from 5 to 40 degC",
            'temperature = "20 °C", or a coupon pulled at the temperature of the water',
        )
    if not covered:
        return Effect("temperature_martensite", 0.85, 1.0, 1.15)
    there = blackburn_304(np.add(water, 273.15)).stress(strain)
    here = blackburn_304(np.add(test, 273.15)).stress(strain)
    likely = np.divide(there, here)
    width = np.where(np.abs(np.subtract(water, test)) > 2.0, _TEMPERATURE_BAND, 0.0)
    return Effect("temperature", likely * (1.0 - width), likely, likely * (1.0 + width))


def bands(stress: Pascal, half_width: Ratio, effects: tuple[Effect, ...]) -> tuple[Band, ...]:
    """Flow stress after the curve's own spread and after each effect in turn.

        likely values multiply; logarithms of low and high over likely add in squares

    Source: own-derivation, product of independent log-normal factors, two-sided.
    Checked: tests/unit/steel/test_effects.py
    """
    likely = stress
    below = above = float(np.log1p(half_width))
    rows = [_band("curve", likely, below, above)]
    for effect in effects:
        likely = likely * effect.likely
        below = float(np.hypot(below, np.log(effect.likely / effect.low)))
        above = float(np.hypot(above, np.log(effect.high / effect.likely)))
        rows.append(_band(effect.code, likely, below, above))
    return tuple(rows)


def _band(code: str, likely: Pascal, below: float, above: float) -> Band:
    return Band(code, likely * np.exp(-below), likely, likely * np.exp(above))


def net_hardening(curve: Curve, strain: Strain) -> Pascal:
    """Hardening less geometric softening of a closed cylinder at constant pressure.

        theta = ds/dx - sqrt(3) s, equivalent quantities

    Source: own-derivation, thinning and widening of the wall.
    Checked: tests/verification/test_effects_hold.py
    """
    return curve.slope(strain) - _ROOT3 * curve.stress(strain)


def hold_growth(
    rate_stress: Pascal, hardening: Pascal, first_rate: PerSecond, time: Second
) -> Strain:
    """Equivalent strain gained in a hold at constant pressure.

        (S / theta) ln(1 + theta r0 t / S),  S = m s, theta from net_hardening

    Times 0.866 for hoop strain.

    Source: own-derivation, s = s(x) + S ln(rate) at constant pressure.
    Checked: tests/verification/test_effects_hold.py
    Raises NoSolution where theta is not positive: the wall then runs away in finite time.
    """
    if np.any(np.less_equal(hardening, 0.0)):
        raise NoSolution(
            "hold",
            "the wall softens faster than it hardens at this strain: growth does not die out",
            "release the pressure; a smaller target",
        )
    reach = np.divide(rate_stress, hardening)
    return reach * np.log1p(np.multiply(first_rate, time) / reach)


def hold_time(reach: Strain, first_rate: PerSecond, end_rate: PerSecond) -> Second:
    """Time until growth has slowed to a rate, for a hoop growth `reach` per e-fold of time.

        t = reach (1 / end - 1 / first)

    Source: own-derivation, derivative of the logarithmic hold growth.
    Checked: tests/verification/test_effects_hold.py
    """
    return np.asarray(np.maximum(reach * (1.0 / end_rate - 1.0 / first_rate), 0.0))


def plastic_work(curve: Curve, strain: Strain) -> Pascal:
    """Work per volume done on the wall up to an equivalent plastic strain (J/m3 = Pa).

        integral of s dx, by Gauss points on the square root of the strain

    Source: own-derivation, definition.
    Checked: tests/verification/test_effects_hold.py
    """
    nodes, weights = np.polynomial.legendre.leggauss(40)
    u, w = 0.5 * (nodes + 1.0), 0.5 * weights
    x = np.multiply.outer(np.asarray(strain, dtype=np.float64), u * u)
    stress = np.asarray(curve.stress(x), dtype=np.float64)
    return np.asarray(np.sum(stress * (2.0 * u * w), axis=-1) * strain)


def adiabatic_rise(work: Pascal, density: Ratio, heat_capacity: Ratio) -> Kelvin:
    """Warming of the wall if no heat left it.

        0.9 work / (density heat capacity), in kg/m3 and J/(kg K)

    Source: own-derivation, nine tenths of the work becoming heat is common practice.
    Checked: tests/verification/test_effects_hold.py
    """
    return _HEAT_SHARE * work / (np.multiply(density, heat_capacity))


def warming(stress: Pascal, rate: PerSecond, wall: Metre, conductivity: Ratio = 15.0) -> Kelvin:
    """Steady warming of a wall with still water on one side while it stretches.

        0.9 s rate (wall^2 / (2 k) + wall / h),  k in W/(m K), h = 100 W/(m2 K)

    Far below the adiabatic value at any speed a hand pump reaches: the wall stays at the
    temperature of the water.

    Source: own-derivation, conduction with even sources; own-judgement, film of still water.
    Checked: tests/unit/steel/test_effects.py
    """
    source = _HEAT_SHARE * stress * rate
    return source * (np.square(wall) / (2.0 * np.asarray(conductivity)) + wall / _FILM)


def combined_factor(effects: tuple[Effect, ...]) -> Array:
    """Low, likely and high of all effects together, as one row.

        see bands, with a stress of 1 and no spread of the curve

    Source: own-derivation, see bands.
    Checked: tests/unit/steel/test_effects.py
    """
    last = bands(1.0, 0.0, effects)[-1]
    return np.array([last.low, last.likely, last.high], dtype=np.float64)

"""Numbers for people: MPa and mm, with a second unit in brackets; one place for all digits.

A workshop that wrote its job in inches reads inches and psi in the brackets, any other bar.
"""

from math import floor, isfinite, log10

from stretchform.si import (
    Celsius,
    CubicMetre,
    Joule,
    Metre,
    Newton,
    Pascal,
    Ratio,
    Second,
)
from stretchform.units import write

NOTHING = "–"


def pressure(value: Pascal, inches: bool = False) -> str:
    """2.013 MPa (20.13 bar), or with psi in the brackets."""
    places = min(3, _places(float(value) / 1e6, 4))
    return write(float(value), "MPa", places, "psi" if inches else "bar")


def stress(value: Pascal, inches: bool = False) -> str:
    """412 MPa, with ksi in the brackets for an inch job."""
    return write(float(value), "MPa", 0, "ksi" if inches else None)


def circumference(value: Metre, inches: bool = False) -> str:
    """2093.4 mm, with inches in the brackets for an inch job."""
    return write(float(value), "mm", 1, "in" if inches else None)


def size(value: Metre, inches: bool = False) -> str:
    """1.95 mm: a wall, a clearance or a slot."""
    return write(float(value), "mm", 2, "in" if inches else None)


def energy(value: Joule) -> str:
    """1.93 kJ or 1.03 MJ, three digits."""
    joules = float(value)
    unit, scale = ("MJ", 1e6) if joules >= 1e6 else ("kJ", 1e3) if joules >= 1e3 else ("J", 1.0)
    return write(joules, unit, _places(joules / scale, 3))


def force(value: Newton) -> str:
    """565 kN or 240 N."""
    newtons = float(value)
    unit, scale = ("kN", 1e3) if newtons >= 1e3 else ("N", 1.0)
    return write(newtons, unit, _places(newtons / scale, 3))


def temperature(value: Celsius, inches: bool = False) -> str:
    """15 °C, with °F in the brackets for an inch job."""
    return write(float(value), "°C", 0, "°F" if inches else None)


def percent(value: Ratio, digits: int = 2) -> str:
    """5.00 %: a growth or a share."""
    return write(float(value), "%", digits)


def chance(value: Ratio) -> str:
    """A chance without false digits: under 1 %, 35 %, over 99 %."""
    share = 100.0 * float(value)
    if share < 0.5:
        return "< 1 %"
    return "> 99 %" if share > 99.5 else f"{share:.0f} %"


def points(value: Ratio) -> str:
    """0.28 points: a difference of two growths."""
    return f"{100.0 * float(value):.2f} points" if isfinite(value) else NOTHING


def number(value: Ratio) -> str:
    """A pure number, three digits."""
    return f"{float(value):#.3g}".rstrip(".") if isfinite(value) else NOTHING


def milligrams(value: Ratio) -> str:
    """50 mg/l of chloride."""
    return write(float(value), "mg/l", 0)


def kilopascals(value: Pascal) -> str:
    """9.8 kPa: a small difference of pressures."""
    return write(float(value), "kPa", 1)


def litres(value: CubicMetre) -> str:
    """53.8 l of water, three digits; a volume below a litre in ml."""
    inside = float(value)
    unit, scale = ("l", 1e-3) if inside >= 1e-3 else ("ml", 1e-6)
    return write(inside, unit, _places(inside / scale, 3))


def minutes(value: Second) -> str:
    """30 min, or 1.4 h from two hours on."""
    seconds = float(value)
    if seconds >= 7200.0:
        return write(seconds, "h", 1)
    return write(seconds, "min", 0)


def bare(text: str) -> str:
    """A written quantity without its units: "2.01 MPa (20.1 bar)" becomes "2.01 (20.1)"."""
    first, _, second = text.partition(" (")
    number = first.split()[0]
    return f"{number} ({second.split()[0]})" if second else number


def stacked(text: str) -> str:
    """The same for a narrow cell: the second number in a line below."""
    return bare(text).replace(" (", "\n(")


def stacked_units(text: str) -> str:
    """A quantity with its units, the second one in a line below."""
    return text.replace(" (", "\n(")


def _places(value: float, digits: int) -> int:
    """Places after the point that give a number of digits, at least none."""
    if not isfinite(value) or value == 0.0:
        return 0
    return max(0, digits - 1 - floor(log10(abs(value))))

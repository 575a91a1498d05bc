"""Text with a unit to an SI number and back; the only place that knows a unit's spelling.

A text is one number, then one unit from the list of spellings. Nothing is guessed: a decimal
comma, a missing unit or a unit of another kind is refused with a text that works. pint makes
the factors of our own spellings; no text of a user ever reaches its parser.
"""

import json
from functools import cache
from math import ceil, isfinite, log10
from typing import TYPE_CHECKING, Any

from stretchform.errors import InputError
from stretchform.units.mistakes import sample, split, trouble
from stretchform.units.spellings import DIMENSIONS, Dimension

if TYPE_CHECKING:
    from stretchform.si import Number


def read(
    text: str, dimension: str, where: str = "", key: str = "", usual: str | None = None
) -> float:
    """The SI number of a text like "2.0 mm"; temperatures in °C, per cent as a fraction.

    `where` is the place for the message; with a `key` the proposed line reads key = "...";
    `usual` is the unit to propose where none is written.
    Raises InputError with a text that works.
    """
    kind = DIMENSIONS[dimension]
    usual = usual or kind.usual
    value, problem, cure = _value(text, kind, usual)
    if problem:
        if _value(cure, kind, usual)[1]:
            cure = sample(usual)
        place = f"{where} = {shown(text)}" if where else shown(text)
        raise InputError(place, problem, line(key, cure))
    return value


def write(value: "Number", unit: str, digits: int = 1, second: str | None = None) -> str:
    """An SI number in a unit, with `digits` after the point; `second` follows in brackets.

    The second one shows about the same relative step: its digits follow from the first one's.
    """
    first = float(convert(value, unit))
    if not isfinite(first):
        return "–"
    text = f"{_fixed(first, digits)} {unit}"
    if second is None:
        return text
    other = float(convert(value, second))
    return f"{text} ({_fixed(other, _digits_like(first, digits, other))} {second})"


def convert(value: "Number", unit: str) -> Any:
    """A number or an array in SI (°C for temperatures), in another unit."""
    kind = _kind_of(unit)
    factor, offset = _factor(kind.spellings[unit], kind.base)
    return (value - offset) / factor


def line(key: str, text: str) -> str:
    """A line of a job file: key = "text", quoted so that TOML reads it."""
    return f"{key} = {_quote(text)}" if key else _quote(text)


def shown(text: str, longest: int = 60) -> str:
    """A user's text in quotes, cut short, without control characters."""
    cut = text if len(text) <= longest else text[:longest] + "..."
    return _quote("".join(c if c.isprintable() else "?" for c in cut))


def _quote(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _value(text: str, kind: Dimension, usual: str) -> tuple[float, str, str]:
    """The number, or the trouble and a text that works."""
    problem, cure = trouble(text, kind, usual)
    if problem:
        return 0.0, problem, cure
    number, unit = split(text)
    factor, offset = _factor(kind.spellings[unit], kind.base)
    value = float(number) * factor + offset
    return value, _absurd(value, kind), sample(usual)


def _absurd(value: float, kind: Dimension) -> str:
    if not isfinite(value) or abs(value) > kind.highest:
        return f"absurdly large for {kind.article}"
    if kind.base == "degree_Celsius":
        return "colder than absolute zero" if value < -273.15 else ""
    if 0 < abs(value) < kind.lowest:
        return f"absurdly small for {kind.article}"
    return ""


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry()


@cache
def _factor(unit: str, base: str) -> tuple[float, float]:
    """SI = factor * number + offset, from pint; `unit` is always one of our own texts."""
    if unit == base:
        return 1.0, 0.0
    quantity = _registry().Quantity
    if base != "degree_Celsius":
        return float(quantity(1.0, unit).to(base).magnitude), 0.0
    step = "kelvin" if unit == "kelvin" else f"delta_{unit}"
    factor = float(quantity(1.0, step).to("kelvin").magnitude)
    return factor, float(quantity(0.0, unit).to(base).magnitude)


@cache
def _kind_of(unit: str) -> Dimension:
    """The kind of quantity of a unit; a plain g is a gram here."""
    for kind in (DIMENSIONS["mass"], *DIMENSIONS.values()):
        if unit in kind.spellings:
            return kind
    raise ValueError(f"no dimension has the unit {unit!r}")


def _fixed(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.removeprefix("-") if float(text) == 0 else text


def _digits_like(first: float, digits: int, other: float) -> int:
    """Digits that show about the same relative step of the other number."""
    if first == 0 or other == 0:
        return digits
    return max(0, min(9, digits + ceil(log10(abs(first / other)) - 0.35)))

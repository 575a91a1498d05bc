"""What can be wrong with a number and its unit, and a text that works instead."""

import re
from difflib import get_close_matches
from unicodedata import normalize

from stretchform.units.spellings import DIMENSIONS, Dimension

_NOT_GAUGE = {"bara": "bar", "bar(a)": "bar", "bar a": "bar", "psia": "psi", "psi(a)": "psi"}
_TWO_MEANINGS = {
    "C": ("C is a charge, not a temperature", "°C"),
    "F": ("F is a capacitance, not a temperature", "°F"),
    "gal": ("a gallon is not the same everywhere", "US gal"),
    "gpm": ("a gallon is not the same everywhere", "US gal/min"),
}
_QUOTABLE = {'"': "in", "″": "in", "'": "ft", "′": "ft"}  # needs no care inside quotes
_NUMBER = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?"
_PLAIN = re.compile(rf"({_NUMBER})\s*(.*)", re.DOTALL)
_MARKED = re.compile(r"([+-]?[0-9](?:[0-9.,'’_]|\s(?=[0-9]{3}(?![0-9/])))*)(.*)", re.DOTALL)
_FRACTION = re.compile(r"(?:([0-9]{1,6})[\s-]+)?([0-9]{1,6})\s*/\s*([0-9]{1,6})(.*)", re.DOTALL)
_SECOND = re.compile(
    rf"[^0-9.]*?(?:±|\+/-|[-–—]|\.\.+|\bto\b)\s*{_NUMBER}(?!\s*/)(.*)", re.DOTALL
)
_LONGEST = 80


def split(text: str) -> tuple[str, str]:
    """Number and unit of a text in which `trouble` found nothing."""
    match = _PLAIN.fullmatch(text.strip())
    if match is None:
        raise ValueError(f"{text!r} was not checked before it was split")
    return match[1], _one_space(match[2])


def trouble(text: str, kind: Dimension, usual: str) -> tuple[str, str]:
    """What is wrong with a text and a text that works; two empty ones if nothing is."""
    clean = text.strip()
    if not clean:
        return "nothing written", sample(usual)
    if len(clean) > _LONGEST:
        return f"{len(clean)} characters where a number with a unit is meant", sample(usual)
    for look in (_not_one_number, _comma_or_gap, _fraction):
        problem, cure = look(clean, kind, usual)
        if problem:
            return problem, cure
    match = _PLAIN.fullmatch(clean)
    if match is None:
        return f"not a number with a unit; {kind.article} is meant", sample(usual)
    return _unit_trouble(match[1], _one_space(match[2]), kind, usual)


def sample(usual: str) -> str:
    """A text that works where nothing can be saved of what was written."""
    samples = {"mm": "2.0 mm", "bar": "12.0 bar", "%": "5 %", "MPa": "300 MPa", "°C": "20 °C"}
    return samples.get(usual, f"1.0 {usual}")


def _one_space(text: str) -> str:
    """One plain space where there is any; the two signs for micro made one."""
    return " ".join(text.split()).replace("μ", "µ")


def _not_one_number(text: str, kind: Dimension, usual: str) -> tuple[str, str]:
    if re.match(r"[+-]?(nan|inf(inity)?)\b", text, re.IGNORECASE):
        return "not a finite number", sample(usual)
    if text[0] in "−–—":
        return "a dash for a minus sign", _mended("-" + text[1:].lstrip(), kind, usual)
    if text[0] in "<>~≈≤≥±":
        cure = _mended(text.lstrip("<>~≈≤≥±= "), kind, usual)
        return f"{text[0]} before the number; one number is meant", cure
    plain = _PLAIN.fullmatch(text)
    span = plain and _SECOND.fullmatch(plain[2])
    if plain and span:
        return "two numbers where one is meant", _mended(f"{plain[1]} {span[1]}", kind, usual)
    return "", ""


def _comma_or_gap(text: str, kind: Dimension, usual: str) -> tuple[str, str]:
    """Decimal commas and every way to set thousands apart."""
    match = _MARKED.fullmatch(text)
    if match is None:
        return "", ""
    number, rest = match[1], match[2]
    closed = re.sub(r"[\s'’_]", "", number)
    if closed == number and "," not in number and number.count(".") < 2:
        return "", ""
    if re.search(r"[.,][0-9]{0,2}[.,]", closed):
        return "more than one decimal mark", sample(usual)
    cure = _mended(_pointed(closed) + rest, kind, usual)
    if re.fullmatch(r"[+-]?[1-9][0-9]{0,2},[0-9]{3}", number):
        return f"decimal comma (or thousands: then {number.replace(',', '')})", cure
    if re.fullmatch(r"[+-]?[0-9]+,[0-9]*", number):
        return "decimal comma", cure
    return "thousands set apart in a number", cure


def _pointed(number: str) -> str:
    """The number with one decimal point: the last mark, unless it stands there twice."""
    last = max(number.rfind("."), number.rfind(","))
    if last < 0:
        return number
    whole, rest = re.sub("[.,]", "", number[:last]), number[last + 1 :]
    alone = number.count(number[last]) == 1
    return f"{whole}.{rest}" if alone and rest else whole + rest


def _fraction(text: str, kind: Dimension, usual: str) -> tuple[str, str]:
    """1 1/2, 1-1/2, 11/16 and the single signs such as ½."""
    opened = "".join(f" {_opened(c)}" if "⁄" in normalize("NFKC", c) else c for c in text)
    match = _FRACTION.fullmatch(opened.strip())
    if match is None or int(match[3]) == 0:
        return "", ""
    value = float(match[1] or 0) + int(match[2]) / int(match[3])
    return "a fraction; decimals are meant", _mended(f"{value:.6g}{match[4]}", kind, usual)


def _opened(character: str) -> str:
    return normalize("NFKC", character).replace("⁄", "/")


def _unit_trouble(number: str, unit: str, kind: Dimension, usual: str) -> tuple[str, str]:
    if unit in kind.spellings:
        return "", ""
    if not unit:
        return _no_unit(number, kind, usual)
    if unit in _NOT_GAUGE and "bar" in kind.spellings:
        return "an absolute pressure; gauge is meant", f"{number} {_NOT_GAUGE[unit]}"
    if unit in ("mPa", "mpa") and "MPa" in kind.spellings:
        return "mPa is a millipascal; megapascal is written MPa", f"{number} MPa"
    if unit in _TWO_MEANINGS and _TWO_MEANINGS[unit][1] in kind.spellings:
        problem, better = _TWO_MEANINGS[unit]
        return problem, f"{number} {better}"
    return _unknown_unit(number, unit, kind, usual)


def _no_unit(number: str, kind: Dimension, usual: str) -> tuple[str, str]:
    """A number below one where per cent is usual was most likely meant as a fraction."""
    value = float(number)
    if usual == "%" and 0 < abs(value) < 1:
        percent = f"{100 * value:g} %"
        return f"no unit; as a fraction this is {percent}", percent
    return f"no unit; {kind.article} is meant", f"{number} {usual}"


def _unknown_unit(number: str, unit: str, kind: Dimension, usual: str) -> tuple[str, str]:
    other = next((k.article for k in DIMENSIONS.values() if unit in k.spellings), None)
    if other is not None:
        return f"{unit} is {other}, not {kind.article}", f"{number} {usual}"
    allowed = ", ".join(list(kind.spellings)[:7])
    printable = "".join(c if c.isprintable() else "?" for c in unit[:20])
    problem = f"unknown unit '{printable}' for {kind.article} (known: {allowed} ...)"
    return problem, f"{number} {_near(unit, kind) or usual}"


def _near(unit: str, kind: Dimension) -> str | None:
    """A spelling of the same letters in another case, or else a close one."""
    same = [s for s in kind.spellings if s.casefold() == unit.casefold()]
    close = same or get_close_matches(unit, kind.spellings, n=1, cutoff=0.6)
    return _QUOTABLE.get(close[0], close[0]) if close else None


def _mended(text: str, kind: Dimension, usual: str) -> str:
    """A mended text if it can be read now, or mended once more; else a sample."""
    match = _PLAIN.fullmatch(text.strip())
    if match is None:
        return sample(usual)
    number, unit = match[1], _one_space(match[2])
    unit = _QUOTABLE.get(unit, unit)
    return _unit_trouble(number, unit, kind, usual)[1] or f"{number} {unit}"

"""What may stand behind a key of a job file: quantities, words, choices, counts, yes or no.

Each kind reads one TOML value, or refuses it with what is wrong and a text that works, and
describes itself for the JSON Schema. Nothing is guessed and no unit is taken for granted.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from stretchform import units
from stretchform.errors import InputError
from stretchform.units.mistakes import split

_OTHER_UNITS = {
    "pressure": ("MPa", "bar", "ksi", "psi", "kPa"),
    "length": ("mm", "in", "cm", "m"),
    "growth": ("%",),
}


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """One kind of value: how it is read, a sample as TOML, its JSON Schema."""

    sample: str
    read: Callable[[Any], Any]
    schema: dict[str, Any]

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return self.schema


def mistake(problem: str, cure: str) -> PydanticCustomError:
    """A refusal: the trouble, and what may stand behind the key instead."""
    return PydanticCustomError("mistake", "{problem}", {"problem": problem, "cure": cure})


def quantity(dimension: str, sample: str, lowest: str, highest: str, says: str) -> Kind:
    """A number with a unit between two limits, read as an SI number."""
    usual = split(sample)[1]

    def read(value: Any) -> float:
        text = _as_text(value, sample)
        try:
            number = units.read(text, dimension, usual=usual)
        except InputError as error:
            cure = _working(error.fix, text, dimension, (sample, lowest, highest))
            raise mistake(error.problem, cure) from error
        low, high = units.read(lowest, dimension), units.read(highest, dimension)
        slack = 1e-9 * max(abs(low), abs(high))  # 0.3 mm written in inches is still 0.3 mm
        if not low - slack <= number <= high + slack:
            raise _out_of_range(text, dimension, sample, lowest, highest)
        return number

    schema = {"type": "string", "examples": [sample]}
    schema["description"] = f"{says} ({lowest} to {highest})"
    return Kind(f'"{sample}"', read, schema)


def words(longest: int, sample: str, says: str) -> Kind:
    """A text in one line."""

    def read(value: Any) -> str:
        cure = units.line("", sample)
        if not isinstance(value, str):
            raise mistake("a text in quotation marks is meant", units.line("", str(value)[:40]))
        text = " ".join(value.split())
        if not text:
            raise mistake("nothing written", cure)
        if len(text) > longest:
            raise mistake(f"longer than {longest} characters", units.line("", text[:longest]))
        if not text.isprintable():
            printable = "".join(c for c in text if c.isprintable()) or sample
            raise mistake("characters that cannot be printed", units.line("", printable))
        return text

    schema = {"type": "string", "maxLength": longest, "examples": [sample]}
    return Kind(units.line("", sample), read, schema | {"description": says})


def choice(options: Sequence[str], says: str) -> Kind:
    """One word of a list, with the nearest one proposed."""

    def read(value: Any) -> str:
        if isinstance(value, str) and value.strip() in options:
            return value.strip()
        near = get_close_matches(str(value).strip().lower(), options, n=1, cutoff=0.5)
        cure = units.line("", (near or list(options))[0])
        raise mistake(f"not one of: {', '.join(options)}", cure)

    schema = {"type": "string", "enum": list(options), "description": says}
    return Kind(units.line("", options[0]), read, schema)


def count(lowest: int, highest: int, sample: int, says: str) -> Kind:
    """A whole number, bare because it has no unit."""

    def read(value: Any) -> int:
        if isinstance(value, str) and value.strip().isdecimal() and value.isascii():
            raise mistake("a bare number is meant, without quotation marks", value.strip())
        if isinstance(value, bool) or not isinstance(value, int):
            raise mistake("a whole number is meant", str(sample))
        if not lowest <= value <= highest:
            raise mistake(f"outside {lowest} to {highest}", str(sample))
        return value

    schema = {"type": "integer", "minimum": lowest, "maximum": highest, "description": says}
    return Kind(str(sample), read, schema)


def yes_or_no(says: str) -> Kind:
    """true or false."""

    def read(value: Any) -> bool:
        if isinstance(value, bool):
            return value
        no = str(value).strip().lower() in ("false", "no", "0", "off", "n")
        raise mistake("true or false is meant, bare", "false" if no else "true")

    return Kind("true", read, {"type": "boolean", "description": says})


def _working(cure: str, text: str, dimension: str, range_: tuple[str, str, str]) -> str:
    """The first of: the proposed text, the one without commas, the sample, that will do."""
    sample, lowest, highest = range_
    low, high = units.read(lowest, dimension), units.read(highest, dimension)
    for proposal in (cure.strip('"'), text.replace(",", "")):
        try:
            if low <= units.read(proposal, dimension) <= high:
                return f'"{" ".join(proposal.split())}"'
        except InputError:
            continue
    return f'"{sample}"'


def _as_text(value: Any, sample: str) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, int | float) and not isinstance(value, bool):
        return repr(value)
    raise mistake("a number with a unit is meant", f'"{sample}"')


def _out_of_range(
    text: str, dimension: str, sample: str, lowest: str, highest: str
) -> PydanticCustomError:
    """The refusal; where the same number in another unit makes sense, that one is asked for."""
    number, unit = split(text)
    low, high = units.read(lowest, dimension), units.read(highest, dimension)
    for other in _OTHER_UNITS.get(dimension, ()):
        factor = 100.0 if dimension == "growth" else 1.0  # 0.05 % where 0.05 was the fraction
        meant = f"{factor * float(number):g} {other}"
        if other != unit or factor > 1.0:
            value = units.read("1 " + other, dimension) * factor * float(number)
            if low <= value <= high:
                problem = f"outside {lowest} to {highest}; was {meant} meant?"
                return mistake(problem, f'"{meant}"')
    return mistake(f"outside {lowest} to {highest}", f'"{sample}"')

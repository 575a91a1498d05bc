"""What the program says to people about cautions; one text for each code, always with headings."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from stretchform.planning.cautions import Caution
from stretchform.report import (
    words_limits,
    words_means,
    words_numbers,
    words_seams,
    words_shape,
    words_steel,
    words_supply,
)
from stretchform.report.words_text import Text

TEXTS: Mapping[str, Text] = {
    **words_supply.TEXTS,
    **words_means.TEXTS,
    **words_limits.TEXTS,
    **words_steel.TEXTS,
    **words_seams.TEXTS,
    **words_shape.TEXTS,
}
HEADINGS = ("means", "why", "do", "source")
LEVEL_WORDS = {"block": "BLOCK", "care": "CARE", "note": "note"}


@dataclass(frozen=True, slots=True)
class _Shown:
    """A number that a detail shows by kind: {relief:pressure}."""

    value: float
    inches: bool

    def __format__(self, kind: str) -> str:
        if self.value == inf:
            return "beyond the maximum"
        if kind == "pressure":
            return words_numbers.pressure(self.value, self.inches)
        if kind == "temperature":
            return words_numbers.temperature(self.value, self.inches)
        if kind == "percent":
            return words_numbers.percent(self.value)
        if kind == "share":
            return words_numbers.percent(self.value, 0)
        if kind == "litres":
            return words_numbers.litres(self.value)
        if kind == "milligrams":
            return words_numbers.milligrams(self.value)
        return words_numbers.number(self.value)


def line(caution: Caution, inches: bool = False, withheld: bool = False) -> str:
    """One line for a screen: what it is, with the numbers of the case in brackets."""
    short = TEXTS[caution.code].short
    numbers = detail(caution, inches, withheld)
    return f"{short} ({numbers})" if numbers else short


def detail(caution: Caution, inches: bool = False, withheld: bool = False) -> str:
    """The numbers and names of the case; empty where they would tell a withheld pressure."""
    text = TEXTS[caution.code]
    if not text.detail or (withheld and text.tells_pressure):
        return ""
    numbers = {name: _Shown(value, inches) for name, value in caution.numbers.items()}
    return text.detail.format(names=", ".join(caution.names), **numbers)


def full(caution: Caution, inches: bool = False, withheld: bool = False) -> dict[str, str]:
    """The whole text by heading: what it means, why it matters, what to do, source."""
    text = TEXTS[caution.code]
    return {
        "short": line(caution, inches, withheld),
        "means": text.means,
        "why": text.why,
        "do": text.do,
        "source": text.source,
    }


def tells_pressure(code: str) -> bool:
    """Whether the numbers of this caution give away a pressure."""
    return TEXTS[code].tells_pressure

"""Blocks and pictures as one HTML file: nothing is fetched, no script runs, all text is escaped."""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from typing import TYPE_CHECKING, TypeAlias

from stretchform.report.chart_picture import Picture
from stretchform.report.tables import Block

if TYPE_CHECKING:
    from jinja2 import Environment

Part: TypeAlias = Block | Picture
_HEADWORD = re.compile(r"^(?:[A-Z]{2,}[A-Z ]*:|BLOCK [a-z_]+:|WITHHELD\b)")


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the page with a heading; `name` is the place that links point to."""

    name: str
    title: str
    parts: tuple[Part, ...]


def render(template: str, **data: object) -> str:
    """A template filled in; the same data give the same bytes."""
    text = _environment().get_template(template).render(**data)
    return "\n".join(line.rstrip() for line in text.split("\n") if line.strip()) + "\n"


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=PackageLoader("stretchform.report", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        finalize=_finalized,
    )
    made.filters |= {"grouped": _grouped, "headword": _headword}
    return made


def _finalized(value: object) -> object:
    """Plain text without the characters that HTML forbids; marked-up text stays as it is."""
    return printable(value) if type(value) is str else value


def printable(text: str) -> str:
    """A text without control, private and unassigned characters; line ends and blanks stay."""
    return "".join(
        letter
        for letter in text
        if letter in "\n\t" or unicodedata.category(letter) not in ("Cc", "Cs", "Cn", "Co")
    )


def _headword(text: str) -> tuple[str, str]:
    """A capital word with a colon at the beginning, and the rest."""
    found = _HEADWORD.match(text)
    return ("", text) if found is None else (found.group(0), text[found.end() :])


def _grouped(lines: tuple[str, ...]) -> list[tuple[str, list[str]]]:
    """Lines in order as paragraphs, set-in paragraphs and lists."""
    return [
        (kind, [line.strip().removeprefix("- ") for line in found])
        for kind, found in groupby(lines, _kind)
    ]


def _kind(line: str) -> str:
    if line.startswith("- "):
        return "list"
    return "hang" if line.startswith("  ") else "plain"

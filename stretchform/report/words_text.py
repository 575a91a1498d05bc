"""The form of a caution's text: the same headings for every one of them."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Text:
    """One caution in plain English.

    `detail` holds the numbers of the case as {name:kind}, {names} for what it is about; it is
    left out where a plan is withheld and `tells_pressure` says that it would give one away.
    """

    short: str  # one line for the screen
    means: str
    why: str
    do: str
    source: str  # key of the bibliography, or own-judgement
    detail: str = ""
    tells_pressure: bool = False

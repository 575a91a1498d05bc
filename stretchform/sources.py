"""Where every number comes from: the Datum and the ways a number can reach us."""

from dataclasses import dataclass
from enum import StrEnum
from math import isfinite


class How(StrEnum):
    """How a number reached us; the report prints it beside the number."""

    SEEN = "seen"  # read in the source itself
    MEASURED = "measured"  # from a coupon or a tank in this workshop
    DERIVED = "derived"  # computed from other numbers that have sources
    MEMORY = "memory"  # remembered, not checked: never used without a caution
    PRACTICE = "practice"  # common practice, no source
    JUDGED = "judged"  # own judgement of this project, printed with the result
    INVENTED = "invented"  # for demos and tests only


@dataclass(frozen=True, slots=True)
class Datum:
    """One number with its uncertainty and its source.

    A Datum cannot exist without a source: a number that nobody can trace is refused here,
    not later in a review.
    """

    value: float  # SI
    std: float | None  # standard uncertainty, SI; None when the source gives none
    source: str  # key in materials/sources.toml
    where: str  # page, table, figure or equation
    how: How

    def __post_init__(self) -> None:
        if not isfinite(self.value):
            raise ValueError(f"a Datum needs a finite value, got {self.value}")
        if not (self.source and self.where):
            raise ValueError("a Datum needs a source and a place in it")
        if self.std is not None and not self.std >= 0:
            raise ValueError(f"std must not be negative, got {self.std}")


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of the bibliography in materials/sources.toml."""

    key: str
    title: str
    place: str  # publisher, year, standard number or repository with commit
    licence: str

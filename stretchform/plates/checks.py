"""One checked number of a plate: value, limit and result, as data and without a sentence."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from stretchform.si import Number

SOURCES = ("own-derivation",)

Result: TypeAlias = Literal["ok", "care", "fails"]
UnitKind: TypeAlias = Literal[
    "metre", "strain", "newton", "newton_metre", "pascal", "radian", "ratio", "kilogram"
]


@dataclass(frozen=True, slots=True)
class Check:
    """A value against the limit up to which it passes."""

    name: str
    value: float
    limit: float
    unit_kind: UnitKind
    result: Result
    at_least: bool = False  # True: the value must not be smaller than the limit

    @property
    def use(self) -> float:
        """Share of the limit that is used; above 1 the check does not pass."""
        over, under = (self.limit, self.value) if self.at_least else (self.value, self.limit)
        if over <= 0.0:
            return 0.0
        return over / under if under > 0.0 else float("inf")


def at_most(
    name: str,
    value: Number,
    limit: Number,
    unit_kind: UnitKind,
    fails_above: Number | None = None,
) -> Check:
    """Check that a value stays at or below its limit; care up to `fails_above` if given.

    Source: own-derivation, comparison of two numbers.
    Checked: tests/unit/plates/test_plates_checks.py (both sides of both limits).
    Raises nothing.
    """
    found, allowed = float(value), float(limit)
    last = allowed if fails_above is None else float(fails_above)
    result: Result = "ok" if found <= allowed else "care" if found <= last else "fails"
    return Check(name, found, allowed, unit_kind, result)


def at_least(
    name: str,
    value: Number,
    limit: Number,
    unit_kind: UnitKind,
    fails_below: Number | None = None,
) -> Check:
    """Check that a value reaches its limit; care down to `fails_below` if given.

    Source: own-derivation, comparison of two numbers.
    Checked: tests/unit/plates/test_plates_checks.py (both sides of both limits).
    Raises nothing.
    """
    found, needed = float(value), float(limit)
    last = needed if fails_below is None else float(fails_below)
    result: Result = "ok" if found >= needed else "care" if found >= last else "fails"
    return Check(name, found, needed, unit_kind, result, at_least=True)


def governing(checks: Sequence[Check]) -> str | None:
    """Name of the check that decides: the worst result, and of those the most used limit.

    Source: own-derivation, comparison of shares.
    Checked: tests/unit/plates/test_plates_checks.py (a failed check outranks a fuller one).
    Raises nothing; None without checks.
    """
    rank = {"ok": 0, "care": 1, "fails": 2}
    worst = max(checks, key=lambda check: (rank[check.result], check.use), default=None)
    return worst.name if worst else None

"""Which arms would do: a table over kind and depth, and the one that takes least space.

Space is the piece of plate that one arm with its slots takes. Arms without any care go before
arms with one. Sliding tabs rattle, wear and leave a gap that holds water: they are offered in
the table, and proposed only where nothing welded passes.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil, floor, inf, isfinite

from stretchform.plates import review
from stretchform.plates.case import PlateCase, PlateResult, Slot
from stretchform.plates.design import size
from stretchform.si import Metre, SquareMetre

SOURCES = ("own-derivation",)

LIMBS = (2, 3)
_SOFTER = ("restraint of the wall", "dent of the wall", "tipping of the arm")
_LENGTHS = (1.15, 1.3, 1.6, 2.0)  # of the length that the strain asks for
_TRIES = 4  # best options that are solved by the beam before giving up


@dataclass(frozen=True, slots=True)
class Option:
    """One kind and depth of arm for a plate, and what comes out."""

    case: PlateCase
    result: PlateResult
    space: SquareMetre  # of one arm

    @property
    def cares(self) -> int:
        """Number of checks that ask for care."""
        return sum(check.result == "care" for check in self.result.checks)


@dataclass(frozen=True, slots=True)
class Proposal:
    """The chosen arm, or none; and for every option that does not pass the reason."""

    chosen: Option | None
    options: tuple[Option, ...]
    reasons: tuple[tuple[str, Metre, str], ...]  # kind, depth, code or name of the check


def depths(thickness: Metre) -> tuple[Metre, ...]:
    """Depths on full millimetres from three to eight plate thicknesses, 4 mm at least.

    Source: own-derivation, the range of depths that neither tips nor burns away.
    Checked: tests/unit/plates/test_plates_options.py (thin and thick plate).
    Raises nothing.
    """
    least = max(ceil(3e3 * float(thickness) - 1e-9), 4)
    most = max(floor(8e3 * float(thickness) + 1e-9), least)
    step = max(ceil((most - least) / 8), 1)
    return tuple(1e-3 * value for value in range(least, most + 1, step))


def space(case: PlateCase, result: PlateResult) -> SquareMetre:
    """Plate that one arm with its slots and its stalk takes.

        slot length * (rise of the stalk over the gap + limbs, folds and slot across)

    A sliding tab takes its slot and its overlap.

    Source: own-derivation, geometry.
    Checked: tests/unit/plates/test_plates_options.py (by hand).
    Raises nothing.
    """
    if result.kind == "sliding":
        return float(result.slot_length) * float(result.slot_width)
    if result.kind == "none" or not isfinite(float(result.arm_length)):
        return 0.0 if result.kind == "none" else inf
    rise = float(result.stalk) - float(result.clearance_before)
    slot = Slot(
        float(result.slot_length), float(result.slot_width), float(result.slot_end_radius)
    )
    return slot.length * (rise + float(review.across(case, slot)))


def options(case: PlateCase, tried: tuple[Metre, ...] | None = None) -> tuple[Option, ...]:
    """Table over kind and depth by the closed formulas, lengths sized.

    Source: own-derivation, `design.size` for each.
    Checked: tests/unit/plates/test_plates_options.py (kinds and depths present, order).
    Raises InputError as `design.size` does.
    """
    found = [
        _option(variant, exact=False)
        for variant in _variants(case, tried or depths(case.thickness))
    ]
    return tuple(sorted(found, key=_rank))


def propose(case: PlateCase, kinds: tuple[str, ...] | None = None) -> Proposal:
    """The arm that passes every check with the least space, by the beam.

    `kinds` limits the choice; None: single, folded and bridge, and sliding where none passes.

    Source: own-derivation, search over `options`.
    Checked: tests/verification/test_plates_proposals.py (random plates).
    Raises InputError as `design.size` does.
    """
    table = options(case)
    welded = kinds or ("single", "folded", "bridge")
    chosen = _first_passing(table, welded)
    if chosen is None and kinds is None:
        chosen = _first_passing(table, ("sliding",))
    reasons = tuple(
        (option.case.kind, option.case.depth, _reason(option.result))
        for option in table
        if not option.result.passes
    )
    return Proposal(chosen, table, reasons)


def _variants(case: PlateCase, tried: tuple[Metre, ...]) -> Iterator[PlateCase]:
    """Every kind and depth of arm for a plate."""
    for depth in tried:
        free = replace(case, depth=depth, length=None, limbs=1, relieved=None)
        yield replace(free, kind="single")
        yield replace(free, kind="bridge")
        for limbs in LIMBS:
            yield replace(free, kind="folded", limbs=limbs)
    yield replace(case, kind="sliding", length=None, depth=max(float(case.depth), 6e-3))


def _option(case: PlateCase, exact: bool) -> Option:
    result = size(case, exact)
    return Option(case, result, space(case, result))


def _rank(option: Option) -> tuple[bool, bool, float]:
    return not option.result.passes, option.cares > 0, float(option.space)


def _first_passing(table: tuple[Option, ...], kinds: tuple[str, ...]) -> Option | None:
    """Best option of some kinds that also passes by the beam, longer if its force asks."""
    wanted = [option for option in table if option.case.kind in kinds and _worth(option)]
    solved = [_softened(option.case) for option in wanted[:_TRIES]]
    passing = [option for option in solved if option.result.passes]
    return min(passing, key=_rank, default=None)


def _worth(option: Option) -> bool:
    """True if an arm passes, or fails only by its force, which more length lowers."""
    failing = {check.name for check in option.result.checks if check.result == "fails"}
    return not option.result.refused and failing <= set(_SOFTER)


def _softened(case: PlateCase) -> Option:
    """An arm by the beam, made longer until its force passes, if it can."""
    first = _option(case, exact=True)
    found = first
    for factor in _LENGTHS:
        if found.result.passes or not _worth(found):
            return found
        length = ceil(1e3 * factor * float(first.result.arm_length)) * 1e-3
        found = _option(replace(case, length=length), exact=True)
    return found


def _reason(result: PlateResult) -> str:
    """Code of the refusal, or the name of the check that fails."""
    if result.refused:
        return result.refused[0]
    return result.governs or review.NOTHING

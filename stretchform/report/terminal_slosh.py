"""Slosh of the contents before and after forming, as blocks for the screen."""

from stretchform.planning.plan import Plan, SloshPlan, SloshState
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Table

_OUTSIDE = {
    "wide-ring": "rings wider than a fifth of the radius",
    "near-surface": "rings less deep than the wave is high",
    "large-wave": "waves above a fifth of the radius",
}


def slosh(plan: Plan, inches: bool = False) -> list[Block]:
    """First mode across the axis, damping by the rings, and how far apart rings may stand."""
    found = plan.slosh
    if found is None:
        return []
    pairs = zip(_cells(found.before, inches), _cells(found.after, inches), strict=True)
    rows = tuple((what, before, after) for (what, before), (_, after) in pairs)
    rings = tuple(
        (
            f"ring at {numbers.circumference(plate.height, inches)} damps",
            numbers.percent(plate.damping.before),
            numbers.percent(plate.damping.after),
        )
        for plate in plan.plates
        if plate.damping is not None
    )
    columns = (Column("contents in use", right=False), Column("before"), Column("after"))
    return [Table("Slosh of the upright tank", columns, (*rows, *rings), _notes(found))]


def _cells(state: SloshState, inches: bool) -> list[tuple[str, str]]:
    damping = "not evaluated" if state.damping is None else numbers.percent(state.damping)
    spacing = numbers.NOTHING
    if state.spacing is not None:
        spacing = numbers.circumference(state.spacing, inches)
    return [
        ("level, same volume", numbers.circumference(state.level, inches)),
        ("first frequency across the axis", f"{float(state.mode.frequency):.3f} Hz"),
        ("share of the liquid that moves", numbers.percent(state.mode.mass_ratio, 1)),
        ("damping by wall and rings, of critical", damping),
        ("widest spacing of rings for 2 %", spacing),
    ]


def _notes(found: SloshPlan) -> tuple[str, ...]:
    notes = [
        f"For waves {numbers.percent(found.wave, 0)} of the radius high at the wall, assumed. "
        "Growth lowers the level, opens the gap and makes the rings small for the tank.",
        "Ring formula partly from memory; a ring that stands off the wall counts 0.7 of it.",
    ]
    if found.outside:
        stretched = ", ".join(_OUTSIDE.get(code, code) for code in found.outside)
        notes.append(f"Outside the range of the formulas: {stretched}.")
    if found.not_evaluated:
        names = ", ".join(found.not_evaluated)
        notes.append(f"Not evaluated, because they split the liquid: {names}.")
    return tuple(notes)

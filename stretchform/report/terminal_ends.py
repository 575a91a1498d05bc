"""Heads and openings of a plan as blocks for the screen."""

from stretchform.planning.plan import HeadPlan, OpeningPlan, Plan
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Table


def blocks(plan: Plan, inches: bool = False) -> list[Block]:
    """What the heads do, and where openings spoil a reading; nothing where there is nothing."""
    found: list[Block] = []
    if plan.heads:
        found.append(_heads(plan, inches))
    if plan.openings:
        found.append(_openings(plan, inches))
    return found


def _heads(plan: Plan, inches: bool) -> Table:
    unit, stress = ("mm\n(in)", "MPa\n(ksi)") if inches else ("mm", "MPa")
    geometry = (f"deeper,\npressed\n{unit}", f"deeper,\nreleased\n{unit}", "largest\nstrain")
    pressures = (
        f"first yield\nMPa ({'psi' if inches else 'bar'})",
        f"lowest\nhoop\n{stress}",
        "wrinkling\nratio",
    )
    heads = geometry if plan.withheld_by else (*geometry, *pressures)
    columns = (Column("head", right=False), *(Column(head) for head in heads))
    rows = tuple(_head(head, not plan.withheld_by, inches) for head in plan.heads)
    notes = (
        "Lowest hoop stress: below zero the wall is squeezed round. Wrinkling ratio: forming "
        "pressure over 1.5 times the pressure that a European rule allows for the knuckle; a dash "
        "where nothing is squeezed. Wrinkles themselves are not computed.",
    )
    return Table("Heads", columns, rows, () if plan.withheld_by else notes)


def _head(head: HeadPlan, shown: bool, inches: bool) -> tuple[str, ...]:
    geometry = (
        f"{head.name.removeprefix('head.')}\n{head.shape}",
        numbers.stacked(numbers.size(head.depth_change, inches)),
        numbers.stacked(numbers.size(head.depth_change_released, inches)),
        numbers.percent(head.largest_strain, 1),
    )
    if not shown:
        return geometry
    wrinkling = numbers.NOTHING
    if head.wrinkling is not None:
        wrinkling = numbers.number(head.wrinkling.forming_over_limit)
    return (
        *geometry,
        numbers.bare(numbers.pressure(head.first_yield_pressure, inches)),
        numbers.stacked(numbers.stress(head.lowest_hoop_stress, inches)),
        wrinkling,
    )


def _openings(plan: Plan, inches: bool) -> Table:
    columns = (
        Column("opening", right=False),
        Column("in", right=False),
        Column("push on its cover"),
        Column("keep out\n+/-"),
        Column("stations and plates within", right=False),
    )
    rows = tuple(_opening(item, not plan.withheld_by, inches) for item in plan.openings)
    note = "Nothing is computed within the keep-out: do not steer by a station there."
    return Table("Openings", columns, rows, (note,))


def _opening(opening: OpeningPlan, shown: bool, inches: bool) -> tuple[str, ...]:
    room = numbers.NOTHING
    if opening.keep_out > 0.0:
        room = numbers.stacked_units(numbers.circumference(opening.keep_out, inches))
    within = ", ".join((*opening.stations, *opening.plates))
    return (
        opening.name,
        opening.place,
        numbers.force(opening.thrust) if shown else "withheld",
        room,
        within or "none",
    )

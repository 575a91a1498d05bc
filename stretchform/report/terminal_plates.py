"""The internal plates as blocks for the screen."""

from collections.abc import Iterator
from dataclasses import dataclass

from stretchform.planning.plan import Plan, PlatePlan
from stretchform.plates.case import PlateResult
from stretchform.plates.checks import Check
from stretchform.report import words_numbers as numbers
from stretchform.report import words_plates
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Number


@dataclass(frozen=True, slots=True)
class Row:
    """Plates of one row for which the same was computed."""

    name: str
    heights: tuple[float, ...]
    near_head: bool  # any of them
    result: PlateResult


def rows(plan: Plan) -> list[Row]:
    """The plates of a plan, equal neighbours taken together."""
    found: list[Row] = []
    for plate in plan.plates:
        last = found[-1] if found else None
        if last and (last.name, last.result) == (plate.name, plate.result):
            heights = (*last.heights, float(plate.height))
            found[-1] = Row(last.name, heights, last.near_head or plate.near_head, last.result)
        else:
            found.append(_row(plate))
    return found


def _row(plate: PlatePlan) -> Row:
    return Row(plate.name, (float(plate.height),), plate.near_head, plate.result)


def overview(plan: Plan, inches: bool = False) -> Table:
    """One line for each kind of plate: travel, gap, arm, slot, and what governs."""
    unit = "mm\n(in)" if inches else "mm"
    heads = ("travel", "tab gap\nbefore", "tab gap\nafter", "arm\nlength", "slot\nlength")
    columns = (
        Column("plates", right=False),
        *(Column(f"{head}\n{unit}") for head in (*heads, "slot\nwidth")),
        Column("result", right=False),
    )
    table_rows = tuple(_overview(row, inches) for row in rows(plan))
    notes = ["Travel is that of the high growth under pressure. stretchform plates shows more."]
    if any(row.near_head for row in rows(plan)):
        notes.append("~ some of them near a head: they travel less than shown, not computed.")
    return Table("Plates inside", columns, table_rows, tuple(notes))


def _overview(row: Row, inches: bool) -> tuple[str, ...]:
    result = row.result
    sizes = (
        result.travel,
        result.clearance_before,
        result.clearance_after,
        result.arm_length,
        result.slot_length,
        result.slot_width,
    )
    return (
        _name(row),
        *(numbers.stacked(numbers.size(value, inches)) for value in sizes),
        verdict(result),
    )


def _name(row: Row) -> str:
    count = f", {len(row.heights)} of them" if row.heights[1:] else ""
    return f"{'~ ' if row.near_head else ''}{row.name}{count}, {row.result.kind} arm"


def verdict(result: PlateResult) -> str:
    """REFUSED, FAILS, care or ok, and the check that governs."""
    if result.refused:
        return f"REFUSED: {result.refused[0].replace('-', ' ')}"
    worst = {check.result for check in result.checks}
    word = "FAILS" if "fails" in worst else "care" if "care" in worst else "ok"
    return f"{word}; governs: {result.governs}" if result.governs else word


def details(plan: Plan, name: str | None, inches: bool = False) -> list[Block]:
    """Every size and every check of the plates, or of the row with one name."""
    chosen = [row for row in rows(plan) if name in (None, row.name)]
    return [block for row in chosen for block in _details(row, inches, bool(plan.withheld_by))]


def _details(row: Row, inches: bool, withheld: bool) -> Iterator[Block]:
    result = row.result
    heights = ", ".join(f"{1e3 * height:.0f}" for height in row.heights)
    lines = [f"at {heights} mm above the lower tangent line", verdict(result)]
    lines.append(f"computed with: {words_plates.METHODS[result.method]}")
    lines += [f"REFUSED: {words_plates.refused(code)}" for code in result.refused]
    if row.near_head:
        lines.append("near a head some of them travel less than shown: not computed")
    yield Lines(f"{row.name}: {len(row.heights)} plates, arm {result.kind}", tuple(lines))
    yield Table("Sizes", (Column("what", right=False), Column("size")), _size_rows(row, inches))
    yield Table(
        "Checks",
        (
            Column("check", right=False),
            Column("value"),
            Column("limit"),
            Column("result", right=False),
        ),
        tuple(_check(check, inches, withheld) for check in result.checks),
        (f"Not looked at here: {words_plates.unchecked(result.unchecked)}.",),
    )


def _size_rows(row: Row, inches: bool) -> tuple[tuple[str, str], ...]:
    result = row.result
    sizes = (
        ("travel of the wall that the arm takes", result.travel),
        ("tab clearance before forming", result.clearance_before),
        ("tab clearance after release", result.clearance_after),
        ("tab clearance chilled to 77 K", result.clearance_chilled),
        ("arm: clear length", result.arm_length),
        ("arm: length needed", result.needed_length),
        ("arm: depth in the plane of the plate", result.arm_depth),
        ("slot: length", result.slot_length),
        ("slot: width", result.slot_width),
        ("slot: end radius", result.slot_end_radius),
        ("wall to the outer edge of the arm at its tab", result.stalk),
    )
    return (
        *((text, numbers.size(value, inches)) for text, value in sizes),
        ("root strain of the arm", numbers.percent(result.root_strain, 1)),
        ("force of one tab on the wall", numbers.force(result.force)),
        ("turn of the plate", f"{float(result.rotation) * 57.29578:.2f} °"),
    )


def _check(check: Check, inches: bool, withheld: bool) -> tuple[str, str, str, str]:
    value = (
        "withheld"
        if withheld and check.name in words_plates.AGAINST_PRESSURE
        else _amount(check, check.value, inches)
    )
    sign = ">=" if check.at_least else "<="
    word = check.result.upper() if check.result == "fails" else check.result
    return check.name, value, f"{sign} {_amount(check, check.limit, inches)}", word


def _amount(check: Check, value: Number, inches: bool) -> str:
    if check.unit_kind == "metre":
        return numbers.size(value, inches)
    if check.unit_kind == "strain":
        return numbers.percent(value, 1)
    if check.unit_kind == "newton":
        return numbers.force(value)
    if check.unit_kind == "pascal":
        return numbers.stress(value, inches)
    unit = {"newton_metre": " N m", "kilogram": " kg", "radian": " rad"}.get(
        check.unit_kind, ""
    )
    return numbers.number(value) + unit

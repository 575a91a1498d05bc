"""The internal plates as blocks for the screen."""

from collections.abc import Iterator

from stretchform.planning import plating
from stretchform.planning.plan import Plan, PlatePlan
from stretchform.plates.case import PlateResult
from stretchform.plates.checks import Check
from stretchform.report import words_numbers as numbers
from stretchform.report import words_plates
from stretchform.report.tables import Block, Column, Lines, Table

_HEIGHTS = "At each height above the lower tangent line, by the closed formulas"


def rows(plan: Plan) -> dict[str, list[PlatePlan]]:
    """The plates of a plan by the name of their row, from below."""
    found: dict[str, list[PlatePlan]] = {}
    for plate in plan.plates:
        found.setdefault(plate.name, []).append(plate)
    return found


def overview(plan: Plan, inches: bool = False) -> Table:
    """Travel, gap, arm, slot and what governs; neighbours that show the same in one line."""
    groups: list[tuple[list[PlatePlan], tuple[str, ...]]] = []
    for plate in plan.plates:
        cells = _cells(plate, inches)
        last = groups[-1] if groups else None
        if last and (last[0][0].name, last[1]) == (plate.name, cells):
            last[0].append(plate)
        else:
            groups.append(([plate], cells))
    notes = ["Travel is that of the high growth under pressure. stretchform plates shows more."]
    if any(plate.near_head for plate in plan.plates):
        notes.append("~ some of them near a head: they travel less than shown, not computed.")
    table_rows = tuple((_name(plates), *cells) for plates, cells in groups)
    return Table("Plates inside", _columns("plates", inches), table_rows, tuple(notes))


def _columns(first: str, inches: bool) -> tuple[Column, ...]:
    unit = "mm\n(in)" if inches else "mm"
    heads = ("travel", "tab gap\nbefore", "tab gap\nafter", "arm\nlength", "slot\nlength")
    return (
        Column(first, right=False),
        *(Column(f"{head}\n{unit}") for head in (*heads, "slot\nwidth")),
        Column("result", right=False),
    )


def _cells(plate: PlatePlan, inches: bool) -> tuple[str, ...]:
    result = plate.result
    sizes = (
        result.travel,
        result.clearance_before,
        result.clearance_after,
        result.arm_length,
        result.slot_length,
        result.slot_width,
    )
    return (
        *(numbers.stacked(numbers.size(value, inches)) for value in sizes),
        words_plates.verdict(result),
    )


def _name(plates: list[PlatePlan]) -> str:
    first = plates[0]
    count = (
        f", {len(plates)} of them" if plates[1:] else f", at {1e3 * float(first.height):.0f} mm"
    )
    mark = "~ " if any(plate.near_head for plate in plates) else ""
    return f"{mark}{first.name}{count}, {first.result.kind} arm"


def details(
    plan: Plan, name: str | None, inches: bool = False, heights: bool = True
) -> list[Block]:
    """Every row of plates, or the one with a name: each height, then the hardest one in full.

    Without `heights` only the hardest, for a page that shows the overview above.
    """
    withheld = bool(plan.withheld_by)
    return [
        block
        for row, plates in rows(plan).items()
        if name in (None, row)
        for block in _details(row, plates, inches, withheld)
        if heights or block.title != _HEIGHTS
    ]


def _details(
    name: str, plates: list[PlatePlan], inches: bool, withheld: bool
) -> Iterator[Block]:
    worst, result = plating.hardest(plates), plating.judged(plates)
    lines = [f"REFUSED: {words_plates.refused(code)}" for code in result.refused]
    lines.append(f"arm: {result.kind}, computed with: {words_plates.METHODS[result.method]}")
    if any(plate.near_head for plate in plates):
        lines.append("~ near a head: they travel less than shown, not computed")
    lines += words_plates.beside_formula(worst.result, result)
    lines += words_plates.notches(worst)
    many = "s" if len(plates) > 1 else ""
    yield Lines(f"{name}: {len(plates)} plate{many}", tuple(lines))
    heights = tuple((_height(plate, inches), *_cells(plate, inches)) for plate in plates)
    yield Table(
        _HEIGHTS,
        _columns("at", inches),
        heights,
        ("All plates of a row have the same arm, sized where the wall travels most.",),
    )
    place = f"the plate at {numbers.circumference(worst.height, inches)}, the hardest of them"
    columns = (Column("what", right=False), Column("size"))
    yield Table(f"Sizes of {place}", columns, _size_rows(result, inches))
    yield Table(
        f"Checks of {place}",
        (
            Column("check", right=False),
            Column("value"),
            Column("limit"),
            Column("result", right=False),
        ),
        tuple(_check(check, inches, withheld) for check in result.checks),
        (f"Not looked at here: {words_plates.unchecked(result.unchecked)}.",),
    )


def _height(plate: PlatePlan, inches: bool) -> str:
    mark = "~ " if plate.near_head else ""
    return mark + numbers.stacked(numbers.circumference(plate.height, inches))


def _size_rows(result: PlateResult, inches: bool) -> tuple[tuple[str, str], ...]:
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
        else words_plates.amount(check, check.value, inches)
    )
    limit = f"{words_plates.sign(check)} {words_plates.amount(check, check.limit, inches)}"
    word = check.result.upper() if check.result == "fails" else check.result
    return check.name, value, limit, word

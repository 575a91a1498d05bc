"""Circumferences, walls and strengths at the stations as blocks for the screen."""

from stretchform.planning.plan import Band, Plan, StationPlan
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Table

_NEAR = "~ near a head: the real wall grows less than shown, not computed; do not steer by it."


def blocks(plan: Plan, inches: bool = False) -> list[Block]:
    """What the tape will show, what the wall becomes, and its strength."""
    return [_circumferences(plan, inches), _walls(plan, inches), _strengths(plan, inches)]


def _circumferences(plan: Plan, inches: bool) -> Table:
    unit = "mm\n(in)" if inches else "mm"
    columns = (
        Column("station", right=False),
        Column("height\n" + unit),
        Column("before\n" + unit),
        Column("under pressure,\nlikely " + unit),
        *(Column(f"released,\n{head} {unit}") for head in ("low", "likely", "high")),
    )
    rows = tuple(
        (
            _name(item),
            numbers.stacked(numbers.circumference(item.height, inches)),
            numbers.stacked(numbers.circumference(item.circumference_before, inches)),
            numbers.stacked(
                numbers.circumference(item.circumference_under_pressure.likely, inches)
            ),
            *(
                numbers.stacked(numbers.circumference(value, inches))
                for value in _three(item.circumference_released)
            ),
        )
        for item in plan.stations
    )
    return Table("Outside circumference at the target", columns, rows, _notes(plan))


def _walls(plan: Plan, inches: bool) -> Table:
    unit = "mm\n(in)" if inches else "mm"
    columns = (
        Column("station", right=False),
        *(Column(f"growth\nreleased,\n{head} %") for head in ("low", "likely", "high")),
        *(Column(f"wall\n{state}\n{unit}") for state in ("before", "pressed", "released")),
    )
    rows = tuple(
        (
            _name(item),
            *(numbers.percent(value)[:-2] for value in _three(item.growth_released)),
            *(
                numbers.stacked(numbers.size(value, inches))
                for value in (item.wall_before, item.wall_under_pressure, item.wall_released)
            ),
        )
        for item in plan.stations
    )
    return Table("Growth and wall at the target", columns, rows)


def _strengths(plan: Plan, inches: bool) -> Table:
    unit = "MPa (ksi)" if inches else "MPa"
    columns = (
        Column("station", right=False),
        Column(f"before\n{unit}"),
        *(Column(f"{head}\n{unit}") for head in ("low", "likely", "high")),
    )
    rows = tuple(
        (
            _name(item),
            *(
                numbers.bare(numbers.stress(value, inches))
                for value in (item.yield_before, *_three(item.gained_yield))
            ),
        )
        for item in plan.stations
    )
    note = (
        "0.2 % proof strength of the stretched wall: hoop direction, away from welds, at the "
        "forming temperature."
    )
    return Table("Gained yield strength", columns, rows, (note,))


def _name(item: StationPlan) -> str:
    return f"~ {item.name}" if item.near_head else item.name


def _notes(plan: Plan) -> tuple[str, ...]:
    return (_NEAR,) if any(item.near_head for item in plan.stations) else ()


def _three(band: Band) -> tuple[float, float, float]:
    return band.low, band.likely, band.high

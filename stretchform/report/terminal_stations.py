"""Circumferences, walls and strengths at the stations as blocks for the screen."""

from stretchform.planning.plan import Band, Plan, StationPlan
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Table

_NEAR = "~ near a head: the real wall grows less than shown, not computed; do not steer by it."


def blocks(plan: Plan, inches: bool = False) -> list[Block]:
    """Two tables: what the tape will show, and what the wall becomes."""
    return [_circumferences(plan, inches), _walls(plan, inches)]


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
            _cell(numbers.circumference(item.height, inches)),
            _cell(numbers.circumference(item.circumference_before, inches)),
            _cell(numbers.circumference(item.circumference_under_pressure.likely, inches)),
            *(
                _cell(numbers.circumference(value, inches))
                for value in _three(item.circumference_released)
            ),
        )
        for item in plan.stations
    )
    return Table("Outside circumference at the target", columns, rows, _notes(plan))


def _walls(plan: Plan, inches: bool) -> Table:
    columns = (
        Column("station", right=False),
        Column("growth released\nlow/likely/high %"),
        Column("wall before,\nafter " + ("mm (in)" if inches else "mm")),
        Column("yield before\n" + ("MPa (ksi)" if inches else "MPa")),
        Column("gained yield strength\nlow/likely/high " + ("MPa (ksi)" if inches else "MPa")),
    )
    rows = tuple(_wall(item, inches) for item in plan.stations)
    note = (
        "Gained yield strength: 0.2 % proof strength of the stretched wall, hoop direction, away "
        "from welds, at the forming temperature."
    )
    return Table("Growth, wall and strength at the target", columns, rows, (note,))


def _wall(item: StationPlan, inches: bool) -> tuple[str, ...]:
    growths = [numbers.percent(value)[:-2] for value in _three(item.growth_released)]
    walls = [numbers.size(value, inches) for value in (item.wall_before, item.wall_released)]
    strengths = [numbers.stress(value, inches) for value in _three(item.gained_yield)]
    return (
        _name(item),
        " / ".join(growths),
        _joined(walls),
        _cell(numbers.stress(item.yield_before, inches)),
        _joined(strengths),
    )


def _joined(texts: list[str]) -> str:
    """Several quantities in one cell, their second units in a line below."""
    cells = [_cell(text).split("\n") for text in texts]
    return "\n".join(" / ".join(parts) for parts in zip(*cells, strict=True))


def _cell(text: str) -> str:
    """A written quantity without units, its second number in a line below."""
    first, _, second = text.partition(" (")
    number = first.split()[0]
    return f"{number}\n({second.split()[0]})" if second else number


def _name(item: StationPlan) -> str:
    return f"~ {item.name}" if item.near_head else item.name


def _notes(plan: Plan) -> tuple[str, ...]:
    return (_NEAR,) if any(item.near_head for item in plan.stations) else ()


def _three(band: Band) -> tuple[float, float, float]:
    return band.low, band.likely, band.high

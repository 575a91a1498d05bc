"""The work itself as blocks for the screen: steps, tape, holds, stops and hold points."""

import textwrap

from stretchform.planning.plan import Plan, Step
from stretchform.report import words_holdpoints, words_steps
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Metre, Pascal, Ratio

LEAST_SHARE: Ratio = 0.005  # of the variance, that is told
_STATIONS, _STATIONS_INCH = 2, 2  # that fit beside the step, each with two columns


def blocks(plan: Plan, inches: bool = False) -> list[Block]:
    """Steps with their pressures and water, then the tape, holds, stops; nothing withheld."""
    found: list[Block] = [_pressures(plan, inches)]
    count = len(plan.stations)
    most = _STATIONS_INCH if inches else _STATIONS
    for first in range(0, count, most):
        chosen = range(first, min(first + most, count))
        last = first + most >= count
        found.append(_tape(plan, chosen, first == 0, last, inches))
    found.append(Lines("Holds", words_steps.holds(plan)))
    found.append(Lines("Stop for good, release slowly, and find out why, when", _stops(plan)))
    return found


def _stops(plan: Plan) -> tuple[str, ...]:
    return tuple(f"- {line}" for line in words_steps.stops(plan))


def _pressures(plan: Plan, inches: bool) -> Table:
    second = "psi" if inches else "bar"
    gap = "\n" if inches else " "
    counted = words_steps.counted(plan)
    columns = (
        Column("step"),
        Column(f"set\nMPa{gap}({second})"),
        Column(f"gauge shows\nMPa{gap}({second})"),
        Column("hold at\nleast, min"),
        Column("over\ntarget"),
        Column("water in\nlitres"),
        *((Column(counted.replace(" ", "\n")),) if counted else ()),
    )
    rows = tuple(
        _row(number, step, inches, bool(counted))
        for number, step in enumerate(plan.steps, start=1)
    )
    return Table("Steps, from the low side", columns, rows, words_steps.step_notes(plan))


def _row(number: int, step: Step, inches: bool, counted: bool) -> tuple[str, ...]:
    pressures = (_pressure(value, inches) for value in (step.pressure, step.gauge_reading))
    hold = f"{step.hold / 60.0:.0f}{' +' if step.full_hold else '  '}"
    return (
        f"* {number}" if step.yielding else str(number),
        *((text.replace(" ", "\n") if inches else text) for text in pressures),
        hold,
        numbers.chance(step.chance_over_target),
        numbers.bare(numbers.litres(step.water_in.likely)),
        *((words_steps.count_of(step),) if counted else ()),
    )


def _tape(plan: Plan, chosen: range, first: bool, last: bool, inches: bool) -> Table:
    unit = "mm\n(in)" if inches else "mm"
    columns = [Column("step")]
    for index in chosen:
        head = textwrap.fill(plan.stations[index].name, 12)
        columns += [Column(f"{head},\nlikely {unit}"), Column(f"{head},\ngo on below {unit}")]
    rows = [
        _tape_row(number, step, chosen, inches) for number, step in enumerate(plan.steps, 1)
    ]
    if plan.steps:
        cells = []
        for index in chosen:
            cells += [
                "stop above",
                _length(plan.steps[-1].stations[index].stop_above, inches),
            ]
        rows.append(("stop", *cells))
        rows.append(("target", *_targets(plan, chosen, inches)))
    title = "What the tape reads at each step" if first else "What the tape reads, further on"
    notes = words_steps.tape_notes() if last else ()
    return Table(title, tuple(columns), tuple(rows), notes)


def _targets(plan: Plan, chosen: range, inches: bool) -> list[str]:
    """Where no more is raised, under pressure."""
    cells = []
    for index in chosen:
        size = plan.stations[index].circumference_under_pressure.likely
        cells += ["no more from", _length(size, inches)]
    return cells


def _tape_row(number: int, step: Step, chosen: range, inches: bool) -> tuple[str, ...]:
    cells = []
    for index in chosen:
        station = step.stations[index]
        below = station.go_on_below
        cells.append(_length(station.circumference.likely, inches))
        cells.append("last step" if below is None else _length(below, inches))
    return (f"* {number}" if step.yielding else str(number), *cells)


def drivers(plan: Plan) -> list[Block]:
    """What makes the spread, and what one more measurement would leave of it."""
    rows = []
    for item in plan.drivers:
        if max(float(item.of_pressure), float(item.of_growth)) < LEAST_SHARE:
            continue
        shares = (numbers.percent(value, 0) for value in (item.of_pressure, item.of_growth))
        rows.append((words_steps.unknown(item), *shares))
    columns = (
        Column("unknown", right=False),
        Column("of target\npressure"),
        Column("of growth at\nlikely pressure"),
    )
    note = (
        "Shares of the variance; unknowns of less than half a per cent are left out. They say "
        "where a measurement pays.",
    )
    bought = tuple(f"- {words_steps.information(item)}" for item in plan.information)
    return [
        Table("What makes the spread", columns, tuple(rows), note),
        Lines("What one more measurement would leave of it", bought),
    ]


def water(plan: Plan, inches: bool = False) -> Lines:
    """Filling, air, water of the work, drift and draining; no pressure if withheld."""
    return Lines("Water", tuple(f"- {line}" for line in words_steps.water(plan, inches)))


def hold_points(plan: Plan, inches: bool = False) -> Lines:
    """Every point that must be signed before the next step begins."""
    lines = [words_holdpoints.APPROACH, words_holdpoints.SIGNED]
    for number, point in enumerate(plan.hold_points, start=1):
        words = words_holdpoints.WORDS[point.code]
        must = words_holdpoints.must(point, inches, bool(plan.withheld_by))
        lines.append(f"{number}. {words.title} ({point.when.value}): {must}")
        lines.append(f"   If not: {words.otherwise}")
    return Lines("Hold points", tuple(lines))


def _pressure(value: Pascal, inches: bool) -> str:
    """2.013 (20.13): the units stand in the heading."""
    return numbers.bare(numbers.pressure(value, inches))


def _length(value: Metre, inches: bool) -> str:
    return numbers.stacked(numbers.circumference(value, inches))

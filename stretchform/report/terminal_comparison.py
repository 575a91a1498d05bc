"""Measured circumferences beside the forecast, as blocks for the screen."""

from stretchform.planning.compare import Compared, Comparison
from stretchform.report import words_basis, words_fit
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Pascal

_FAR = 2.0  # uncertainties: beyond it a reading does not fit the forecast


def blocks(comparison: Comparison, inches: bool = False) -> list[Block]:
    """Whose readings they are, the growths beside the forecast, what came out, what it means."""
    return [
        _title(comparison, inches),
        _growths(comparison),
        _results(comparison, inches),
        *_from_pressure(comparison),
        Lines("Not gained by stretching", words_fit.not_gained()),
        Lines("What it means", _meaning(comparison)),
    ]


def _title(comparison: Comparison, inches: bool) -> Lines:
    lines = [words_basis.EXAMPLE] if comparison.job.example else []
    if comparison.pressure is None:
        lines.append("forecast taken at the target, whatever pressure it took")
    else:
        held = numbers.pressure(comparison.pressure, inches)
        lines.append(f"forecast taken at the pressure that was held: {held}")
    lines.append("tape thickness and temperature are taken off: true outside size at 20 °C")
    return Lines(f"Comparison: {comparison.job.name}", tuple(lines))


def _growths(comparison: Comparison) -> Table:
    columns = (
        Column("station", right=False),
        Column("growth", right=False),
        Column("forecast %\nlow/likely/high"),
        Column("measured\n%"),
        Column("difference\npoints"),
        Column("over its\nuncertainty"),
    )
    return Table(
        "Growth, measured beside the forecast",
        columns,
        tuple(_growth(row) for row in comparison.rows),
        (
            "Uncertainty: one standard uncertainty of forecast and tape together. A station "
            "near a head is shown but not judged: the ends hold it back, not computed.",
        ),
    )


def _growth(row: Compared) -> tuple[str, ...]:
    predicted = row.predicted_growth
    low, likely, high = (
        numbers.percent(value)[:-2]
        for value in (predicted.low, predicted.likely, predicted.high)
    )
    return (
        row.station,
        row.quantity,
        f"{low} / {likely} / {high}",
        numbers.percent(row.measured_growth)[:-2],
        f"{100.0 * float(row.difference):+.2f}",
        "near a head" if row.ratio is None else f"{float(row.ratio):+.1f}{_mark(row)}",
    )


def _mark(row: Compared) -> str:
    return " !" if row.ratio is not None and abs(float(row.ratio)) > _FAR else ""


def _results(comparison: Comparison, inches: bool) -> Table:
    columns = (
        Column("station", right=False),
        Column("growth", right=False),
        Column("before"),
        Column("measured"),
        Column("wall"),
        Column("gained yield\nlow/likely/high MPa"),
    )
    rows = []
    for row in comparison.rows:
        gained = row.gained_yield
        strengths = (gained.low, gained.likely, gained.high)
        rows.append(
            (
                row.station,
                row.quantity,
                numbers.stacked_units(numbers.circumference(row.before, inches)),
                numbers.stacked_units(numbers.circumference(row.measured, inches)),
                numbers.stacked_units(numbers.size(row.wall, inches)),
                " / ".join(numbers.stress(value).split()[0] for value in strengths),
            )
        )
    note = "Wall and strength follow from the measured growth; the wall is not measured."
    return Table("What came out", columns, tuple(rows), (note,))


def _from_pressure(comparison: Comparison) -> list[Block]:
    """The strength that the pressure itself tells, beside that of the growth."""
    rows = []
    for row in comparison.rows:
        if row.gained_from_pressure is not None:
            both = (row.gained_from_pressure, row.gained_yield)
            texts = (
                f"{_mpa(band.low)} / {_mpa(band.likely)} / {_mpa(band.high)}" for band in both
            )
            rows.append((row.station, row.quantity, *texts))
    columns = (
        Column("station", right=False),
        Column("growth", right=False),
        Column("from the pressure\nlow/likely/high MPa"),
        Column("from the growth\nlow/likely/high MPa"),
    )
    note = (
        "From the pressure: hoop stress of the wall under the stated pressure over the highest "
        "credible C of the yield rule: the cautious value. It needs no curve; it needs a true "
        "gauge and the end of a hold. Where the two differ, trust the smaller one."
    )
    title = "Gained yield strength, told twice"
    return [Table(title, columns, tuple(rows), (note,))] if rows else []


def _mpa(stress: Pascal) -> str:
    return numbers.stress(stress).split()[0]


def _meaning(comparison: Comparison) -> tuple[str, ...]:
    judged = [row for row in comparison.rows if row.ratio is not None]
    far = [row for row in judged if _mark(row)]
    lines = []
    if far:
        names = ", ".join(f"{row.station} ({row.quantity})" for row in far)
        lines.append(
            f"! more than {_FAR:.0f} uncertainties off: {names}. The tank does not follow the "
            "forecast. Find out why before the next step or tank: steel, wall, gauge, tape, "
            "temperature, ends."
        )
    elif judged:
        lines.append(
            f"All judged readings lie within {_FAR:.0f} uncertainties of the forecast."
        )
    else:
        lines.append("No reading could be judged: every station lies near a head.")
    if comparison.missing:
        lines.append(f"Not read: {', '.join(comparison.missing)}.")
    return tuple(lines)

"""The picture of measured growths beside the forecast, one row for each reading."""

import textwrap
from typing import TYPE_CHECKING

import numpy as np

from stretchform.planning.compare import Compared, Comparison
from stretchform.report import chart_look as look
from stretchform.report import words_numbers as numbers
from stretchform.report.chart_picture import Picture
from stretchform.report.chart_sentences import sentences

if TYPE_CHECKING:
    from matplotlib.axes import Axes

TITLE = "Growth, measured beside the forecast"
_ACROSS = "growth of the outside circumference, %"
_ROW = 10.0  # millimetres that a reading takes
_LEFT, _RIGHT, _BOTTOM, _TOP, _NOTE = 46.0, 36.0, 14.0, 10.0, 6.0
_LETTERS = 27
_SAID = "Bar: low to high of the forecast, its tick the likely growth. Diamond: measured."


def comparison(found: Comparison) -> Picture:
    """A bar from low to high, a tick at likely and a diamond at the measured growth."""
    name = f"invented: {found.job.name}" if found.job.example else found.job.name
    title = f"{TITLE} - {name}"
    rows = [row for row in found.rows if np.isfinite(row.measured_growth)]
    if not rows:
        return sentences("comparison", title, ("There is no reading to show.",))
    height = _TOP + _ROW * len(rows) + _BOTTOM + _NOTE
    with look.drawing("comparison"):
        figure = look.sheet(height=height)
        axes = look.frame(figure, _ACROSS, "", (_LEFT, _BOTTOM + _NOTE, _RIGHT, _TOP))
        look.heading(figure, title)
        axes.grid(False, axis="y")
        names = [
            "\n".join([*textwrap.wrap(row.station, _LETTERS)[:1], row.quantity]) for row in rows
        ]
        axes.set_yticks(range(len(rows)), names)
        axes.tick_params(axis="y", length=0.0)
        axes.set_ylim(len(rows) - 0.5, -0.5)
        axes.set_xlim(*_limits(rows))
        for index, row in enumerate(rows):
            _row(axes, index, row)
        figure.text(0.01, 2.0 / height, _SAID, fontsize=look.SMALL)
    said = "; ".join(f"{row.station}, {row.quantity}: {_words(row)}" for row in rows)
    return Picture("comparison", title, f"{_SAID} {said}.", figure)


def _limits(rows: list[Compared]) -> tuple[float, float]:
    values = [
        100.0 * float(value)
        for row in rows
        for value in (row.predicted_growth.low, row.predicted_growth.high, row.measured_growth)
        if np.isfinite(value)
    ]
    room = 0.12 * max(max(values) - min(values), 0.5)
    return min(values) - room, max(values) + room


def _row(axes: "Axes", index: int, row: Compared) -> None:
    band = row.predicted_growth
    low, likely, high = (100.0 * float(value) for value in (band.low, band.likely, band.high))
    if np.isfinite(low) and np.isfinite(high):
        axes.plot([low, high], [index, index], color=look.BAR.colour, linewidth=7.0, zorder=2.0)
        look.mark(axes, likely, index, "|")
    measured = 100.0 * float(row.measured_growth)
    look.mark(axes, measured, index)
    place = (axes.get_xlim()[1], float(index))
    look.label(axes, place, _words(row), (4.0, 0.0))


def _words(row: Compared) -> str:
    difference = f"{100.0 * float(row.difference):+.2f}"
    return f"{numbers.percent(row.measured_growth)} ({difference})"

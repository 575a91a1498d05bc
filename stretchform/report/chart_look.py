"""The one look of all pictures: black on white, told apart by dashes, named where they stand.

A picture must read the same on a screen, on a grey print and to someone who sees no colour: every
line has its own dashes, every fill its own hatching, every axis its unit, and names stand beside
what they name. There are no legends. Sizes are in millimetres and points, so that all pictures
of a page match.
"""

import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from threading import RLock
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from stretchform.si import Array

WIDTH, HEIGHT = 165.0, 105.0  # millimetres: fits A4 and Letter with their margins
INK, SOFT, GRID = "#111111", "#555555", "#dddddd"
SIZE, SMALL = 9.0, 8.0  # points
FONT = "DejaVu Sans"  # comes with the drawing library, so every machine sets the same widths
_MILLIMETRES = 25.4
_LONGEST = 76  # letters of a heading
_LEAD = {"arrowstyle": "-", "color": SOFT, "linewidth": 0.6, "shrinkA": 0.0, "shrinkB": 3.0}
_LOCK = RLock()  # settings of the drawing library belong to the whole process

Side = Literal["left", "center", "right"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line: its colour is a courtesy, its dashes and width are what tells it apart."""

    colour: str
    width: float  # points
    dashes: tuple[float, ...] = ()  # on and off, in line widths; empty: unbroken


@dataclass(frozen=True, slots=True)
class Fill:
    """A shaded area: a pale grey, or white with a hatching."""

    colour: str
    hatch: str = ""


LIKELY = Stroke("#0f3d68", 2.2)
BOUND = Stroke("#0f3d68", 0.9)
TARGET = Stroke(INK, 1.3, (5.0, 2.5))
MAXIMUM = Stroke("#8c1d04", 1.6, (9.0, 2.0, 1.5, 2.0))
LIMIT = Stroke(INK, 1.0, (1.2, 1.8))
PRESSED = Stroke("#0f3d68", 1.1, (4.0, 1.6))  # under pressure, beside the released likely
PLATE = Stroke(INK, 1.8)
SERIES = (  # pictures that compare: up to six lines
    Stroke("#0f3d68", 2.2),
    Stroke("#8c1d04", 1.7, (7.0, 2.5)),
    Stroke("#1d5c2e", 1.9, (1.2, 1.6)),
    Stroke("#5b2a78", 1.5, (9.0, 2.0, 1.5, 2.0)),
    Stroke("#6b4b00", 1.2, (3.5, 1.5)),
    Stroke(INK, 1.1, (12.0, 2.0, 1.2, 1.5, 1.2, 2.0)),
)
BAND = Fill("#dbe4ec")
DANGER_BAND = Fill("#f8f0ed", "////")
_HATCHING = "#d3bfb8"
BAR = Fill("#7d93a6")


@contextmanager
def drawing(name: str = "picture") -> Iterator[None]:
    """Settings that make a picture the same wherever and whenever it is drawn.

    Whatever the user has set for the drawing library counts for nothing here; letters that its
    font lacks stay text in SVG. `name` salts the internal names, so that two pictures can stand
    on one page.
    """
    import matplotlib

    with _LOCK, matplotlib.rc_context(), warnings.catch_warnings():
        warnings.filterwarnings("ignore", message="Glyph .* missing from", category=UserWarning)
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(_settings(name))
        yield


def _settings(name: str) -> dict[Any, object]:
    return {
        "svg.hashsalt": f"stretchform-{name}",
        "svg.fonttype": "none",
        "font.family": [FONT],
        "font.size": SIZE,
        "text.parse_math": False,
        "text.color": INK,
        "axes.edgecolor": SOFT,
        "axes.labelcolor": INK,
        "axes.linewidth": 0.8,
        "axes.unicode_minus": False,
        "xtick.color": SOFT,
        "ytick.color": SOFT,
        "xtick.labelcolor": INK,
        "ytick.labelcolor": INK,
        "hatch.linewidth": 0.6,
        "hatch.color": _HATCHING,
        "lines.dash_capstyle": "butt",
    }


def sheet(width: float = WIDTH, height: float = HEIGHT) -> "Figure":
    """An empty white sheet, millimetres."""
    from matplotlib.figure import Figure

    return Figure(figsize=(width / _MILLIMETRES, height / _MILLIMETRES), facecolor="white")


def frame(
    figure: "Figure",
    across: str,
    upward: str,
    margins: tuple[float, float, float, float] = (17.0, 14.0, 6.0, 9.0),
) -> "Axes":
    """Axes with their words; margins left, bottom, right, top in millimetres."""
    width, height = (size * _MILLIMETRES for size in figure.get_size_inches())
    left, bottom, right, top = margins
    axes = figure.add_axes(
        (
            left / width,
            bottom / height,
            (width - left - right) / width,
            (height - bottom - top) / height,
        )
    )
    axes.set_xlabel(across)
    axes.set_ylabel(upward)
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(True, color=GRID, linewidth=0.6)
    axes.set_axisbelow(True)
    axes.tick_params(labelsize=SMALL, length=3.0)
    return axes


def heading(figure: "Figure", text: str) -> None:
    """One line above the axes that says what is seen; a long one is cut."""
    shown = text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
    figure.text(0.01, 0.985, shown, ha="left", va="top", fontsize=SIZE, fontweight="bold")


def line(axes: "Axes", across: "Array", upward: "Array", stroke: Stroke) -> None:
    """A line through points."""
    axes.plot(across, upward, zorder=3.0, **_pen(stroke))


def upright(
    axes: "Axes", across: float, stroke: Stroke, low: float = 0.0, high: float = 1.0
) -> None:
    """A straight line up, from and to a share of the height."""
    axes.axvline(across, low, high, zorder=2.5, **_pen(stroke))


def level(axes: "Axes", upward: float, stroke: Stroke) -> None:
    """A straight line across."""
    axes.axhline(upward, zorder=2.5, **_pen(stroke))


def _pen(stroke: Stroke) -> dict[str, Any]:
    style: object = (0.0, stroke.dashes) if stroke.dashes else "-"
    return {"color": stroke.colour, "linewidth": stroke.width, "linestyle": style}


def band(axes: "Axes", across: "Array", low: "Array", high: "Array", fill: Fill = BAND) -> None:
    """Shading between two lines over the same points across."""
    axes.fill_between(across, low, high, zorder=1.5, **_paint(fill))


def band_upward(axes: "Axes", upward: "Array", low: "Array", high: "Array") -> None:
    """Shading between two lines over the same points upward."""
    axes.fill_betweenx(upward, low, high, zorder=1.5, **_paint(BAND))


def band_level(axes: "Axes", low: float, high: float, fill: Fill) -> None:
    """Shading of all that lies between two heights."""
    axes.axhspan(low, high, zorder=1.2, **_paint(fill))


def _paint(fill: Fill) -> dict[str, Any]:
    paint: dict[str, Any] = {"facecolor": fill.colour, "linewidth": 0.0}
    return paint | ({"hatch": fill.hatch, "edgecolor": _HATCHING} if fill.hatch else {})


def dots(
    axes: "Axes", across: "Array | Sequence[float]", upward: "Array | Sequence[float]"
) -> None:
    """Measured points: small and hollow, so that a line is seen through them."""
    axes.plot(
        across,
        upward,
        linestyle="none",
        marker="o",
        markersize=4.0,
        markerfacecolor="none",
        markeredgecolor=INK,
        markeredgewidth=0.6,
        zorder=2.8,
    )


def mark(axes: "Axes", across: float, upward: float, shape: str = "D") -> None:
    """One point that matters: a white diamond, or another shape of the drawing library."""
    axes.plot(
        [across],
        [upward],
        linestyle="none",
        marker=shape,
        markersize=6.5,
        markerfacecolor="white",
        markeredgecolor=INK,
        markeredgewidth=1.2,
        zorder=4.5,
        clip_on=False,
    )


def span(axes: "Axes", across: float, low: float, likely: float, high: float) -> None:
    """Low, likely and high of one number, upright: a bar with ends and a diamond."""
    axes.plot([across, across], [low, high], color=INK, linewidth=2.4, zorder=4.0)
    mark(axes, across, low, "_")
    mark(axes, across, high, "_")
    mark(axes, across, likely)


def bar(axes: "Axes", row: float, length: float) -> None:
    """One bar across, from zero."""
    axes.barh(
        row, length, height=0.62, facecolor=BAR.colour, edgecolor=INK, linewidth=0.8, zorder=3.0
    )


def label(
    axes: "Axes",
    place: tuple[float, float],
    text: str,
    shift: tuple[float, float] = (4.0, 0.0),
    side: Side = "left",
    colour: str = INK,
    upright: Literal["center", "bottom", "top"] = "center",
    lead: bool = False,
) -> None:
    """Words beside a point, moved by points, on white so that lines do not cross them.

    With a `lead` a thin line joins the words to the point.
    """
    axes.annotate(
        text,
        place,
        xytext=shift,
        textcoords="offset points",
        ha=side,
        va=upright,
        fontsize=SMALL,
        color=colour,
        zorder=5.0,
        annotation_clip=False,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.2},
        arrowprops=_LEAD if lead else None,
    )


def end_labels(
    axes: "Axes", ends: Sequence[tuple[float, float, str, Stroke]], gap: float = 3.6
) -> None:
    """Names to the right of line ends, moved apart by `gap` millimetres where they are close.

    `ends` holds across, upward, name and stroke; a thin lead joins a name to its line.
    """
    figure = axes.get_figure(root=True)
    assert figure is not None
    height = axes.get_position().height * figure.get_size_inches()[1] * _MILLIMETRES
    low, high = axes.get_ylim()
    step = gap / height * (high - low)
    order = sorted(range(len(ends)), key=lambda index: (ends[index][1], index))
    heights = apart([ends[index][1] for index in order], step, low, high - 0.5 * step)
    edge = axes.get_xlim()[1]
    for index, upward in zip(order, heights, strict=True):
        across, end, text, stroke = ends[index]
        lead = edge + 0.015 * (edge - axes.get_xlim()[0])
        axes.plot(
            [across, lead], [end, upward], color=SOFT, linewidth=0.6, clip_on=False, zorder=2.0
        )
        label(axes, (lead, upward), text, (2.0, 0.0), colour=stroke.colour)


def apart(wanted: Sequence[float], step: float, low: float, high: float) -> list[float]:
    """Rising places at least `step` apart, near those wanted and inside low to high."""
    places: list[float] = []
    for value in wanted:
        places.append(max(value, low, places[-1] + step if places else low))
    ceiling = high
    for index in reversed(range(len(places))):
        places[index] = min(places[index], ceiling)
        ceiling = places[index] - step
    return places

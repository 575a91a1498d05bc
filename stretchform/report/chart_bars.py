"""Pictures of shares: where the energy stands, and what drives the spread."""

import textwrap
from collections.abc import Sequence

from stretchform.planning.plan import Plan
from stretchform.report import chart_look as look
from stretchform.report import words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.chart_picture import Picture
from stretchform.report.chart_sentences import sentences, withheld
from stretchform.si import Ratio

_ROW = 9.0  # millimetres a bar takes
_LETTERS = 27  # of a name, before it goes on below
_LEFT, _RIGHT, _BOTTOM, _TOP = 46.0, 30.0, 14.0, 10.0


def energy(plan: Plan) -> Picture:
    """What the full tank can let loose at the high forming pressure, part by part.

    A withheld plan gives a sheet that says so: the energies would tell its pressure.
    """
    title = f"Where the energy stands - {words_basis.job_name(plan)}"
    if plan.withheld_by:
        return sentences("energy", title, withheld(plan))
    stored = plan.hazard.stored
    whole = float(stored.recoverable)
    parts = [
        (name, float(part) / whole if whole else 0.0, numbers.energy(part))
        for name, part in (
            ("stretched wall", stored.wall),
            ("water", stored.water),
            ("trapped air", stored.air),
        )
    ]
    notes = (
        f"Let loose at once in a break: {numbers.energy(whole)}, at the high forming pressure.",
        f"Spent as heat in the wall, does not come back: {numbers.energy(stored.plastic_work)}.",
        f"The same tank full of gas instead: {numbers.energy(stored.gas_instead)}. Never gas.",
    )
    return _bars("energy", title, "share of what can be let loose, %", parts, notes)


def drivers(shares: Sequence[tuple[str, Ratio]]) -> Picture:
    """What the spread of the forecast comes from, largest first; shares as fractions."""
    title = "What the spread comes from"
    if not shares:
        return sentences("drivers", title, ("This plan has no spread.",))
    ordered = sorted(shares, key=lambda item: -float(item[1]))
    parts = [(name, float(share), "") for name, share in ordered]
    notes = ("The longest bar is what to measure better first.",)
    return _bars("drivers", title, "share of the spread of growth, %", parts, notes)


def _bars(
    name: str,
    title: str,
    across: str,
    parts: Sequence[tuple[str, float, str]],
    notes: Sequence[str],
) -> Picture:
    """Bars one below the other: name to the left, share and amount at the end."""
    foot = 5.0 * len(notes) + 2.0
    height = _TOP + _ROW * len(parts) + _BOTTOM + foot
    with look.drawing(name):
        figure = look.sheet(height=height)
        axes = look.frame(figure, across, "", (_LEFT, _BOTTOM + foot, _RIGHT, _TOP))
        look.heading(figure, title)
        axes.grid(False, axis="y")
        names = ["\n".join(textwrap.wrap(part[0], _LETTERS)[:2]) for part in parts]
        axes.set_yticks(range(len(parts)), names)
        axes.tick_params(axis="y", length=0.0)
        axes.set_ylim(len(parts) - 0.5, -0.5)
        axes.set_xlim(0.0, 100.0 * max(1e-3, 1.02 * max(part[1] for part in parts)))
        for index, (_, share, amount) in enumerate(parts):
            look.bar(axes, index, 100.0 * share)
            text = f"{100.0 * share:.0f} %" + (f", {amount}" if amount else "")
            look.label(axes, (100.0 * share, index), text, (4.0, 0.0))
        for index, note in enumerate(reversed(notes)):
            figure.text(0.01, (2.0 + 5.0 * index) / height, note, fontsize=look.SMALL)
    said = "; ".join(f"{part[0]} {100.0 * part[1]:.0f} %" for part in parts)
    return Picture(name, title, f"{said}. " + " ".join(notes), figure)

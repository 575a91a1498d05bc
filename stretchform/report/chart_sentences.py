"""A sheet with words only, where there is nothing that may be drawn."""

import textwrap
from collections.abc import Sequence

from stretchform.planning.plan import Plan
from stretchform.report import chart_look as look
from stretchform.report import words
from stretchform.report.chart_picture import Picture

_LETTERS = 95
_LINE, _TOP = 5.0, 12.0  # millimetres


def withheld(plan: Plan) -> tuple[str, ...]:
    """Why a picture that would tell the pressure is not drawn."""
    reasons = (f"{code}: {words.TEXTS[code].short}" for code in plan.withheld_by)
    return "Withheld: nothing is drawn that would tell the pressure.", *reasons


def sentences(name: str, title: str, texts: Sequence[str]) -> Picture:
    """A heading and paragraphs, the sheet as high as they need."""
    lines = [line for text in texts for line in textwrap.wrap(text, _LETTERS)]
    height = _TOP + _LINE * (len(lines) + 1)
    with look.drawing(name):
        figure = look.sheet(height=height)
        look.heading(figure, title)
        for index, line in enumerate(lines):
            upward = 1.0 - (_TOP + _LINE * index) / height
            figure.text(0.01, upward, line, fontsize=look.SMALL)
    return Picture(name, title, " ".join(texts), figure)

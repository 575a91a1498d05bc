"""A drawn picture as SVG text or PNG bytes: the same bytes every time."""

import re
from dataclasses import dataclass
from io import BytesIO, StringIO
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from stretchform.report import chart_look as look

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_DOTS_PER_INCH = 150
_ROOT = re.compile(r"<svg [^>]*>")
_FONTS = f"'{look.FONT}', Verdana, sans-serif"  # Verdana is as wide as the first
_JOINTS = "stroke-linejoin:round;stroke-linecap:butt"


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture; a notebook shows it by itself. `description` is for who cannot see it."""

    name: str
    title: str
    description: str
    figure: "Figure"

    @property
    def svg(self) -> str:
        """A whole SVG file that can also be pasted into an HTML page."""
        return as_svg(self)

    @property
    def png(self) -> bytes:
        return as_png(self)

    def _repr_svg_(self) -> str:
        return as_svg(self)


def as_svg(picture: Picture) -> str:
    """SVG text: letters stay text, no date, no names that clash with another picture's."""
    out = StringIO()
    with look.drawing(picture.name):
        picture.figure.savefig(out, format="svg", metadata=_NOTHING)
    return _cleaned(out.getvalue(), picture)


def as_png(picture: Picture) -> bytes:
    """PNG bytes at 150 dots an inch."""
    out = BytesIO()
    with look.drawing(picture.name):
        picture.figure.savefig(
            out, format="png", dpi=_DOTS_PER_INCH, metadata={"Software": None}
        )
    return out.getvalue()


_NOTHING = {"Date": None, "Creator": None, "Format": None, "Type": None}


def _cleaned(text: str, picture: Picture) -> str:
    """Without prologue, record of the maker, page-wide style and needless ids; with its words."""
    body = text[text.index("<svg ") :]
    body = re.sub(r"\s*<metadata>.*?</metadata>", "", body, flags=re.DOTALL)
    body = re.sub(r"\s*<defs>\s*<style.*?</style>\s*</defs>", "", body, flags=re.DOTALL)
    body = re.sub(r'<g id="[^"]*"', "<g", body)
    body = body.replace(f"'{look.FONT}'", _FONTS)
    found = _ROOT.match(body)
    assert found is not None
    name = escape(picture.name, {'"': "&quot;"})
    root = found.group(0)[:-1] + (
        f' role="img" aria-labelledby="{name}-title {name}-description" style="{_JOINTS}">'
    )
    words = (
        f'\n <title id="{name}-title">{escape(picture.title)}</title>'
        f'\n <desc id="{name}-description">{escape(picture.description)}</desc>'
    )
    lines = (root + words + body[found.end() :]).splitlines()
    return "\n".join(line.rstrip() for line in lines) + "\n"

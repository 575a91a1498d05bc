"""A comparison as one self-contained HTML file: tables and sentences of the screen, one picture."""

from stretchform import __version__
from stretchform.planning.compare import Comparison
from stretchform.report import (
    chart,
    html,
    terminal_comparison,
    words_basis,
    words_danger,
    words_page,
)
from stretchform.report.html import Part, Section
from stretchform.report.tables import Lines


def page(found: Comparison, inches: bool = False) -> str:
    """The whole page as text."""
    head, growths, *results, meaning = terminal_comparison.blocks(found, inches)
    assert isinstance(head, Lines)
    kept = tuple(line for line in head.lines if line != words_basis.EXAMPLE)
    return html.render(
        "page.html",
        title=head.title,
        invented=words_basis.EXAMPLE if found.job.example else "",
        fingerprint="",
        page_word=words_page.PAGE,
        narrow=words_page.NARROW,
        danger=None,
        head=Lines(head.title, kept),
        sections=[
            _section("meaning", meaning),
            _section("growths", chart.comparison(found), growths),
            _section("results", *results),
        ],
        foot=(words_danger.WHO_DECIDES, f"stretchform {__version__}"),
    )


def _section(name: str, *parts: Part) -> Section:
    return Section(name, words_page.COMPARED[name], parts)

"""The painter for a terminal that draws lines and emphasis; the words are those of plain text."""

from collections.abc import Sequence
from io import StringIO
from typing import TYPE_CHECKING

from stretchform.report.tables import Block, Lines, Table

if TYPE_CHECKING:
    from rich.console import RenderableType


def paint(blocks: Sequence[Block], width: int) -> str:
    """All blocks as text with the codes of the terminal; NO_COLOR is obeyed."""
    from rich.console import Console

    out = StringIO()
    console = Console(file=out, width=width, force_terminal=True, highlight=False)
    for index, block in enumerate(blocks):
        if index:
            console.print()
        console.print(_table(block) if isinstance(block, Table) else _lines(block))
        if isinstance(block, Table):
            for note in block.notes:
                console.print(note, markup=False)
    return "\n".join(line.rstrip() for line in out.getvalue().rstrip().split("\n"))


def _lines(block: Lines) -> "RenderableType":
    from rich import box
    from rich.console import Group
    from rich.padding import Padding
    from rich.panel import Panel
    from rich.text import Text

    body = [Text(line) for line in block.lines]
    if block.alarm:
        title = Text(f" {block.title} ", style="bold reverse")
        return Panel(Group(*body), title=title, title_align="left", box=box.DOUBLE)
    return Group(Text(block.title, style="bold"), Padding(Group(*body), (0, 0, 0, 2)))


def _table(block: Table) -> "RenderableType":
    from rich import box
    from rich.table import Table as Drawn
    from rich.text import Text

    drawn = Drawn(
        title=Text(block.title, style="bold"),
        title_justify="left",
        box=box.SIMPLE_HEAD,
        pad_edge=False,
        padding=(0, 1),
        show_edge=False,
    )
    for column in block.columns:
        drawn.add_column(
            Text(column.head),
            justify="right" if column.right else "left",
            no_wrap=column.right,
            overflow="fold",
        )
    for row in block.rows:
        drawn.add_row(*(Text(cell) for cell in row))
    return drawn

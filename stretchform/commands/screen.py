"""Which screen this is, and the painter for it: rich tables on a terminal, plain text elsewhere."""

import os
import shutil
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

from stretchform.commands import output

if TYPE_CHECKING:
    from stretchform.report.tables import Block

_WIDTH = 80


def paint(blocks: "Sequence[Block]") -> str:
    """The blocks as text for the screen at hand."""
    from stretchform.report import tables

    if not _can_draw():
        return tables.plain(tables.respelled(blocks, output.spelled), _WIDTH)
    from stretchform.report import terminal_rich

    columns = shutil.get_terminal_size((_WIDTH, 24)).columns
    return terminal_rich.paint(blocks, max(40, min(columns, _WIDTH)))


def _can_draw() -> bool:
    """Whether this is a terminal that knows lines and emphasis."""
    letters = (sys.stdout.encoding or "").lower().replace("-", "")
    dumb = os.environ.get("TERM", "").lower() in ("", "dumb", "unknown")
    return sys.stdout.isatty() and letters == "utf8" and not dumb

"""What was drawn of a plate, as blocks for the screen."""

from collections.abc import Sequence
from pathlib import Path

from stretchform.report import drawing, drawing_review, words_plates
from stretchform.report.drawing_review import Review
from stretchform.report.drawing_sheet import Sheet, size
from stretchform.report.tables import Block, Column, Lines, Table


def written(sheet: Sheet, found: Review, files: Sequence[Path]) -> list[Block]:
    """Sizes of the plate, the files, and what nobody has looked at."""
    title = [drawing.INVENTED] if sheet.example else []
    title.append(f"checks: {words_plates.verdict(sheet.result)}")
    title.append(f"computed with: {words_plates.METHODS[sheet.result.method]}")
    title.append(drawing.width_of_cut(sheet))
    hole = [] if found.hole is None else [("narrowest opening", size(found.hole))]
    rows = (*sheet.facts, ("narrowest web", drawing_review.web(found)), *hole)
    return [
        Lines(sheet.title, tuple(title)),
        Table(
            "Sizes",
            (Column("what", right=False), Column("size")),
            rows,
            (
                "Cut one, pull its arm by the travel in a bench test, then cut the others.",
                f"Not looked at here: {words_plates.unchecked(sheet.result.unchecked)}.",
            ),
        ),
        Lines("Written", tuple(str(path) for path in files)),
    ]

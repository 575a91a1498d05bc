"""Tables to disk: one CSV file each, and one workbook with all of them.

A text that a spreadsheet would take for a formula gets an apostrophe before it. Nothing of the
day or the machine goes into a file, so the same plan gives the same bytes.
"""

import csv
import re
import zipfile
from collections.abc import Sequence
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any, TypeAlias

from stretchform.errors import InputError
from stretchform.files import save

Cell: TypeAlias = str | float | int | bool | None
Sheet: TypeAlias = tuple[str, Sequence[str], Sequence[Sequence[Cell]]]  # name, header, rows

_FORMULA = ("=", "+", "-", "@")
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ufffe\uffff]")
_EPOCH = (1980, 1, 1, 0, 0, 0)  # the earliest time that a workbook's archive can hold
_WIDEST = 60  # letters that a column is made wide for
_TITLE = 31  # letters that a sheet's name may have
_STAMP = re.compile(rb"<dcterms:(created|modified)[^>]*>[^<]*</dcterms:\1>")


def refuse_strange(folder: Path) -> None:
    """Refuse a place that cannot be a folder of tables. Raises InputError."""
    if folder.exists() and not folder.is_dir():
        problem = "a file, but tables need a folder"
        raise InputError(str(folder), problem, str(folder.with_name("tables")))
    if not folder.parent.is_dir():
        raise InputError(str(folder), "the folder above it does not exist", folder.name)


def write_tables(folder: Path, stem: str, sheets: Sequence[Sheet]) -> list[Path]:
    """Write every table as <stem>-<name>.csv and all of them as <stem>.xlsx.

    Makes the folder; older files of these names are replaced. Raises InputError.
    """
    refuse_strange(folder)
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        reason = error.strerror or str(error)
        raise InputError(str(folder), f"cannot be made: {reason}", "tables") from error
    written = []
    for name, header, rows in sheets:
        written.append(folder / f"{stem}-{name}.csv")
        save.write(written[-1], as_csv(header, rows))
    written.append(folder / f"{stem}.xlsx")
    save.write(written[-1], as_workbook(sheets))
    return written


def harmless(cell: Cell) -> Cell:
    """A cell as it may be written: no formula, no control characters."""
    if not isinstance(cell, str):
        return cell
    text = _CONTROL.sub("", cell)
    return f"'{text}" if text.lstrip().startswith(_FORMULA) else text


def as_csv(header: Sequence[str], rows: Sequence[Sequence[Cell]]) -> bytes:
    """A table as CSV: commas, decimal points, UTF-8 with the mark that spreadsheets look for."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([harmless(cell) for cell in header])
    for row in rows:
        writer.writerow([_text(harmless(cell)) for cell in row])
    return out.getvalue().encode("utf-8-sig")


def _text(cell: Cell) -> Cell:
    return {True: "yes", False: "no"}[cell] if isinstance(cell, bool) else cell


def as_workbook(sheets: Sequence[Sheet]) -> bytes:
    """All tables as one workbook, a sheet each."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    for name, header, rows in sheets:
        _fill(book.create_sheet(name[:_TITLE]), header, rows)
    out = BytesIO()
    book.save(out)
    return _timeless(out.getvalue())


def _fill(sheet: Any, header: Sequence[str], rows: Sequence[Sequence[Cell]]) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    sheet.freeze_panes = "A2"
    for line, row in enumerate((header, *rows), 1):
        for place, cell in enumerate(row, 1):
            made = sheet.cell(line, place)
            made.value = _text(harmless(cell))
            if isinstance(made.value, str):
                made.data_type = "s"  # never a formula, whatever it looks like
                made.alignment = Alignment(wrap_text=True, vertical="top")
    for place, head in enumerate(header, 1):
        sheet.cell(1, place).font = Font(bold=True)
        texts = [head, *(str(row[place - 1]) for row in rows)]
        width = max(8, min(_WIDEST, max(len(text) for text in texts) + 2))
        sheet.column_dimensions[get_column_letter(place)].width = width


def _timeless(book: bytes) -> bytes:
    """The same workbook without the time at which it was made."""
    out = BytesIO()
    with zipfile.ZipFile(BytesIO(book)) as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _STAMP.sub(b"", content)
            entry = zipfile.ZipInfo(name, _EPOCH)
            entry.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(entry, content)
    return out.getvalue()

"""A table of readings out of a text or workbook file: cells, column names, numbers.

Test machines write many dialects. The encoding, the separator and the decimal sign are found
from the file itself and reported; where two readings of a file are possible it is refused.
"""

import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from stretchform.errors import InputError
from stretchform.si import Array

_PLAIN = re.compile(r"[+-]?(?:\d+[.,]?\d*|[.,]\d+)(?:[eE][+-]?\d{1,3})?")
_THOUSANDS = re.compile(r"[+-]?\d{1,3}(?:[ '’]\d{3}|,\d{3}(?=.*\.)|\.\d{3}(?=.*,))+.*\d?")
_SEPARATORS = {";": "semicolon", "\t": "tab", ",": "comma", "|": "bar", " ": "blank"}
_LEAST_RUN = 3  # rows of numbers that make a table
_LARGEST_NUMBER = 1e15  # no reading in any unit; such a cell counts as none
_LARGEST_FILE = 200_000_000
_EXPORT = "export the readings as CSV with one header line, such as: Strain (%);Stress (MPa)"


@dataclass(frozen=True, slots=True)
class Repair:
    """Something mended or settled while reading; it is told to the user."""

    code: str
    detail: str


@dataclass(frozen=True, slots=True)
class CellTable:
    """Named columns of text, the line of each row, and what was settled on the way."""

    names: tuple[str, ...]  # header and unit line joined; empty texts where there is none
    rows: tuple[tuple[str, ...], ...]
    lines: tuple[int, ...]
    separator: str
    repairs: tuple[Repair, ...]


def read_table(path: Path, sheet: str | None = None) -> CellTable:
    """The table of a CSV, text or XLSX file. Raises InputError for what is none."""
    where = path.name
    if path.is_dir():
        raise InputError(where, "a folder, not a file", "the path of one CSV or XLSX file")
    if not path.is_file():
        raise InputError(str(path), "no such file", "the path of a CSV or XLSX file")
    if path.stat().st_size > _LARGEST_FILE:
        raise InputError(where, "larger than 200 MB", "export every tenth reading")
    if path.suffix.lower() in (".xlsx", ".xlsm"):
        return _workbook(path, sheet)
    if path.suffix.lower() in (".xls", ".ods", ".pdf", ".doc", ".docx"):
        raise InputError(where, f"{path.suffix} cannot be read", _EXPORT)
    return _text(path)


def _text(path: Path) -> CellTable:
    text, repairs = _decoded(path)
    lines = text.splitlines()
    if not any(line.strip() for line in lines):
        raise InputError(path.name, "the file is empty", _EXPORT)
    separator = _separator(lines, path.name)
    cells = [_split(line, separator) for line in lines]
    settled = (*repairs, Repair("separator", _SEPARATORS[separator]))
    return _table(cells, separator, settled, path.name)


def _decoded(path: Path) -> tuple[str, tuple[Repair, ...]]:
    raw = path.read_bytes()
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _try(raw, "utf-16", path.name), (Repair("encoding", "UTF-16"),)
    if b"\x00" in raw[:4096]:
        raise InputError(path.name, "not a text file", _EXPORT)
    try:
        return raw.decode("utf-8-sig"), ()
    except UnicodeDecodeError:
        return _try(raw, "cp1252", path.name), (Repair("encoding", "Windows-1252"),)


def _try(raw: bytes, encoding: str, where: str) -> str:
    try:
        return raw.decode(encoding)
    except UnicodeDecodeError as error:
        raise InputError(where, f"not {encoding} text: {error.reason}", _EXPORT) from error


def _separator(lines: list[str], where: str) -> str:
    """The separator that gives most rows of two and more numbers in equal count."""
    scores = {}
    for separator in _SEPARATORS:
        counts = Counter(
            count for line in lines[:4000] if (count := _numbers(_split(line, separator))) > 1
        )
        scores[separator] = max(counts.values(), default=0)
    best = max(_SEPARATORS, key=lambda separator: scores[separator])
    if scores[best] < _LEAST_RUN:
        raise InputError(where, "no table of numbers in it", _EXPORT)
    return best


def _split(line: str, separator: str) -> list[str]:
    import csv

    if separator == " ":
        return line.split()
    cells = next(csv.reader([line], delimiter=separator), [])
    return [cell.strip() for cell in cells]


def _numbers(cells: list[str]) -> int:
    return sum(1 for cell in cells if _PLAIN.fullmatch(cell.replace("−", "-")))


def _workbook(path: Path, sheet: str | None) -> CellTable:
    from zipfile import BadZipFile

    import openpyxl

    try:
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
    except (BadZipFile, KeyError, ValueError, OSError) as error:
        raise InputError(path.name, "not an XLSX workbook", _EXPORT) from error
    try:
        if sheet is not None and sheet not in book.sheetnames:
            raise InputError(
                path.name, f'no sheet "{sheet}"', f'--sheet "{book.sheetnames[0]}"'
            )
        wanted = [sheet] if sheet is not None else book.sheetnames
        tables = {name: _cells(book[name].iter_rows(values_only=True)) for name in wanted}
    finally:
        book.close()
    full = [
        name
        for name, cells in tables.items()
        if sum(_numbers(row) > 1 for row in cells) >= _LEAST_RUN
    ]
    if not full:
        raise InputError(path.name, "no table of numbers in it", _EXPORT)
    if len(full) > 1:
        raise InputError(
            path.name,
            f"tables of numbers on {len(full)} sheets: {', '.join(full[:5])}",
            f'--sheet "{full[0]}"',
        )
    return _table(tables[full[0]], "cell", (Repair("sheet", full[0]),), path.name)


def _cells(rows: object) -> list[list[str]]:
    out = []
    for row in rows:  # type: ignore[attr-defined]
        out.append(["" if value is None else _cell(value) for value in row])
    return out


def _cell(value: object) -> str:
    if isinstance(value, bool):
        return str(value)
    return repr(float(value)) if isinstance(value, int | float) else str(value).strip()


def _table(
    cells: list[list[str]], separator: str, repairs: tuple[Repair, ...], where: str
) -> CellTable:
    first = _first_row(cells, where)
    width = max(len(row) for row in cells[first:])
    header, above = _header(cells[:first])
    body = [
        (number + 1, row + [""] * (width - len(row)))
        for number, row in enumerate(cells)
        if number >= first and any(row)
    ]
    _refuse_comma_twice(header, body, separator, where)
    names = tuple((header + [""] * width)[:width])
    if above:
        repairs = (*repairs, Repair("lines_above", f"{above} lines above the table"))
    rows = tuple(tuple(row[:width]) for _, row in body)
    return CellTable(names, rows, tuple(n for n, _ in body), separator, repairs)


def _first_row(cells: list[list[str]], where: str) -> int:
    run = 0
    for number, row in enumerate(cells):
        filled = [cell for cell in row if cell]
        run = run + 1 if len(filled) > 1 and _numbers(filled) == len(filled) else 0
        if run == _LEAST_RUN:
            return number - _LEAST_RUN + 1
    for number, row in enumerate(cells):  # rows with a text column among the numbers
        if _numbers(row) > 1:
            return number
    raise InputError(where, "no table of numbers in it", _EXPORT)


def _header(above: list[list[str]]) -> tuple[list[str], int]:
    """Names from the line above the numbers, joined with the one above if that holds units."""
    filled = [number for number, row in enumerate(above) if any(row)]
    if not filled:
        return [], 0
    last = above[filled[-1]]
    if len(filled) > 1 and _are_units(last) and len([c for c in above[filled[-2]] if c]) > 1:
        names = above[filled[-2]]
        joined = [
            f"{names[i] if i < len(names) else ''} [{unit.strip('[]()')}]" if unit else names[i]
            for i, unit in enumerate(last)
        ]
        return joined, len(filled) - 2
    return last, len(filled) - 1


def _are_units(row: list[str]) -> bool:
    known = ("mpa", "gpa", "n/mm", "ksi", "psi", "%", "mm", "in", "n", "kn", "s", "-", "lbf")
    cells = [cell.strip("[]() ").lower() for cell in row if cell]
    return bool(cells) and all(cell.startswith(known) and len(cell) <= 7 for cell in cells)


def _refuse_comma_twice(
    header: list[str], body: list[tuple[int, list[str]]], separator: str, where: str
) -> None:
    names = len([name for name in header if name])
    if separator != "," or not names or not body:
        return
    usual = Counter(len(row) for _, row in body).most_common(1)[0][0]
    if usual == 2 * names:
        raise InputError(
            f"{where}:{body[0][0]}",
            "commas separate the columns and the decimals: it can be read in two ways",
            "export with semicolons between the columns, or with decimal points",
        )


def column(table: CellTable, place: int, where: str) -> tuple[Array, tuple[Repair, ...]]:
    """One column as numbers, NaN where a cell holds none, and the decimal sign used.

    Raises InputError for thousands set apart and for points and commas mixed.
    """
    cells = [row[place].replace("−", "-").strip() for row in table.rows]
    commas = [i for i, cell in enumerate(cells) if "," in cell and _PLAIN.fullmatch(cell)]
    points = [i for i, cell in enumerate(cells) if "." in cell and _PLAIN.fullmatch(cell)]
    for number, cell in enumerate(cells):
        if not _PLAIN.fullmatch(cell) and _THOUSANDS.fullmatch(cell):
            raise InputError(
                f"{where}:{table.lines[number]}",
                f'"{cell}": thousands set apart in a number',
                "export plain numbers, such as 1234.5",
            )
    if commas and points and table.separator != "cell":
        raise InputError(
            f"{where}:{table.lines[commas[0]]}",
            f'"{cells[commas[0]]}" and "{cells[points[0]]}": decimal comma and point mixed',
            "export with one decimal sign",
        )
    values = np.array([_value(cell) for cell in cells], dtype=np.float64)
    settled = (Repair("decimal_comma", table.names[place] or f"column {place + 1}"),)
    return values, settled if commas else ()


def _value(cell: str) -> float:
    value = float(cell.replace(",", ".")) if _PLAIN.fullmatch(cell) else np.nan
    return value if abs(value) < _LARGEST_NUMBER else np.nan

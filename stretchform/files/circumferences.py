"""A list of tape readings, one station per line: station, before, under_pressure, released.

The header carries the unit of each column, as in before [mm]. With semicolons or tabs between
the columns a comma may be the decimal mark; with commas between them a point must be.
"""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from stretchform import units
from stretchform.errors import InputError, InputErrors, StretchformError
from stretchform.files.text import one_line, read_text
from stretchform.planning.compare import Reading

_COLUMNS = ("before", "under_pressure", "released")
_ALLOWED = ("station", *_COLUMNS, "remark")
_NOT_READ = ("", "-", "–", "—")
_SMALLEST, _LARGEST = 0.12, 40.0  # m: of a circumference
_GROWN = (0.98, 1.35)  # a later reading over the first: beyond it one of them is wrong
_HEADER = "station,before [mm],under_pressure [mm],released [mm]"


@dataclass(frozen=True, slots=True)
class _Column:
    name: str
    unit: str | None


def read_circumferences(path: Path, unit: str | None = None) -> tuple[Reading, ...]:
    """The readings of a file, as read off the tape; `unit` is for a header without units.

    A cell that is empty or a dash was not read. Raises InputError for the file or its header,
    InputErrors with every mistake in its lines, or the one mistake itself.
    """
    separator, rows = _rows(read_text(path, "list of readings", legacy=True), path)
    (line, header), *rest = rows
    columns = _columns(header, unit, f"{path}:{line}")
    errors: list[StretchformError] = []
    readings: list[Reading] = []
    for number, row in rest:
        try:
            readings.append(_reading(row, columns, path, number, separator))
        except StretchformError as error:
            errors.append(error)
    errors += _twins(readings, path)
    if len(errors) == 1:
        raise errors[0]
    if errors:
        raise InputErrors(errors)
    if not readings:
        raise InputError(str(path), "a header and no readings", "middle,1897.5,1995.0,1990.5")
    return tuple(readings)


def _rows(text: str, path: Path) -> tuple[str, list[tuple[int, list[str]]]]:
    """The separator, and line numbers with cells; remarks and empty lines dropped."""
    lines = text.split("\n")
    first = next(
        (line for line in lines if line.strip() and not line.startswith(("#", "sep="))), ""
    )
    separator = next((mark for mark in (";", "\t", ",") if mark in first), ",")
    reader = csv.reader(lines, delimiter=separator, strict=True)
    rows = []
    begun = 1
    try:
        for cells in reader:
            begun = reader.line_num + 1
            clean = [cell.strip() for cell in cells]
            if any(clean) and not clean[0].startswith(("#", "sep=")):
                rows.append((reader.line_num, clean))
    except csv.Error as error:
        problem = f"quotation marks or separators do not fit: {error}"
        raise InputError(f"{path}:{begun}", problem, "middle,1897.5,1995.0") from error
    if not rows:
        raise InputError(str(path), "remarks and no readings", _HEADER)
    return separator, rows


def _columns(header: Sequence[str], unit: str | None, where: str) -> list[_Column]:
    columns = [_column(cell, unit, where) for cell in header]
    names = [column.name for column in columns]
    for name in ("station", "before"):
        if name not in names:
            raise InputError(where, f"the header has no column {name}", _HEADER)
    if not {"under_pressure", "released"} & set(names):
        problem = "the header has neither under_pressure nor released"
        raise InputError(where, problem, _HEADER)
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice:
        raise InputError(where, f"the column {twice} stands twice", _HEADER)
    return columns


def _column(cell: str, unit: str | None, where: str) -> _Column:
    match = re.fullmatch(r"([^\[(]*?)\s*(?:[\[(]\s*([^\])]*?)\s*[\])])?", cell)
    written = (match[1] if match else cell).strip()
    name = re.sub(r"[\s-]+", "_", written.lower())
    if name not in _ALLOWED:
        near = get_close_matches(name, _ALLOWED, n=1, cutoff=0.5)
        meant = f"; did you mean {near[0]}?" if near else f" (known: {', '.join(_ALLOWED)})"
        raise InputError(f"{where}: {one_line(cell, 40)}", f"unknown column{meant}", _HEADER)
    found = (match[2] if match else None) or unit
    if name not in _COLUMNS:
        return _Column(name, None)
    if not found:
        fix = f"{name} [mm]"
        raise InputError(f"{where}: {one_line(cell, 40)}", "no unit in the header", fix)
    units.read(f"1 {found}", "length", f"{where}: unit of {name}")
    return _Column(name, found)


def _reading(
    row: Sequence[str], columns: Sequence[_Column], path: Path, line: int, separator: str
) -> Reading:
    where = f"{path}:{line}"
    if len(row) != len(columns):
        found = f"{len(row)} cells where the header has {len(columns)}"
        if separator == "," and len(row) > len(columns):
            found += "; a decimal comma needs semicolons between the columns"
        raise InputError(where, found, _sample(columns))
    cells = {column.name: cell for column, cell in zip(columns, row, strict=True)}
    station = " ".join(cells["station"].split())
    if not station or not station.isprintable() or len(station) > 60:
        raise InputError(where, "no name of a station", _sample(columns))
    values = {
        column.name: _length(cells[column.name], column, f"{where}: {station}", separator)
        for column in columns
        if column.unit is not None
    }
    before = values.get("before")
    for name in ("under_pressure", "released"):
        _refuse_strange(
            before,
            values.get(name),
            f"{where}: {station}, {name}",
            cells.get(name, ""),
        )
    return Reading(station, before, values.get("under_pressure"), values.get("released"), line)


def _length(cell: str, column: _Column, where: str, separator: str) -> float | None:
    if cell in _NOT_READ:
        return None
    settled = separator != "," and re.fullmatch(r"[0-9]+,[0-9]+(\s*\D*)", cell)
    text = cell.replace(",", ".") if settled else cell
    bare = re.fullmatch(r"[0-9.eE+-]+", text) is not None
    value = units.read(
        f"{text} {column.unit}" if bare else text, "length", f"{where}, {column.name}"
    )
    if not _SMALLEST <= value <= _LARGEST:
        sample = _number(1.9, column.unit or "mm")
        problem = "a circumference lies between 120 mm and 40 m"
        raise InputError(f"{where}, {column.name} = {units.shown(cell)}", problem, sample)
    return value


def _refuse_strange(before: float | None, later: float | None, where: str, cell: str) -> None:
    if before is None or later is None or _GROWN[0] <= later / before <= _GROWN[1]:
        return
    problem = f"{100.0 * (later / before - 1.0):+.1f} % against before; one of the two is wrong"
    fix = f"a circumference near {_number(1.05 * before, 'mm')} mm"
    raise InputError(f"{where} = {units.shown(cell)}", problem, fix)


def _twins(readings: Sequence[Reading], path: Path) -> list[StretchformError]:
    seen: dict[str, int] = {}
    errors: list[StretchformError] = []
    for reading in readings:
        if reading.station in seen:
            where = f"{path}:{reading.line}: {reading.station}"
            problem = f"the station stands in line {seen[reading.station]} already"
            errors.append(InputError(where, problem, "one line for each station"))
        seen.setdefault(reading.station, reading.line)
    return errors


def _sample(columns: Sequence[_Column]) -> str:
    lengths = {"before": 1.8975, "under_pressure": 1.9950, "released": 1.9905}
    cells = {"station": "middle", "remark": ""}
    return ",".join(
        cells.get(column.name) or _number(lengths[column.name], column.unit or "mm")
        if column.name in lengths or cells.get(column.name)
        else ""
        for column in columns
    )


def _number(length: float, unit: str) -> str:
    return f"{units.convert(length, unit):.4g}"

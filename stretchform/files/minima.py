"""The table of standard minima on disk; a row without a source or a status is refused."""

import csv
from functools import cache
from math import isfinite
from pathlib import Path

from stretchform.errors import DataError
from stretchform.files import data
from stretchform.sources import How
from stretchform.steel.minima import Minimum

_COLUMNS = (
    "standard",
    "grade",
    "names",
    "product",
    "proof_02_MPa",
    "proof_10_MPa",
    "tensile_MPa",
    "tensile_highest_MPa",
    "elongation_percent",
    "strengths_how",
    "elongation_how",
    "source",
    "where",
)
_TEXTS = ("standard", "grade", "product", "where")
_MPA = 1e6


@cache
def load_minima() -> tuple[Minimum, ...]:
    """The shipped minima."""
    return read_minima(data.data_dir() / "minima.csv")


def read_minima(path: Path) -> tuple[Minimum, ...]:
    """The minima of one file. Raises DataError with the line that is not complete."""
    try:
        lines = path.read_text(encoding="utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError) as error:
        raise DataError(path.name, "cannot be read as text", "a CSV file in UTF-8") from error
    numbered = [(i, s) for i, s in enumerate(lines, 1) if s.strip() and not s.startswith("#")]
    rows = list(csv.reader(s for _, s in numbered))
    if not rows or tuple(rows[0]) != _COLUMNS:
        raise DataError(path.name, "the columns are not as they must be", ",".join(_COLUMNS))
    places = [f"{path.name}:{number}" for number, _ in numbered[1:]]
    return tuple(_row(row, place) for row, place in zip(rows[1:], places, strict=True))


def _row(cells: list[str], place: str) -> Minimum:
    if len(cells) != len(_COLUMNS):
        raise DataError(place, f"{len(cells)} columns", ",".join(_COLUMNS))
    row = dict(zip(_COLUMNS, (cell.strip() for cell in cells), strict=True))
    for name in _TEXTS:
        if not row[name]:
            raise DataError(place, f"{name} is empty", f"a text for {name}")
    if row["source"] not in data.bibliography():
        raise DataError(
            place, f'source "{row["source"]}" is not in the bibliography', "en-10088-2"
        )
    elongation = _number(row, "elongation_percent", place)
    proof, tensile = _number(row, "proof_02_MPa", place), _number(row, "tensile_MPa", place)
    if proof is None or tensile is None:
        raise DataError(place, "proof_02_MPa or tensile_MPa is empty", "220")
    return Minimum(
        standard=row["standard"],
        grade=row["grade"],
        names=tuple(name for name in row["names"].split(";") if name),
        product=row["product"],
        proof_02=proof * _MPA,
        proof_10=_pascal(_number(row, "proof_10_MPa", place)),
        tensile=tensile * _MPA,
        tensile_highest=_pascal(_number(row, "tensile_highest_MPa", place)),
        elongation=None if elongation is None else elongation / 100.0,
        strengths_how=_how(row["strengths_how"], place),
        elongation_how=_how(row["elongation_how"], place),
        source=row["source"],
        where=row["where"],
    )


def _number(row: dict[str, str], name: str, place: str) -> float | None:
    if not row[name]:
        return None
    try:
        value = float(row[name])
    except ValueError as error:
        raise DataError(place, f'{name} = "{row[name]}"', "a number such as 220") from error
    if not (isfinite(value) and value > 0.0):
        raise DataError(place, f'{name} = "{row[name]}"', "a positive number such as 220")
    return value


def _pascal(value: float | None) -> float | None:
    return None if value is None else value * _MPA


def _how(text: str, place: str) -> How:
    if text not in set(How):
        raise DataError(place, f'status "{text}"', f"one of {', '.join(How)}")
    return How(text)

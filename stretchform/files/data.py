"""Material records on disk to Datum and Source; a number without a source is refused here."""

import tomllib
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from functools import cache
from importlib.resources import files
from math import isfinite
from pathlib import Path
from typing import Any, TypeAlias

from stretchform import units
from stretchform.errors import DataError, StretchformError
from stretchform.sources import Datum, How, Source

Record: TypeAlias = Mapping[str, Any]

NUMBER = "number"  # a dimension of ours: a pure number, written bare
_DATUM_KEYS = ("value", "std", "source", "where", "how")
_SOURCE_KEYS = ("title", "place", "licence")
_SAMPLES = {
    "pressure": "195 GPa",
    "ratio": "5 %",
    "growth": "0.5 points",
    "density": "7900 kg/m3",
    "expansion": "16 µm/m/K",
}


def data_dir() -> Path:
    """The folder of materials: in the installed package, else beside it."""
    package = Path(str(files("stretchform")))
    inside = package / "materials"
    return inside if inside.is_dir() else package.parent / "materials"


def read_record(path: Path) -> dict[str, Any]:
    """The tables of one TOML file. Raises DataError naming the file and its trouble."""
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except tomllib.TOMLDecodeError as error:
        fix = 'key = "value", text in double quotes, each table [once]'
        raise DataError(path.name, f"not a TOML file: {error}", fix) from error
    except UnicodeDecodeError as error:
        fix = "save the file as UTF-8 text"
        raise DataError(path.name, f"not UTF-8 text: {error.reason}", fix) from error
    except OSError as error:
        fix = "the path of a readable TOML file"
        raise DataError(str(path), error.strerror or "cannot be read", fix) from error


def datum(record: Record, name: str, dimension: str, place: str) -> Datum:
    """One record [name] with value, source, where and how; `place` is the file's name.

    Raises DataError naming the place for anything missing, empty, unknown or without a unit.
    """
    where = f"{place}: [{name}]"
    refuse_unknown(record, _DATUM_KEYS, where)
    source = text(record, "source", where)
    if source not in bibliography():
        raise DataError(
            where,
            f'source = "{source}" is not in the bibliography{_meant(source, bibliography())}',
            "a key of materials/sources.toml, or add a table there: title, place, licence",
        )
    how = text(record, "how", where)
    if how not in set(How):
        raise DataError(where, f'how = "{how}"', f'how = "seen"  # {", ".join(How)}')
    std = record.get("std")
    return _built(
        where,
        _value(record.get("value"), "value", dimension, where),
        None if std is None else _value(std, "std", dimension, where),
        source,
        text(record, "where", where),
        How(how),
    )


def _built(
    where: str, value: float, std: float | None, source: str, place: str, how: How
) -> Datum:
    try:
        return Datum(value, std, source, place, how)
    except ValueError as error:
        raise DataError(
            where, str(error), "a finite value and a std of zero or more"
        ) from error


def _value(written: Any, key: str, dimension: str, where: str) -> float:
    if dimension == NUMBER:
        if isinstance(written, bool) or not isinstance(written, int | float):
            raise DataError(where, f"{key} is not a bare number", f"{key} = 0.30")
        if not isfinite(written):
            raise DataError(where, f"{key} = {written}", f"{key} = 0.30")
        return float(written)
    sample = _SAMPLES.get(dimension, "1.0 mm")
    if not isinstance(written, str):
        found = f"{key} is missing" if written is None else f"{key} = {written!r} has no unit"
        raise DataError(where, found, f'{key} = "{sample}"')
    try:
        return units.read(written, dimension, f"{where} {key}", key)
    except StretchformError as error:
        raise DataError(error.where, error.problem, error.fix) from error


def text(record: Record, key: str, where: str) -> str:
    """A text that must be there. Raises DataError where it is missing, empty or no text."""
    written = record.get(key)
    if not isinstance(written, str) or not written.strip():
        found = f"{key} is missing" if written is None else f"{key} = {written!r} is no text"
        raise DataError(where, found, f'{key} = "{_TEXT_SAMPLES.get(key, "...")}"')
    return written.strip()


_TEXT_SAMPLES = {
    "source": "mill-certificate",
    "where": "line Rp0.2",
    "how": "seen",
    "title": "title as printed",
    "place": "publisher and year",
    "licence": "a bare fact",
}


def table(record: Record, key: str, where: str) -> Record:
    """A table [key] that must be there. Raises DataError where it is missing or no table."""
    written = record.get(key)
    if not isinstance(written, Mapping):
        found = f"[{key}] is missing" if written is None else f"{key} is not a table"
        raise DataError(where, found, f"[{key}] followed by its lines")
    return written


def flag(record: Record, key: str, where: str, missing: bool = False) -> bool:
    """A true or false. Raises DataError for anything else."""
    written = record.get(key, missing)
    if not isinstance(written, bool):
        raise DataError(
            where, f"{key} = {written!r} is neither true nor false", f"{key} = true"
        )
    return written


def refuse_unknown(record: Record, allowed: Iterable[str], where: str) -> None:
    """Refuse keys that nothing reads. Raises DataError with the nearest key that is meant."""
    known = tuple(allowed)
    for key in record:
        if key not in known:
            meant = get_close_matches(key, known, n=1)
            fix = meant[0] if meant else ", ".join(known)
            raise DataError(where, f'unknown key "{key}"', f"one of: {fix}")


def _meant(word: str, known: Iterable[str]) -> str:
    close = get_close_matches(word, tuple(known), n=1)
    return f'; did you mean "{close[0]}"?' if close else ""


@cache
def bibliography() -> dict[str, Source]:
    """Every source by its key, from materials/sources.toml."""
    return read_bibliography(data_dir() / "sources.toml")


def read_bibliography(path: Path) -> dict[str, Source]:
    """The sources of one file. Raises DataError where title, place or licence is missing."""
    sources: dict[str, Source] = {}
    for key, record in read_record(path).items():
        where = f"{path.name}: [{key}]"
        if not isinstance(record, Mapping):
            raise DataError(where, "not a table", f"[{key}] with title, place and licence")
        refuse_unknown(record, _SOURCE_KEYS, where)
        title, place, licence = (text(record, name, where) for name in _SOURCE_KEYS)
        sources[key] = Source(key, title, place, licence)
    return sources

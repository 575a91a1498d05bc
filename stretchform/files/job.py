"""The job file: TOML text with units to a Job in SI; every mistake of the file in one go."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from stretchform.files.job_mistakes import ROWS, Mistakes, near_table, validated, written
from stretchform.files.text import one_line, read_text
from stretchform.files.toml_lines import parse
from stretchform.planning.job import Job

if TYPE_CHECKING:
    from pydantic import BaseModel

    Model = TypeVar("Model", bound=BaseModel)

TABLES = (
    "job",
    "target",
    "tank",
    "course",
    "head",
    "plate",
    "station",
    "opening",
    "contents",
    "water",
    "supply",
    "gauge",
    "tape",
    "limits",
    "accepted",
    "model",
)
_NEEDED = {
    "job": '[job]\n       name = "Deck tank, survey boat"',
    "target": '[target]\n       growth = "5 %"',
    "tank": '[tank]\n       attitude = "standing"',
    "head": '[head.bottom]\n       shape = "ellipsoid 2:1"\n       wall = "2.0 mm"',
    "course": '[[course]]\n       name = "lower"',
}


def read_job(path: Path) -> Job:
    """The job of a file, its steels looked up in the shipped ones or beside the file.

    Raises InputError for a file that is no TOML text, and for its content InputErrors with
    every mistake, or the one mistake itself (NoSolution where a steel needs a certificate).
    """
    return job_from_text(read_text(path, "job file"), path)


def job_from_text(text: str, path: Path) -> Job:
    """The same for a text; `path` stands in the messages and gives the folder."""
    from stretchform.files.job_build import built
    from stretchform.files.job_like import filled

    document, lines = parse(text, str(path))
    mistakes = Mistakes(str(path), document, lines)
    _refuse_unknown_tables(document, mistakes)
    tables = _validated(filled(document, mistakes), mistakes)
    return built(tables, path.parent, mistakes)


def _validated(document: Mapping[str, Any], mistakes: Mistakes) -> dict[str, Any]:
    """Each table as its model; None where it is wrong, a list for tables that stand often."""
    from stretchform.files import job_tables

    models: dict[str, type[BaseModel]] = {
        "job": job_tables.JobTable,
        "target": job_tables.TargetTable,
        "tank": job_tables.TankTable,
        "contents": job_tables.ContentsTable,
        "water": job_tables.WaterTable,
        "supply": job_tables.SupplyTable,
        "gauge": job_tables.GaugeTable,
        "tape": job_tables.TapeTable,
        "limits": job_tables.LimitsTable,
        "model": job_tables.ModelTable,
    }
    tables: dict[str, Any] = {}
    for key, model in models.items():
        tables[key] = _single(model, key, document, mistakes)
    rows: dict[str, type[BaseModel]] = {
        "course": job_tables.CourseTable,
        "plate": job_tables.PlateTable,
        "station": job_tables.StationTable,
        "opening": job_tables.OpeningTable,
    }
    for key, model in rows.items():
        tables[key] = _many(model, key, document, mistakes)
    tables["head"] = _heads(document, mistakes)
    tables["accepted"] = document.get("accepted", {})
    return tables


def _single(
    model: "type[Model]", key: str, document: Mapping[str, Any], mistakes: Mistakes
) -> "Model | None":
    if key in document:
        return validated(model, document[key], (key,), mistakes)
    if key in _NEEDED and not _misspelt(key, document):
        mistakes.add_line((key,), "this table is missing", _NEEDED[key])
    return None


def _many(
    model: "type[Model]", key: str, document: Mapping[str, Any], mistakes: Mistakes
) -> "list[Model | None]":
    rows = document.get(key, [])
    if not isinstance(rows, list):
        fix = f"[[{key}]]"
        mistakes.add_line((key,), "may stand several times; its brackets are double", fix)
        return [None]
    if not rows and key in _NEEDED and not _misspelt(key, document):
        mistakes.add_line((key,), "at least one is needed", _NEEDED[key])
    return [
        validated(model, row, (key, index), mistakes) for index, row in enumerate(rows[:500])
    ]


def _heads(document: Mapping[str, Any], mistakes: Mistakes) -> "dict[str, Any]":
    """Both heads; none is ever taken for granted."""
    from stretchform.files.job_tables import HeadTable

    heads = document.get("head")
    if not isinstance(heads, dict):
        if not _misspelt("head", document):
            mistakes.add_line(("head",), "both heads are needed", _NEEDED["head"])
        return {"bottom": None, "top": None}
    for key in heads:
        if key not in ("bottom", "top"):
            near = near_table(key, ["bottom", "top"]) or "top"
            problem = "a tank has a bottom and a top"
            mistakes.add_line(("head", key), problem, f"[head.{near}]")
    for key in ("bottom", "top"):
        if key not in heads and not _misspelt(key, heads, ("bottom", "top")):
            other = {"bottom": "top", "top": "bottom"}[key]
            line = f'[head.{key}]\n       like = "{other}"'
            mistakes.add_line(("head", key), "this table is missing", line)
    return {
        key: validated(HeadTable, heads[key], ("head", key), mistakes) if key in heads else None
        for key in ("bottom", "top")
    }


def _refuse_unknown_tables(document: Mapping[str, Any], mistakes: Mistakes) -> None:
    known = list(TABLES)
    for key, value in document.items():
        if key in known:
            continue
        near = near_table(key, known)
        if isinstance(value, Mapping | list):
            problem = f"unknown table (known: {', '.join(known)})"
            brackets = "[[{}]]" if (near or "") in ROWS else "[{}]"
            fix = brackets.format(near) if near else f"# [{one_line(key, 40)}]"
        else:
            problem = "a key outside of any table"
            fix = f"[job]\n       {one_line(key, 40)} = {written(value)}"
        mistakes.add_line((key,), problem, fix)


def _misspelt(key: str, document: Mapping[str, Any], known: Sequence[str] = TABLES) -> bool:
    """Whether a table that is missing stands there under a name nobody knows."""
    return any(near_table(other, known) == key for other in document if other not in known)

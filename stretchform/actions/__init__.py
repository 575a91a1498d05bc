"""What a person can do, as functions: read, compute, save once.

Commands, pages and notebooks call these and nothing below them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from stretchform.actions.steel_actions import (
    certificate,
    fit,
    fit_points,
    measured_points,
    refuse_fit_place,
    save_fit,
    steel,
    steel_card,
    steel_with_curve,
    steels,
    steels_like,
)
from stretchform.errors import InputError, NoSolution

if TYPE_CHECKING:
    from stretchform.planning.compare import Comparison
    from stretchform.planning.job import Job
    from stretchform.planning.plan import Plan, PlatePlan
    from stretchform.plates.options import Proposal
    from stretchform.report.chart import Picture
    from stretchform.report.drawing_review import Review
    from stretchform.report.drawing_sheet import Sheet
    from stretchform.si import Array
    from stretchform.sources import Source

_WIDEST_CUT = 5e-3  # m
_INCH_QUANTITY = re.compile(r'\d\s*(in|in\.|inch|inches|thou|mils?|ft|psi|psig|psi\(g\)|ksi)"')


def new(path: Path) -> Path:
    """Write a starter job. Raises InputError for an existing file, which is left alone."""
    from stretchform.files.starter import write_starter

    write_starter(path)
    return path


def check(path: Path) -> Job:
    """Read a job. Raises InputErrors with every mistake in it."""
    from stretchform.files.job import read_job

    return read_job(path)


def plan(path: Path, quick: bool = False) -> Plan:
    """Read a job and plan it; quick: each course alone, without the heads' hold on the shell.

    Raises InputErrors for the file, NoSolution for the physics.
    """
    from stretchform.files.job import read_job
    from stretchform.files.judged import load_judged
    from stretchform.planning.build import build

    return build(read_job(path), load_judged(), quick)


def plates(path: Path, name: str | None = None) -> Plan:
    """Plan a job for its plates. Raises InputError if it has none, or none of that name."""
    found = plan(path)
    names = list(dict.fromkeys(plate.name for plate in found.plates))
    if not names:
        problem = "this job has no plates inside"
        raise InputError(str(path), problem, '[[plate]]\n       name = "ring"')
    if name is not None and name not in names:
        problem = f'no plates are called "{name[:40]}"; there are: {", ".join(names)}'
        raise InputError(str(path), problem, f'stretchform plates {path} --plate "{names[0]}"')
    return found


def arms(plan: Plan, name: str) -> tuple[PlatePlan, Proposal]:
    """The hardest plate of a row, and which arms would do for it."""
    from dataclasses import replace

    from stretchform.planning import plating
    from stretchform.plates.options import propose

    worst = plating.hardest([plate for plate in plan.plates if plate.name == name])
    return worst, propose(replace(worst.case, same_hand=True))


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawn plate and where its files lie."""

    sheet: Sheet
    review: Review
    files: tuple[Path, ...]


def draw(
    path: Path, name: str, folder: Path, kerf: str | None = None, replace: bool = False
) -> Drawn:
    """Plan a job and write the drawings of one row of plates into a folder.

    `kerf` is text with a unit. Raises InputError for the input and for files that are there
    already, NoSolution for a plate that must not be cut, with the reason and the force.
    """
    from stretchform import units
    from stretchform.files import drawings
    from stretchform.planning import plating
    from stretchform.report import drawing, drawing_picture, drawing_sheet, words_plates

    width = units.read(kerf, "length", "--kerf", usual="mm") if kerf else 0.0
    if not 0.0 <= width <= _WIDEST_CUT:
        problem = f"a cut {units.write(width, 'mm', 2)} wide is not within 0 to 5 mm"
        raise InputError("--kerf", problem, '--kerf "0.2 mm"')
    names = drawings.file_names(name)
    drawings.refuse_place(folder, names, replace)
    found = plates(path, name)
    where = f'{path}: plate "{name}"'
    if found.withheld_by:
        problem = f"the plan is withheld ({', '.join(found.withheld_by)}), so nothing is drawn"
        raise NoSolution(where, problem, f"stretchform plan {path}")
    result = plating.judged([plate for plate in found.plates if plate.name == name])
    if not result.passes:
        raise NoSolution(where, words_plates.why_not(result), words_plates.cure(result))
    sheet = drawing_sheet.sheet(found, name, width)
    picture = drawing_picture.picture(sheet)
    contents = (
        drawing.dxf(sheet, "R2010"),
        drawing.dxf(sheet, "R12"),
        picture.svg.encode("utf-8"),
        picture.png,
    )
    files = drawings.save(folder, dict(zip(names, contents, strict=True)), replace)
    return Drawn(sheet, drawing.looked_at(sheet), files)


def compare(
    job_path: Path, readings_path: Path, unit: str | None = None, pressure: str | None = None
) -> Comparison:
    """Hold a file of circumferences against the forecast of a job.

    `unit` is for a file whose header has none; `pressure` (text with a unit) is the forming
    pressure that was held, gauge at the top; without it the forecast at the target counts.
    Raises InputErrors for either file, NoSolution for the physics.
    """
    from stretchform import units
    from stretchform.files.circumferences import read_circumferences
    from stretchform.files.job import read_job
    from stretchform.files.judged import load_judged
    from stretchform.planning.compare import compare as compared

    held = units.read(pressure, "pressure", "--pressure") if pressure else None
    job = read_job(job_path)
    readings = read_circumferences(readings_path, unit)
    return compared(job, load_judged(), readings, held)


def refuse_picture(path: Path) -> None:
    """Refuse a place that takes no picture before anything is drawn. Raises InputError."""
    from stretchform.files.pictures import refuse_strange

    refuse_strange(path)


def save_picture(picture: Picture, path: Path) -> Path:
    """Write a picture as .svg or .png, over an older one. Raises InputError."""
    from stretchform.files.pictures import write_picture

    png = path.suffix.lower() == ".png"
    write_picture(path, picture.png if png else picture.svg.encode("utf-8"))
    return path


def refuse_outputs(pages: Sequence[Path | None], tables: Path | None) -> None:
    """Refuse places for pages and tables before anything is computed. Raises InputError."""
    from stretchform.files import pages as page_files
    from stretchform.files import tables as table_files

    for path in pages:
        if path is not None:
            page_files.refuse_strange(path)
    given = [path.resolve() for path in pages if path is not None]
    if len(set(given)) < len(given):
        problem = "page and card would be the same file"
        raise InputError(str(given[0]), problem, "--page plan.html --card card.html")
    if tables is not None:
        table_files.refuse_strange(tables)


def save_plan_page(found: Plan, path: Path, inches: bool = False) -> Path:
    """Write the page of a plan, over an older one. Raises InputError."""
    from stretchform.files.pages import write_page
    from stretchform.report import page

    write_page(path, page.page(found, bibliography(), inches, _points(found)))
    return path


def _points(found: Plan) -> dict[str, tuple[Array, Array]]:
    """Measured points behind the curves of a plan's shell, by steel."""
    from stretchform.steel.grade import Basis

    points = {}
    for one in {course.steel.key: course.steel for course in found.job.tank.courses}.values():
        if one.basis is Basis.CERTIFICATE:
            continue  # its curve was drawn from the paper, not through points
        try:
            measured = measured_points(steel_card(one.key))
        except InputError:
            continue  # the user's own file is named by its path, not by its key
        if measured is not None:
            points[one.key] = measured
    return points


def save_plan_card(found: Plan, path: Path, inches: bool = False) -> Path:
    """Write the job card of a plan, over an older one. Raises InputError."""
    from stretchform.files.pages import write_page
    from stretchform.report import card

    write_page(path, card.card(found, inches))
    return path


def save_plan_tables(found: Plan, folder: Path, inches: bool = False) -> list[Path]:
    """Write the tables of a plan into a folder. Raises InputError."""
    from stretchform.files.tables import write_tables
    from stretchform.report import plan_json, sheets

    made = sheets.of_plan(found, plan_json.as_data(found, bibliography()), inches)
    return write_tables(folder, _stem("plan", found.job), made)


def save_comparison_page(found: Comparison, path: Path, inches: bool = False) -> Path:
    """Write the page of a comparison, over an older one. Raises InputError."""
    from stretchform.files.pages import write_page
    from stretchform.report import comparison_page

    write_page(path, comparison_page.page(found, inches))
    return path


def save_comparison_tables(found: Comparison, folder: Path, inches: bool = False) -> list[Path]:
    """Write the tables of a comparison into a folder. Raises InputError."""
    from stretchform.files.tables import write_tables
    from stretchform.report import comparison_json, sheets

    made = sheets.of_comparison(comparison_json.as_data(found), inches)
    return write_tables(folder, _stem("comparison", found.job), made)


def _stem(name: str, job: Job) -> str:
    """How files of tables begin: an invented example says so in every name."""
    return f"invented-{name}" if job.example else name


def bibliography() -> dict[str, Source]:
    """Every source by its key."""
    from stretchform.files.data import bibliography as sources

    return sources()


def uses_inches(path: Path) -> bool:
    """Whether a job is written in inches or psi, so that people read these in brackets."""
    from stretchform.files.text import read_text as content

    return bool(_INCH_QUANTITY.search(content(path, "job file")))


__all__ = [
    "Drawn",
    "arms",
    "bibliography",
    "certificate",
    "check",
    "compare",
    "draw",
    "fit",
    "fit_points",
    "measured_points",
    "new",
    "plan",
    "plates",
    "refuse_fit_place",
    "refuse_outputs",
    "refuse_picture",
    "save_comparison_page",
    "save_comparison_tables",
    "save_fit",
    "save_picture",
    "save_plan_card",
    "save_plan_page",
    "save_plan_tables",
    "steel",
    "steel_card",
    "steel_with_curve",
    "steels",
    "steels_like",
    "uses_inches",
]

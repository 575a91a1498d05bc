"""Words for a steel's curve on its way to the wall: speed, water and martensite."""

from collections.abc import Mapping
from typing import Any

from stretchform.planning.conditions import CourseConditions
from stretchform.report import words_fit
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Column, Table
from stretchform.steel.martensite import SAFE_DISTANCE, Transformation

STEPS: Mapping[str, str] = {
    "curve": "curve of the steel",
    "rate": "and the slowness of a hold",
    "temperature": "and this water",
    "temperature_martensite": "and martensite in this water",
}


def martensite(found: Transformation, inches: bool = False) -> str:
    """Whether this steel turns in this water, with both values of Md30."""
    family = "".join(
        f"; {words_fit.FAMILIES[code]}" for code in found.codes if code in words_fit.FAMILIES
    )
    if found.nohara is None or found.angel is None or found.distance is None:
        return f"martensite: no analysis in the certificate, so no Md30{family}"
    values = (
        f"Md30 {numbers.temperature(found.nohara, inches)} (Nohara), "
        f"{numbers.temperature(found.angel, inches)} (Angel)"
    )
    away = abs(float(found.distance))
    side = "below" if found.distance >= 0.0 else "ABOVE"
    enough = "enough" if found.distance >= SAFE_DISTANCE else "too near"
    return f"martensite: {values}; the first is {away:.0f} K {side} the water: {enough}{family}"


def table(courses: tuple[CourseConditions, ...]) -> Table:
    """Flow stress near the target after each effect; equal courses in one row."""
    rows: dict[tuple[str, ...], list[str]] = {}
    for course in courses:
        for step in course.stresses:
            stresses = (numbers.stress(v) for v in (step.low, step.likely, step.high))
            cells = (STEPS[step.code], *stresses)
            rows.setdefault(cells, []).append(course.course)
    columns = (
        Column("flow stress near the target", right=False),
        *(Column(head) for head in ("low", "likely", "high")),
        Column("course", right=False),
    )
    note = "Each row holds the effects of those above it; what is added widens the band."
    written = tuple((*cells, ", ".join(names)) for cells, names in rows.items())
    return Table("From the steel's curve to the wall", columns, written, (note,))


def as_data(courses: tuple[CourseConditions, ...]) -> list[dict[str, Any]]:
    """The same for other programs."""
    return [
        {
            "course": course.course,
            "half_width": course.half_width,
            "md30": {"nohara": course.martensite.nohara, "angel": course.martensite.angel},
            "martensite_excluded": course.martensite.covered,
            "flow_stress": [
                {
                    "step": step.code,
                    "low": float(step.low),
                    "likely": float(step.likely),
                    "high": float(step.high),
                }
                for step in course.stresses
            ],
        }
        for course in courses
    ]

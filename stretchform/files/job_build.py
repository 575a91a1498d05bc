"""From the tables of a job file to the Job: what one table must be to another."""

from collections.abc import Mapping
from datetime import date
from difflib import get_close_matches
from math import pi
from pathlib import Path
from typing import Any, TypeVar

from stretchform import units
from stretchform.files import job_inside, job_tables, job_tank
from stretchform.files.job_mistakes import Mistakes
from stretchform.files.job_steels import Steels
from stretchform.files.judged import load_judged
from stretchform.planning import cautions
from stretchform.planning.job import (
    Contents,
    Gauge,
    Job,
    Limits,
    Model,
    Supply,
    Tape,
    Target,
    TargetKind,
    Water,
)
from stretchform.planning.likely import Judged
from stretchform.planning.tank import Attitude, Course, Head, Station, Tank

Thing = TypeVar("Thing")

_GROWTHS = (0.002, 0.20)  # what a target may ask for; the same as of [target] growth
_REASON = "inspected and dry, workshop lead, 2026-03-02"


def built(tables: Mapping[str, Any], folder: Path, mistakes: Mistakes) -> Job:
    """The job of validated tables. Raises what `Mistakes.stop` raises."""
    judged = load_judged()
    steels = Steels(judged, folder, mistakes)
    tank = _tank(tables, steels, mistakes)
    target = _target(tables["target"], tank, mistakes)
    limits = _limits(tables["limits"], target, judged, mistakes)
    accepted = _accepted(tables["accepted"], mistakes)
    mistakes.stop()
    head = _there(tables["job"])
    return Job(
        name=head.name,
        note=head.note,
        target=_there(target),
        tank=_there(tank),
        water=_water(tables["water"]),
        supply=_supply(tables["supply"]),
        gauge=_gauge(tables["gauge"]),
        tape=_tape(tables["tape"]),
        limits=limits,
        model=_model(tables["model"]),
        accepted=accepted,
        example=head.example,
        contents=_contents(tables["contents"]),
        second_gauge=_gauge(tables["gauge"].second if tables["gauge"] else None),
    )


def _there(thing: Thing | None) -> Thing:
    if thing is None:
        raise RuntimeError("a part of the job is missing although no mistake was found")
    return thing


def _tank(tables: Mapping[str, Any], steels: Steels, mistakes: Mistakes) -> Tank | None:
    rows = tables["course"]
    courses = job_tank.courses(rows, steels, mistakes)
    job_inside.refuse_twins("course", [row.name if row else None for row in rows], mistakes)
    bottom = _head("bottom", tables, 0, courses, steels, mistakes)
    top = _head("top", tables, -1, courses, steels, mistakes)
    whole = [course for course in courses if course is not None]
    if not whole or len(whole) < len(courses):
        return None
    flanges = [float(head.flange) if head else 0.0 for head in (bottom, top)]
    shell = job_inside.Shell(whole, *flanges)
    stations = job_inside.stations(tables["station"], shell, mistakes)
    plates = job_inside.plates(tables["plate"], shell, steels, mistakes)
    openings = job_inside.openings(tables["opening"], shell, mistakes)
    if bottom is None or top is None or tables["tank"] is None:
        return None
    return Tank(
        Attitude(tables["tank"].attitude),
        tuple(whole),
        bottom,
        top,
        tuple(stations),
        tuple(plates),
        tuple(openings),
    )


def _head(
    where: str,
    tables: Mapping[str, Any],
    end: int,
    courses: list[Course | None],
    steels: Steels,
    mistakes: Mistakes,
) -> Head | None:
    rows = tables["course"]
    neighbour = (rows[end], courses[end]) if rows else (None, None)
    return job_tank.head(tables["head"][where], where, neighbour, steels, mistakes)


def _target(
    table: job_tables.TargetTable | None, tank: Tank | None, mistakes: Mistakes
) -> Target | None:
    if table is None:
        return None
    given = [key for key in job_tables.TARGETS if getattr(table, key) is not None]
    if len(given) != 1:
        problem = f"one target is needed, {len(given)} are given"
        if given:
            mistakes.add_line(("target", given[1]), problem, f"# {given[1]}")
        else:
            problem += f": {', '.join(job_tables.TARGETS)}"
            mistakes.add_line(("target",), problem, 'growth = "5 %"')
        return None
    target = Target(
        TargetKind(given[0]), getattr(table, given[0]), table.under_pressure, table.at
    )
    if tank is not None and _known_station(target, tank.stations, mistakes):
        _refuse_target(target, _measured_course(target, tank), mistakes)
    return target


def _known_station(target: Target, stations: tuple[Station, ...], mistakes: Mistakes) -> bool:
    names = [job_inside.LARGEST, *(station.name for station in stations)]
    if target.station in names:
        return True
    near = get_close_matches(target.station, names, n=1, cutoff=0.5) or names[:1]
    problem = f"no such station (known: {', '.join(names)})"
    mistakes.add(("target", "at"), problem, units.line("", near[0]))
    return False


def _measured_course(target: Target, tank: Tank) -> Course:
    """The course of the target's station; for the largest growth the widest course."""
    named = {station.name: station.course for station in tank.stations}
    if target.station in named:
        return next(c for c in tank.courses if c.name == named[target.station])
    return max(tank.courses, key=lambda course: float(course.radius))


def _refuse_target(target: Target, course: Course, mistakes: Mistakes) -> None:
    """A size or strength after forming must be larger than the one before, in reason."""
    path = ("target", target.kind.value)
    if target.kind is TargetKind.GROWTH:
        return
    if target.kind is TargetKind.GAINED_YIELD_STRENGTH:
        proof = float(course.steel.proof_02)
        if target.value <= proof:
            problem = f"the steel has {units.write(proof, 'MPa', 0)} before forming"
            mistakes.add(path, problem, f'"{1.3 * proof / 1e6:.0f} MPa"')
        return
    start = {
        TargetKind.OUTSIDE_DIAMETER: 2.0 * course.radius + course.wall,
        TargetKind.INSIDE_DIAMETER: 2.0 * course.radius - course.wall,
        TargetKind.OUTSIDE_CIRCUMFERENCE: pi * (2.0 * course.radius + course.wall),
    }[target.kind]
    ratio = target.value / float(start)
    if _GROWTHS[0] <= ratio - 1.0 <= _GROWTHS[1] + 1e-9:
        return
    text = mistakes.text(path)
    before = job_tank.like_text(text, float(start)).strip('"')
    problem = f"{_change(ratio)} than the {before} before forming{job_tank.slip_of(ratio)}"
    mistakes.add(path, problem, job_tank.like_text(text, 1.05 * float(start)))


def _change(ratio: float) -> str:
    per_cent = f"{abs(ratio - 1.0) * 100.0:.3g} %"
    if ratio <= 1.0:
        return f"{per_cent} smaller"
    return f"{per_cent} larger (0.2 % to 20 % can be planned)"


def _limits(
    table: job_tables.LimitsTable | None,
    target: Target | None,
    judged: Judged,
    mistakes: Mistakes,
) -> Limits:
    """Limits of the job: a job file may tighten the judged ones but never loosen them."""
    shares = {}
    for key in ("share_of_pressure", "share_of_growth_care", "share_of_growth_block"):
        allowed = float(getattr(judged, key).value)
        asked = getattr(table, key) if table is not None else None
        if asked is not None and asked > allowed:
            percent = f"{100.0 * allowed:g} %"
            problem = f"looser than {percent}; a caution is lifted in [accepted] alone"
            mistakes.add(("limits", key), problem, f'"{percent}"')
        shares[key] = allowed if asked is None else min(asked, allowed)
    growth = table.growth if table is not None else None
    _refuse_limit(growth, target, mistakes)
    if shares["share_of_growth_care"] > shares["share_of_growth_block"]:
        percent = f'"{100.0 * shares["share_of_growth_block"]:g} %"'
        path = ("limits", "share_of_growth_block")
        mistakes.add_line(
            path, "lower than the limit for care", f"share_of_growth_care = {percent}"
        )
    return Limits(**shares, growth=growth)


def _refuse_limit(growth: float | None, target: Target | None, mistakes: Mistakes) -> None:
    if growth is None or target is None or target.kind is not TargetKind.GROWTH:
        return
    if growth < target.value:
        problem = f"lower than the target of {100.0 * target.value:g} %"
        mistakes.add(("limits", "growth"), problem, f'"{100.0 * target.value + 1.0:g} %"')


def _accepted(table: Any, mistakes: Mistakes) -> dict[str, str]:
    """Cautions a person has accepted, each with reason, role and date."""
    if not isinstance(table, dict):
        mistakes.add_line(("accepted",), "a table is meant", "[accepted]")
        return {}
    for code, reason in table.items():
        path = ("accepted", code)
        if code not in cautions.CODES:
            near = get_close_matches(code, sorted(cautions.CODES), n=1, cutoff=0.4)
            line = f"{(near or ['cold_water'])[0]} = {units.line('', _REASON)}"
            mistakes.add_line(path, "no caution has this code", line)
        elif not isinstance(reason, str) or not _three_parts(reason):
            problem = "reason, role and date are needed, the date as year-month-day"
            mistakes.add(path, problem, units.line("", _REASON))
    return {code: str(reason) for code, reason in table.items()}


def _three_parts(reason: str) -> bool:
    parts = [part.strip() for part in reason.split(",")]
    if len(parts) < 3 or not all(parts) or not reason.isprintable() or len(reason) > 300:
        return False
    try:
        date.fromisoformat(parts[-1])
    except ValueError:
        return False
    return True


def _water(table: job_tables.WaterTable | None) -> Water:
    return Water(**_given(table))


def _supply(table: job_tables.SupplyTable | None) -> Supply:
    given = _given(table)
    metered = given.pop("metered_volume", None)
    return Supply(metered=metered, **given)


def _gauge(table: job_tables.PlainGaugeTable | None) -> Gauge | None:
    if table is None:
        return None
    return Gauge(table.range, 100.0 * table.accuracy, table.height)


def _contents(table: job_tables.ContentsTable | None) -> Contents | None:
    return None if table is None else Contents(**_given(table))


def _tape(table: job_tables.TapeTable | None) -> Tape:
    return Tape(**_given(table))


def _model(table: job_tables.ModelTable | None) -> Model:
    if table is None:
        return Model()
    return Model(table.criterion, table.spread != "none", table.seed)


def _given(table: Any) -> dict[str, Any]:
    """The keys of a table that were written; the others keep the default of the Job."""
    if table is None:
        return {}
    return {key: getattr(table, key) for key in table.model_fields_set}

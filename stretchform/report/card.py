"""The job card for the day: one printed list to work by, with blank boxes beside what is expected.

The stop limits stand at the head of every printed page. A withheld plan has no card: its file says
why and nothing else.
"""

from dataclasses import dataclass

from stretchform.planning.holdpoints import HoldPoint, When
from stretchform.planning.plan import Plan, Step, StepStation
from stretchform.report import (
    html,
    terminal,
    terminal_pressure,
    words_basis,
    words_holdpoints,
    words_page,
    words_steps,
)
from stretchform.report import words_numbers as numbers
from stretchform.report.words_page import Card
from stretchform.si import Metre

_NAMED = 10  # stations whose stop values still fit at the head of every page
_LETTERS = 32  # of a station's name there
_BEFORE = (When.BEFORE, When.FILLING, When.ELASTIC)
_EACH_STEP = "each_step"  # signed with every step, so it stands above the steps
_REMARK_LINES = 12


@dataclass(frozen=True, slots=True)
class Point:
    """One hold point on the card."""

    number: int
    title: str
    must: str
    otherwise: str


@dataclass(frozen=True, slots=True)
class Group:
    title: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class StepBox:
    """One step: what is set and expected, then a row for each station with its boxes."""

    title: str
    warning: str
    expected: tuple[tuple[str, str], ...]
    stations: tuple[tuple[str, ...], ...]


def card(plan: Plan, inches: bool = False) -> str:
    """The whole card as text."""
    shown = not plan.withheld_by
    return html.render(
        "card.html",
        title=f"{Card.TITLE}: {plan.job.name}",
        invented=words_basis.EXAMPLE if plan.job.example else "",
        fingerprint=plan.fingerprint,
        page_word=words_page.PAGE,
        danger=terminal.danger(plan, inches),
        words=Card,
        shown=shown,
        withheld=terminal.withheld(plan, inches),
        accepted=terminal.accepted(plan, inches),
        unit=Card.UNIT_INCHES if inches else Card.UNIT,
        **(_content(plan, inches) if shown else {}),
    )


def _content(plan: Plan, inches: bool) -> dict[str, object]:
    groups = _groups(plan, inches)
    return {
        "stops": words_steps.stops(plan),
        "stop_values": _stop_values(plan, inches),
        "target_values": _target_values(plan, inches),
        "cautions": terminal.cautions(plan, inches),
        "pressures": terminal_pressure.blocks(plan, inches)[0],
        "approach": (words_holdpoints.APPROACH, words_holdpoints.SIGNED),
        "before": [group for when, group in groups if when in _BEFORE],
        "each_step": _each_step(plan, inches),
        "forming": [group for when, group in groups if when is When.FORMING],
        "after": [group for when, group in groups if when is When.AFTER],
        "target": _target(plan, inches),
        "zero": _zero(plan, inches),
        "steps": [
            _step(plan, number, step, inches) for number, step in enumerate(plan.steps, 1)
        ],
        "step_notes": (*words_steps.step_notes(plan), *words_steps.tape_notes()),
        "holds": words_steps.holds(plan),
        "released": _released(plan, inches),
        "remark_lines": _REMARK_LINES,
    }


def _stop_values(plan: Plan, inches: bool) -> tuple[tuple[str, str], ...]:
    """Station and stop value for the head of every page; none where there are too many."""
    if not plan.steps or len(plan.stations) > _NAMED:
        return ()
    return tuple(
        (_cut(item.name), _length(item.stop_above, inches)) for item in plan.steps[-1].stations
    )


def _target_values(plan: Plan, inches: bool) -> tuple[tuple[str, str], ...]:
    """Station and target under pressure for the head of every page."""
    if not plan.steps or len(plan.stations) > _NAMED:
        return ()
    return tuple(
        (_cut(item.name), _length(item.circumference_under_pressure.likely, inches))
        for item in plan.stations
    )


def _cut(name: str) -> str:
    return name if len(name) <= _LETTERS else name[: _LETTERS - 3] + "..."


def _groups(plan: Plan, inches: bool) -> list[tuple[When, Group]]:
    """Hold points by where in the work they stand; that of each step stands apart."""
    found = []
    for when in When:
        points = tuple(
            _point(number, point, inches)
            for number, point in enumerate(plan.hold_points, 1)
            if point.when is when and point.code != _EACH_STEP
        )
        if points:
            found.append((when, Group(when.value, points)))
    return found


def _each_step(plan: Plan, inches: bool) -> tuple[Point, ...]:
    return tuple(
        _point(number, point, inches)
        for number, point in enumerate(plan.hold_points, 1)
        if point.code == _EACH_STEP
    )


def _point(number: int, point: HoldPoint, inches: bool) -> Point:
    said = words_holdpoints.WORDS[point.code]
    return Point(number, said.title, words_holdpoints.must(point, inches), said.otherwise)


def _target(plan: Plan, inches: bool) -> tuple[tuple[str, ...], ...]:
    rows = []
    for item in plan.stations:
        sizes = (
            item.circumference_before,
            item.circumference_under_pressure.likely,
            item.circumference_released.likely,
        )
        rows.append((item.name, *(_length(size, inches) for size in sizes)))
    return tuple(rows)


def _zero(plan: Plan, inches: bool) -> tuple[tuple[str, str], ...]:
    return tuple(
        (item.name, _length(item.circumference_before, inches)) for item in plan.stations
    )


def _step(plan: Plan, number: int, step: Step, inches: bool) -> StepBox:
    expected = [
        numbers.pressure(step.pressure, inches),
        numbers.pressure(step.gauge_reading, inches),
        f"{numbers.minutes(step.hold)}{' +' if step.full_hold else ''}",
        numbers.chance(step.chance_over_target),
        numbers.litres(step.water_in.likely),
    ]
    heads = list(Card.STEP_HEADS)
    counted = words_steps.counted(plan)
    if counted:
        heads.append(counted)
        expected.append(words_steps.count_of(step))
    return StepBox(
        title=f"{Card.STEP} {number}",
        warning=Card.YIELDS if step.yielding else "",
        expected=tuple(zip(heads, expected, strict=True)),
        stations=tuple(_station(item, inches) for item in step.stations),
    )


def _station(item: StepStation, inches: bool) -> tuple[str, ...]:
    band, below = item.circumference, item.go_on_below
    return (
        item.name,
        *(_length(value, inches) for value in (band.low, band.likely, band.high)),
        Card.LAST if below is None else _length(below, inches),
        _length(item.stop_above, inches),
    )


def _released(plan: Plan, inches: bool) -> tuple[tuple[str, ...], ...]:
    rows = []
    for item in plan.stations:
        band = item.circumference_released
        sizes = (_length(value, inches) for value in (band.low, band.likely, band.high))
        rows.append((item.name, *sizes))
    return tuple(rows)


def _length(value: Metre, inches: bool) -> str:
    """2093.4 without its unit, inches in brackets; the unit stands above."""
    return numbers.bare(numbers.circumference(value, inches))

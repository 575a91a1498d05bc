"""What each pressure step brings: readings, chances, water, and from where to go on.

A tank whose tape reads below the go-on value of a step may take the whole next one: the chance
that this passes the target is then below the share stated in materials/forming.toml, at the very
value as well as for all tanks together. Above it, smaller steps are due; at the target, none.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.planning import holds, outcome, pumping, schedule
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.plan import Band, Step, StepStation
from stretchform.si import Array, Flags, Growth, Metre, Pascal, Ratio

_FEW = 20  # draws that a quantile of a rise needs
_NEAR = 3.0  # steps of growth below the target within which a tank counts as near it


@dataclass(frozen=True, slots=True)
class Course:
    """The draws at every step; growths are (N, M, P), the others (N, M) or (M,)."""

    pressures: Array
    loaded: Array
    released: Array
    meant: Array  # growth under pressure where the target is meant
    past: Flags  # beyond the target
    going: Flags  # still below it at the step before
    go_on: Array  # (M,) growth under pressure below which the next step may be taken whole


def steps(
    job: Job,
    judged: Judged,
    made: Forecast,
    chosen: Array,
    target: Growth,
    limit: Growth,
    springback: Growth,
    gauge_head: Pascal,
) -> tuple[Step, ...]:
    """Each step with its gauge reading, expected circumferences, water and chances.

    Circumferences are expected of the draws that the step before left below the target: a tank
    that is there already is not pumped further.

    `target` counts as the job asks, released or under pressure; `limit` is the released growth
    at which to stop; `gauge_head` the water between the top of the tank and the gauge.

    Source: own-derivation, the forecast at each step.
    Checked: tests/unit/test_stepping.py (chances, go-on values and water).
    """
    course = course_of(job, judged, made, chosen, target)
    water = pumping.water_in(job, judged, made, chosen, course.released)
    start = outcome.band(schedule.first_yield(made)).low
    found = []
    for index, pressure in enumerate(float(value) for value in chosen):
        yielding = pressure >= start
        chance = float(np.mean(course.past[:, index]))
        full = yielding and chance >= judged.overshoot.value
        going = course.going[:, index]
        pumped = outcome.band(water[going, index])
        flow, stroke = job.supply.flow, job.supply.stroke
        found.append(
            Step(
                pressure=pressure,
                gauge_reading=pressure + float(gauge_head),
                hold=_hold(yielding, full),
                full_hold=full,
                yielding=yielding,
                chance_over_target=chance,
                chance_of_overshoot=chance_of_overshoot(course, index),
                chance_over_share=_over_share(job, made, pressure, going),
                water_in=pumped,
                strokes=None if stroke is None else pumped.likely / float(stroke),
                pumping=None if flow is None else pumped.likely / flow,
                stations=_stations(
                    job, made, course, index, limit + springback, judged.stations_apart.value
                ),
            )
        )
    return tuple(found)


def course_of(
    job: Job, judged: Judged, made: Forecast, chosen: Array, target: Growth
) -> Course:
    """The draws at every step, and the growth from which the next step is too much.

    Source: own-derivation, room = the rise that a share of the tanks near the target exceeds.
    Checked: tests/unit/test_stepping.py (chance of overshoot at and below the go-on value).
    """
    loaded, released = growth_at(made, chosen)
    meant = outcome.at_target(job, made, loaded)
    asked = meant if job.target.under_pressure else outcome.at_target(job, made, released)
    shown = asked + made.draws.tape[:, None]  # what the tape says
    past = np.isnan(shown) | (shown > target * (1.0 + 1e-9))
    columns = [~past[:, max(index - 1, 0)] for index in range(len(chosen))]
    going = np.stack([one if np.any(one) else np.ones_like(one) for one in columns], axis=1)
    lost = np.where(np.isnan(meant), np.inf, meant) + made.draws.tape[:, None]
    off = target - np.where(np.isnan(asked), np.nan, asked) + meant  # target under pressure
    step = judged.step_growth.value
    rises = [
        _room(lost[:, index], lost[:, index + 1], off[:, index], ~past[:, index], judged, step)
        for index in range(len(chosen) - 1)
    ]
    return Course(chosen, loaded, released, lost, past, going, np.array([*rises, -np.inf]))


def _room(
    now: Array, then: Array, goal: Array, below: Flags, judged: Judged, step: Growth
) -> float:
    """Growth under pressure below which the next step passes the target in few tanks only."""
    if not np.any(below):
        return -np.inf
    near = below & (now > goal - _NEAR * step)
    chosen = near if np.sum(near) >= _FEW else below
    rise = np.sort(then[chosen] - now[chosen])
    share = 1.0 - judged.overshoot.value
    most = float(rise[int(np.ceil(share * (len(rise) - 1)))])
    return float(np.median(goal[below])) - most


def chance_of_overshoot(course: Course, index: int) -> Ratio:
    """Chance that a step passes the target in a tank that the go-on value let take it.

    Source: own-derivation, count of draws.
    Checked: tests/unit/test_stepping.py (chance of overshoot at and below the go-on value).
    """
    if index == 0:
        return float(np.mean(course.past[:, 0]))
    before = index - 1
    allowed = ~course.past[:, before] & (course.meant[:, before] <= course.go_on[before])
    return float(np.mean(course.past[allowed, index])) if np.any(allowed) else 0.0


def _over_share(job: Job, made: Forecast, pressure: Pascal, going: Flags) -> Ratio:
    limit = job.limits.share_of_pressure * made.maximum_pressure[going]
    return float(np.mean(pressure > limit))


def _hold(yielding: bool, full: bool) -> float:
    if full:
        return float(holds.TARGET)
    return float(holds.YIELDING if yielding else holds.ELASTIC)


def _stations(
    job: Job,
    made: Forecast,
    course: Course,
    index: int,
    limit: Growth,
    judged_apart: Growth,
) -> tuple[StepStation, ...]:
    going = course.going[:, index]
    found = []
    for number, point in enumerate(made.points):
        if not point.station:
            continue
        one = job.tank.courses[point.course]
        before = float(one.circumference)
        loaded, released = course.loaded[going, index], course.released[going, index]
        behind = _behind(course, going, index, loaded[:, number])
        usual = outcome.band(loaded[:, number]).high + judged_apart
        go_on = min(float(course.go_on[index]) - behind, float(limit), usual)
        found.append(
            StepStation(
                name=point.name,
                circumference=_size(before, loaded[:, number]),
                released=_size(before, released[:, number]),
                go_on_below=before * (1.0 + go_on) if go_on > 0.0 else None,
                stop_above=before * (1.0 + limit),
            )
        )
    return tuple(found)


def _size(before: Metre, growth: Array) -> Band:
    return outcome.band(before * (1.0 + growth))


def _behind(course: Course, going: Flags, index: int, growth: Array) -> Growth:
    """By how much a station's growth usually lies below that of the target's place."""
    meant = course.meant[going, index]
    both = np.isfinite(meant) & np.isfinite(growth)
    return float(np.median(meant[both] - growth[both])) if np.any(both) else 0.0

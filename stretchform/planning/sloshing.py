"""Slosh of the contents in use, before and after forming, and what each ring does to it.

The tank stands upright in use, its acceleration along its axis. The bottom head counts as a
flat-bottomed length of the same volume. The height of the wave is assumed and said. Full plates
and segments split the liquid and are not evaluated.
"""

from dataclasses import replace

import numpy as np

from stretchform.planning import size
from stretchform.planning.job import Contents, Job
from stretchform.planning.places import course_at
from stretchform.planning.plan import PlatePlan, RingSlosh, SloshPlan, SloshState
from stretchform.plates import geometry, slosh
from stretchform.si import Growth, Metre

WAVE = 0.1  # assumed height of the wave at the wall over the radius
WANTED = 0.02  # judged: damping of critical that the spacing of rings is to keep
_FULL_TURN = 2.0 * np.pi - 1e-9


def with_rings(
    job: Job, plates: tuple[PlatePlan, ...], released: Growth
) -> tuple[tuple[PlatePlan, ...], SloshPlan | None]:
    """The plates with the damping of each ring, and the slosh of the tank; None: no contents.

    `released` is the likely growth after release.

    Source: own-derivation, plates.slosh before and after growth.
    Checked: tests/unit/planning/test_sloshing.py (with_rings against plates.slosh by hand).
    """
    if job.contents is None:
        return plates, None
    before = _size(job, job.contents, 0.0)
    after = _size(job, job.contents, released)
    damped = tuple(_damped(plate, before, after) for plate in plates)
    others = [plate.name for plate in plates if not _is_ring(plate)]
    full = any(not _is_ring(plate) and plate.height < before.level for plate in plates)
    found = [plate for plate in damped if plate.damping is not None]
    return damped, SloshPlan(
        wave=WAVE,
        wanted=WANTED,
        before=_state(before, found, full, later=False),
        after=_state(after, found, full, later=True),
        outside=_outside(found, (before, after)),
        not_evaluated=tuple(dict.fromkeys(others)),
    )


def _size(job: Job, contents: Contents, growth: Growth) -> SloshState:
    """Radius, level and mode of the liquid in a tank that has grown; the volume is kept."""
    course = job.tank.courses[course_at(job, contents.level)]
    bore = float(course.radius) - 0.5 * float(course.wall)
    grown = bore + float(geometry.inside_travel(course.radius, course.wall, growth))
    bottom = size.dishes(job.tank)[0]
    below = float(bottom.volume) / (np.pi * bore**2) - float(job.tank.edges[0])
    level = float(slosh.level_after(contents.level, bore, grown))
    depth = float(slosh.level_after(float(contents.level) + below, bore, grown))
    mode = slosh.mode(grown, depth, contents.acceleration)
    return SloshState(grown, level, depth, mode, None, None)


def _is_ring(plate: PlatePlan) -> bool:
    return plate.case.ring_width is not None and float(plate.case.span) > _FULL_TURN


def _damped(plate: PlatePlan, before: SloshState, after: SloshState) -> PlatePlan:
    if not _is_ring(plate) or plate.height >= before.level:
        return plate
    pair = RingSlosh(
        _ring(plate, before, plate.result.clearance_before),
        _ring(plate, after, plate.result.clearance_after),
    )
    return replace(plate, damping=pair)


def _ring(plate: PlatePlan, state: SloshState, clearance: Metre) -> float:
    width = plate.case.ring_width
    assert width is not None
    wave = WAVE * float(state.radius)
    deep = float(state.level) - float(plate.height)
    return float(slosh.ring_damping(state.radius, width, deep, wave, clearance))


def _state(state: SloshState, rings: list[PlatePlan], full: bool, later: bool) -> SloshState:
    """The state with the damping of wall and rings, and how far apart rings may stand."""
    pairs = [plate.damping for plate in rings if plate.damping is not None]
    total = sum(float(pair.after if later else pair.before) for pair in pairs)
    damping = None if full else float(state.mode.smooth_damping) + total
    widths = [float(plate.case.ring_width or 0.0) for plate in rings]
    if not widths:
        return replace(state, damping=damping)
    gaps = [float(one.result.clearance_after if later else one.case.clearance) for one in rings]
    wave = WAVE * float(state.radius)
    spacing = slosh.widest_spacing(state.radius, min(widths), wave, WANTED, max(gaps))
    return replace(state, damping=damping, spacing=float(spacing))


def _outside(rings: list[PlatePlan], states: tuple[SloshState, ...]) -> tuple[str, ...]:
    """Where the formulas are stretched, for any of the rings, before or after."""
    codes: list[str] = []
    for plate in rings:
        width = float(plate.case.ring_width or 0.0)
        for state in states:
            deep = np.array([float(state.level) - float(plate.height)])
            wave = WAVE * float(state.radius)
            codes += slosh.rings(state.radius, width, deep, wave).outside
    return tuple(dict.fromkeys(codes))

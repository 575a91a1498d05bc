"""The whole tank with its heads, for every draw: few solved shells carry the closed form.

One fine and a handful of coarse shells are solved, each with one unknown at the end of its range.
Along the course of forming, counted by the volume gained, they give the pressure over that of the
closed form and the growth of each place beside that of the closed form. Both are smooth in the
unknowns, so every draw takes its own values from a parabola in each.
"""

from dataclasses import dataclass, replace

import numpy as np

from stretchform.forming import criterion, membrane, shell
from stretchform.forming.criterion import Shape
from stretchform.planning import design, places, walls
from stretchform.planning.course import Course
from stretchform.planning.design import Unknown
from stretchform.planning.job import Job
from stretchform.planning.meridians import meridian_of
from stretchform.planning.places import Point
from stretchform.planning.sample import Draws
from stretchform.planning.tank import Attitude
from stretchform.planning.walls import Wall
from stretchform.si import Array, Growth, Metre
from stretchform.steel.curve import Scaled
from stretchform.water import properties

_STEPS = 64  # places along the course of forming
_PAST = 1.6  # how far past the maximum of the closed form the shells are followed, in growth


@dataclass(frozen=True, slots=True)
class _Beside:
    """Solved shells beside the closed form, at common steps of volume gain."""

    ratio: Array  # (B, G), logarithm of shell over closed pressure
    growth: Array  # (B, G, P), shell less closed growth under pressure
    springback: Array  # (B, G, P)


@dataclass(frozen=True, slots=True)
class _Setting:
    """What the closed form of one tank needs to be laid beside its shells."""

    points: tuple[Point, ...]
    above: Array  # (P,), pressure of the water above each point
    shares: Array  # (courses,), shell volume of each course over that of the tank
    held: float  # volume gain of the shells over that of the closed form, about the target
    growths: Array  # (K,), largest growths at which the closed form is followed
    steps: Array  # (G,), common steps of volume gain


def largest_heights(job: Job, draws: Draws, growth: Growth) -> list[Metre]:
    """Where each course grows most, from one coarse shell of the medians.

    Source: own-derivation, largest element of the solved wall.
    Checked: tests/verification/test_whole_surrogate.py (middle of a long tank).
    Raises NoSolution where the shell cannot reach the growth.
    """
    medians = design.first(design.rows(design.with_rate(draws), []))
    trace = _solve(job, medians, np.array([0.0]), growth, shell.COARSE)
    found: list[Metre] = []
    for index in range(len(job.tank.courses)):
        inside = trace.along.part == index + 1
        values = np.where(inside, np.asarray(trace.along.growth)[0], -np.inf)
        best = int(np.nanargmax(values))
        found.append(float(np.asarray(trace.along.height)[best]))
    return found


def course_of_forming(
    job: Job, draws: Draws, every: tuple[Wall, ...], points: tuple[Point, ...], growth: Growth
) -> Course:
    """Follow every draw of the whole tank; `growth`: near the target, mid-wall, loaded.

    Source: own-derivation, closed form times the ratio of solved shells.
    Checked: tests/verification/test_whole_surrogate.py (against directly solved draws).
    Raises NoSolution where the fine shell cannot reach the growth.
    """
    rated = design.with_rate(draws)
    unknowns = design.unknowns(rated)
    rows = design.rows(rated, unknowns)
    heights = np.array([float(point.height) for point in points])
    central = _solve(job, design.first(rows), heights, growth, shell.PLAN)
    end = _end(every, growth)
    coarse = _solve(job, rows, heights, end, shell.COARSE, beyond=True)
    setting = _setting(job, rows, coarse, points, growth, end)
    beside = _beside(job, rows, coarse, setting)
    beside = _corrected(job, rows, central, beside, setting)
    return _spread(draws, every, unknowns, beside, setting, central)


def _solve(
    job: Job,
    rows: Draws,
    heights: Metre,
    growth: Growth,
    fineness: shell.Fineness,
    beyond: bool = False,
) -> shell.Trace:
    tank = job.tank
    last = len(tank.courses) - 1
    parts = [
        (tank.bottom.steel, 0),
        *((course.steel, index) for index, course in enumerate(tank.courses)),
        (tank.top.steel, last),
    ]
    factor = _factor(job, rows)
    curves = tuple(
        shell.WithCriterion(
            Scaled(steel.curve, rows.strength[:, index], rows.steepness[:, index]), factor
        )
        for steel, index in parts
    )
    share = np.ones((rows.count, len(parts)))
    share[:, 1:-1] = rows.wall / np.array([float(course.wall) for course in tank.courses])
    steel = tank.courses[0].steel
    modulus = steel.youngs_modulus.value / float(rows.springback[0])
    elastic = membrane.Elastic(modulus, steel.poisson_ratio.value)
    return shell.solve(
        meridian_of(tank),
        shell.Material(curves, elastic, rows.count, share),
        shell.Target(growth=growth, beyond=beyond),
        heights,
        _weight(job),
        fineness,
    )


def _factor(job: Job, rows: Draws) -> Array:
    """C of every row; a criterion named in the job holds for all."""
    if job.model.criterion:
        state = criterion.named(job.model.criterion, Shape.CLOSED)
        if state is not None:
            return np.full(rows.count, float(state.hoop_stress))
    return rows.criterion


def _weight(job: Job) -> shell.Weight:
    """A lying tank is solved weightless; the water above its bottom line is taken off later."""
    supports = {
        Attitude.LYING: shell.Support.WEIGHTLESS,
        Attitude.STANDING: shell.Support.STANDING,
        Attitude.HANGING: shell.Support.HANGING,
    }
    liquid = float(properties.density(job.water.temperature, 0.0))
    metal = job.tank.courses[0].steel.density.value
    return shell.Weight(supports[job.tank.attitude], liquid, metal)


def _end(every: tuple[Wall, ...], growth: Growth) -> Growth:
    """Largest growth to follow: past the maximum of the closed form in most draws."""
    tops = [
        float(np.quantile(np.asarray(wall.state.hoop_strain) * wall.top.strain, 0.95))
        for wall in every
    ]
    return max(_PAST * float(np.expm1(max(tops))), 1.2 * float(growth))


def _setting(
    job: Job,
    rows: Draws,
    trace: shell.Trace,
    points: tuple[Point, ...],
    growth: Growth,
    end: Growth,
) -> _Setting:
    above = places.water_above(job, points)
    volume = float(trace.volume_before)
    shares = np.array(
        [
            np.pi * float(item.radius) ** 2 * float(item.length) / volume
            for item in job.tank.courses
        ]
    )
    growths = _dense(2.0 * float(end))
    gains = np.asarray(trace.volume) / volume
    setting = _Setting(points, above, shares, 1.0, growths, _dense(_common_end(gains)))
    path = _path(walls.walls_of(job, design.first(rows)), setting)[2][0]
    of_closed = float(np.interp(growth, growths, path))
    of_shell = float(np.interp(growth, np.asarray(trace.largest)[0], gains[0]))
    return replace(setting, held=of_shell / of_closed)


def _common_end(gains: Array) -> float:
    """Volume gain that every solved shell reaches."""
    return float(np.min(np.nanmax(gains, axis=1)))


def _dense(last: float) -> Array:
    """Steps up to a last one: even at first, where the wall begins to yield, then growing."""
    early = np.linspace(0.0, min(0.004, 0.5 * last), 9)
    return np.concatenate([early, np.geomspace(min(0.005, 0.6 * last), last, _STEPS - 9)])


def _path(every: tuple[Wall, ...], setting: _Setting) -> tuple[Array, Array, Array]:
    """Closed form at largest growths: pressure (N, K), growth (N, K, courses), gain (N, K)."""
    most = [i for i, point in enumerate(setting.points) if point.kind is places.Kind.LARGEST]
    heads = setting.above[most]
    each = [
        _closed_pressure(wall, setting.growths) - head
        for wall, head in zip(every, heads, strict=True)
    ]
    common = np.min(np.stack(each), axis=0)
    raised = np.maximum.accumulate(common, axis=1)
    found = []
    for wall, own, head in zip(every, each, heads, strict=True):
        other = _closed_growth(wall, raised + head)
        growth = np.where(own <= common * (1.0 + 1e-12), setting.growths, other)
        found.append(np.where(np.isnan(growth), setting.growths, growth))
    growths = np.stack(found, axis=-1)
    gain = ((1.0 + growths) ** 2 - 1.0) @ setting.shares
    return common, growths, np.asarray(setting.held * gain)


def _closed(every: tuple[Wall, ...], setting: _Setting) -> tuple[Array, Array]:
    """Closed form at the common steps of volume gain: pressure (N, G), growth (N, G, P)."""
    common, growths, gain = _path(every, setting)
    count, courses = len(common), growths.shape[2]
    pressure = np.empty((count, len(setting.steps)))
    growth = np.empty((count, len(setting.steps), courses))
    for row in range(count):
        pressure[row] = np.interp(setting.steps, gain[row], common[row])
        for index in range(courses):
            growth[row, :, index] = np.interp(setting.steps, gain[row], growths[row, :, index])
    return pressure, growth[:, :, [point.course for point in setting.points]]


def _closed_pressure(wall: Wall, growth: Array) -> Array:
    """Pressure at a mid-wall growth under pressure, elastic below yield, also past the maximum."""
    strain = membrane.strain_of_loaded(growth[None, :], wall.curve, wall.state, wall.elastic)
    plastic = membrane.pressure(
        wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic
    )
    state, elastic = wall.state, wall.elastic
    share = 1.0 - elastic.poisson_ratio * state.axial_stress / state.hoop_stress
    hoop = np.log1p(growth)[None, :] * elastic.youngs_modulus / share
    below = state.pressure_factor * hoop * wall.wall / wall.radius
    return np.where(np.asarray(strain) > 0.0, plastic, np.minimum(below, plastic))


def _closed_growth(wall: Wall, pressure: Array) -> Array:
    strain = walls.strain_at_pressure(wall, pressure)
    grown = membrane.grown(wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic)
    still = membrane.elastic_growth(pressure, wall.radius, wall.wall, wall.state, wall.elastic)
    return np.where(strain == 0.0, still, grown.growth_under_pressure)


def _beside(job: Job, rows: Draws, trace: shell.Trace, setting: _Setting) -> _Beside:
    common, growth = _closed(walls.walls_of(job, rows), setting)
    lying = float(setting.above[0]) if job.tank.attitude is Attitude.LYING else 0.0
    pressure = _along(trace, np.asarray(trace.pressure), setting.steps) - lying
    loaded = _along(trace, np.asarray(trace.growth), setting.steps)
    released = _along(trace, np.asarray(trace.released), setting.steps)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.log(pressure / common)
    ratio[:, 0] = ratio[:, 1]  # nothing over nothing before the pump starts
    return _Beside(ratio, loaded - growth, loaded - released)


def _along(trace: shell.Trace, values: Array, steps: Array) -> Array:
    """Values of a trace, (B, states, ...), at steps of volume gain."""
    gains = np.asarray(trace.volume) / float(trace.volume_before)
    flat = values.reshape(*values.shape[:2], -1)
    answer = np.empty((len(flat), len(steps), flat.shape[2]))
    for row, (gain, columns) in enumerate(zip(gains, flat, strict=True)):
        good = np.isfinite(gain) & np.isfinite(columns[:, 0])
        x = np.concatenate(([0.0], gain[good]))
        for column in range(flat.shape[2]):
            y = np.concatenate(([0.0], columns[good, column]))
            answer[row, :, column] = np.interp(steps, x, y)
    return answer.reshape(len(flat), len(steps), *values.shape[2:])


def _corrected(
    job: Job, rows: Draws, central: shell.Trace, beside: _Beside, setting: _Setting
) -> _Beside:
    """The coarse shells shifted by what the fine one of the medians tells, kept past its end."""
    fine = _beside(job, design.first(rows), central, setting)
    end = float(np.nanmax(np.asarray(central.volume)) / central.volume_before)
    last = max(int(np.searchsorted(setting.steps, end, side="right")) - 1, 0)

    def shift(of_fine: Array, of_coarse: Array) -> Array:
        difference = of_fine[0] - of_coarse[0]
        difference[last:] = difference[last]
        return np.asarray(of_coarse + difference)

    return replace(
        beside,
        ratio=shift(fine.ratio, beside.ratio),
        growth=shift(fine.growth, beside.growth),
        springback=shift(fine.springback, beside.springback),
    )


def _spread(
    draws: Draws,
    every: tuple[Wall, ...],
    unknowns: list[Unknown],
    beside: _Beside,
    setting: _Setting,
    central: shell.Trace,
) -> Course:
    count = draws.count
    common, growth = _closed(every, setting)
    pressure = common * np.exp(design.spread(beside.ratio, unknowns, count))
    loaded = growth + design.spread(beside.growth, unknowns, count)
    softness = (draws.springback / np.median(draws.springback))[:, None, None]
    released = loaded - softness * design.spread(beside.springback, unknowns, count)
    peak = np.argmax(pressure, axis=1)
    return Course(
        pressure=pressure,
        loaded=loaded,
        released=released,
        gain=np.broadcast_to(setting.steps, pressure.shape),
        peak=peak,
        reached=peak < len(setting.steps) - 1,
        central=central,
    )

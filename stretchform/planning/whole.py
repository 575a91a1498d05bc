"""The whole tank with its heads, for every draw: few solved shells carry the closed form.

One fine and a handful of coarse shells are solved, each with one unknown at the end of its range.
Along the course of forming, counted by the largest growth of the shell, they give the pressure
over that of the closed form and the growth of each place beside that of the closed form. Both are
smooth in the unknowns, so every draw takes its own values from a parabola in each.
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
    """Solved shells beside the closed form, at common steps of largest growth."""

    ratio: Array  # (B, G), logarithm of shell over closed pressure
    growth: Array  # (B, G, P), shell less closed growth under pressure
    springback: Array  # (B, G, P)
    gain: Array  # (B, G)


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
    steps = _steps(coarse, end)
    beside = _beside(job, rows, coarse, steps, points)
    beside = _corrected(job, rows, central, beside, steps, points)
    return _spread(job, draws, every, unknowns, beside, steps, points, central)


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


def _steps(trace: shell.Trace, end: Growth) -> Array:
    """Common steps of largest growth: dense where the wall begins to yield."""
    reached = np.nanmax(np.where(np.isnan(trace.pressure), np.nan, trace.largest), axis=1)
    last = min(float(np.min(reached)), float(end))
    early = np.linspace(0.0, min(0.004, 0.5 * last), 9)
    return np.concatenate([early, np.geomspace(min(0.005, 0.6 * last), last, _STEPS - 9)])


def _closed(
    every: tuple[Wall, ...], points: tuple[Point, ...], above: Array, steps: Array
) -> tuple[Array, Array]:
    """Closed form at the steps: pressure (N, G) of the course that grows most, growth (N, G, P)."""
    most = [index for index, point in enumerate(points) if point.kind is places.Kind.LARGEST]
    each = [
        _closed_pressure(wall, steps) - above[place]
        for wall, place in zip(every, most, strict=True)
    ]
    common = np.min(np.stack(each), axis=0)
    raised = np.maximum.accumulate(common, axis=1)
    growths = [
        np.where(own <= common * (1.0 + 1e-12), steps, _closed_growth(wall, raised + above[at]))
        for wall, own, at in zip(every, each, most, strict=True)
    ]
    filled = [np.where(np.isnan(growth), steps, growth) for growth in growths]
    return common, np.stack([filled[point.course] for point in points], axis=-1)


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


def _beside(
    job: Job, rows: Draws, trace: shell.Trace, steps: Array, points: tuple[Point, ...]
) -> _Beside:
    every, above = walls.walls_of(job, rows), places.water_above(job, points)
    common, growth = _closed(every, points, above, steps)
    lying = float(above[0]) if job.tank.attitude is Attitude.LYING else 0.0
    pressure = _along(trace, np.asarray(trace.pressure), steps) - lying
    loaded = _along(trace, np.asarray(trace.growth), steps)
    released = _along(trace, np.asarray(trace.released), steps)
    gain = _along(trace, np.asarray(trace.volume), steps) / float(trace.volume_before)
    with np.errstate(divide="ignore", invalid="ignore"):
        ratio = np.log(pressure / common)
    ratio[:, 0] = ratio[:, 1]  # nothing over nothing before the pump starts
    return _Beside(ratio, loaded - growth, loaded - released, gain)


def _along(trace: shell.Trace, values: Array, steps: Array) -> Array:
    """Values of a trace, (B, states, ...), at steps of the largest growth."""
    flat = values.reshape(*values.shape[:2], -1)
    answer = np.empty((len(flat), len(steps), flat.shape[2]))
    for row, (largest, columns) in enumerate(zip(np.asarray(trace.largest), flat, strict=True)):
        good = np.isfinite(largest) & np.isfinite(columns[:, 0])
        x = np.concatenate(([0.0], largest[good]))
        for column in range(flat.shape[2]):
            y = np.concatenate(([0.0], columns[good, column]))
            answer[row, :, column] = np.interp(steps, x, y)
    return answer.reshape(len(flat), len(steps), *values.shape[2:])


def _corrected(
    job: Job,
    rows: Draws,
    central: shell.Trace,
    beside: _Beside,
    steps: Array,
    points: tuple[Point, ...],
) -> _Beside:
    """The coarse shells shifted by what the fine one of the medians tells, kept past its end."""
    fine = _beside(job, design.first(rows), central, steps, points)
    end = float(np.nanmax(np.asarray(central.largest)))
    last = max(int(np.searchsorted(steps, end, side="right")) - 1, 0)

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
    job: Job,
    draws: Draws,
    every: tuple[Wall, ...],
    unknowns: list[Unknown],
    beside: _Beside,
    steps: Array,
    points: tuple[Point, ...],
    central: shell.Trace,
) -> Course:
    above, count = places.water_above(job, points), draws.count
    common, growth = _closed(every, points, above, steps)
    pressure = common * np.exp(design.spread(beside.ratio, unknowns, count))
    loaded = growth + design.spread(beside.growth, unknowns, count)
    softness = (draws.springback / np.median(draws.springback))[:, None, None]
    released = loaded - softness * design.spread(beside.springback, unknowns, count)
    peak = np.argmax(pressure, axis=1)
    return Course(
        pressure=pressure,
        loaded=loaded,
        released=released,
        gain=design.spread(beside.gain, unknowns, count),
        peak=peak,
        reached=peak < len(steps) - 1,
        central=central,
    )

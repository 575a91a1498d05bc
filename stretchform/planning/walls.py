"""Each course with everything sampled: from growth to pressure and back, for all draws at once.

Each course follows its own closed form; arrays have one row a draw and one column a pressure or
a growth. Growth is that of the outside circumference, which the tape measures.
"""

from dataclasses import dataclass, replace

import numpy as np

from stretchform.forming import criterion, membrane, surface, thick
from stretchform.forming.criterion import Shape, State
from stretchform.forming.membrane import Elastic
from stretchform.planning.job import Job
from stretchform.planning.sample import Draws
from stretchform.planning.tank import Course, HeadShape
from stretchform.si import Array, Growth, Metre, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve, Scaled

_ROUNDS = 6


@dataclass(frozen=True, slots=True)
class Wall:
    """One course for all draws, ready for the closed form; arrays are (N, 1)."""

    shape: Shape
    radius: Metre
    wall: Array
    curve: Curve
    test_rate_curve: Curve  # the same without the rate factor
    state: State
    elastic: Elastic
    top: membrane.Maximum


def shape_of(job: Job) -> Shape:
    """Open where either end is held from outside, closed otherwise.

    Source: own-derivation, a tied end brings no axial force into the wall.
    Checked: tests/unit/test_walls.py (tied ends).
    """
    ends = (job.tank.bottom.shape, job.tank.top.shape)
    return Shape.OPEN if HeadShape.TIED in ends else Shape.CLOSED


def walls_of(job: Job, draws: Draws) -> tuple[Wall, ...]:
    """Every course with its sampled wall, curve, criterion and elasticity.

    Source: own-derivation, the factors of materials/forming.toml on each course.
    Checked: tests/unit/test_walls.py (medians give the likely factors).
    """
    shape = shape_of(job)
    return tuple(
        _wall(job, course, index, draws, shape) for index, course in enumerate(job.tank.courses)
    )


def _wall(job: Job, course: Course, index: int, draws: Draws, shape: Shape) -> Wall:
    def column(values: Array) -> Array:
        return np.asarray(values[:, None], dtype=np.float64)

    strength, steepness = column(draws.strength[:, index]), column(draws.steepness[:, index])
    at_test_rate = Scaled(course.steel.curve, strength, steepness)
    hold = column(draws.rate * draws.warmth)
    curve = Scaled(course.steel.curve, strength * hold, steepness)
    modulus = course.steel.youngs_modulus.value / column(draws.springback)
    elastic = Elastic(modulus, course.steel.poisson_ratio.value)
    wall = column(draws.wall[:, index])
    chosen = criterion.named(job.model.criterion, shape) if job.model.criterion else None
    state = chosen or criterion.general(shape, column(draws.criterion))
    read = _thick_share(course, shape) * column(
        draws.gauge
    )  # pressures as the gauge reads them
    state = replace(state, pressure_factor=state.pressure_factor * read)
    radius = course.radius * column(draws.diameter_of(index))
    top = membrane.maximum(radius, wall, curve, state, elastic)
    return Wall(shape, radius, wall, curve, at_test_rate, state, elastic, top)


def unsampled(job: Job, course: Course, state: State) -> Wall:
    """One course as its nominal wall and curve describe it, at the speed of a tensile test.

    Source: own-derivation, no factor applied.
    Checked: tests/unit/test_walls.py (equals the sampled wall with every factor 1).
    """
    steel, shape = course.steel, shape_of(job)
    elastic = Elastic(steel.youngs_modulus.value, steel.poisson_ratio.value)
    wall = np.full((1, 1), course.wall)
    state = replace(state, pressure_factor=state.pressure_factor * _thick_share(course, shape))
    top = membrane.maximum(course.radius, wall, steel.curve, state, elastic)
    return Wall(shape, course.radius, wall, steel.curve, steel.curve, state, elastic, top)


def _thick_share(course: Course, shape: Shape) -> Ratio:
    """Exact over thin-wall pressure at 5 % growth; 1 for walls thin enough."""
    if course.radius / course.wall >= thick.THIN_FROM or shape is Shape.OPEN:
        return 1.0
    exact = thick.pressure(shape, course.radius, course.wall, 0.05, course.steel.curve)
    mid = surface.mid_from_outside(shape, course.radius, course.wall, 0.05)
    state = criterion.mises(shape)
    strain = membrane.strain_of_released(mid, state)
    thin = membrane.pressure(
        course.radius, course.wall, strain, course.steel.curve, state, membrane.RIGID
    )
    return float(exact / thin)


def outside_growth(wall: Wall, strain: Strain, under_pressure: bool) -> Growth:
    """Growth of the outside circumference at an equivalent plastic strain of the mid-wall.

    Source: own-derivation, membrane.grown and surface.outside_from_mid.
    Checked: tests/unit/test_walls.py (round trip through `strain_at_outside`).
    """
    grown = membrane.grown(wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic)
    growth = grown.growth_under_pressure if under_pressure else grown.growth_released
    axial = _axial_strain(wall, strain, under_pressure)
    return surface.outside_from_mid(wall.shape, wall.radius, wall.wall, growth, axial)


def mid_growth(wall: Wall, strain: Strain) -> Growth:
    """Growth of the mid-wall circle under pressure at an equivalent plastic strain.

    Source: own-derivation, membrane.grown.
    Checked: tests/unit/test_walls.py (beside the outside growth).
    """
    grown = membrane.grown(wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic)
    return grown.growth_under_pressure


def strain_at_outside(wall: Wall, growth: Growth, under_pressure: bool) -> Array:
    """Equivalent plastic strain at a growth of the outside circumference.

    The change of length enters the mapping, so it is found in a few rounds.

    Source: own-derivation, inverse of `outside_growth`.
    Checked: tests/unit/test_walls.py (round trip).
    """
    axial: Strain = 0.0
    strain: Strain = np.zeros_like(wall.wall)
    # the length changes a little; each round makes its share smaller by some wall/radius
    for _ in range(_ROUNDS if under_pressure or wall.shape is Shape.OPEN else 1):
        mid = surface.mid_from_outside(wall.shape, wall.radius, wall.wall, growth, axial)
        if under_pressure:
            strain = membrane.strain_of_loaded(mid, wall.curve, wall.state, wall.elastic)
        else:
            strain = membrane.strain_of_released(mid, wall.state)
        axial = _axial_strain(wall, strain, under_pressure)
    return np.asarray(strain)


def _axial_strain(wall: Wall, strain: Strain, under_pressure: bool) -> Strain:
    plastic = wall.state.axial_strain * strain
    if not under_pressure:
        return plastic
    pull = wall.state.axial_stress - wall.elastic.poisson_ratio * wall.state.hoop_stress
    return plastic + pull * wall.curve.stress(strain) / wall.elastic.youngs_modulus


def pressure_at_outside(wall: Wall, growth: Growth, under_pressure: bool) -> Array:
    """Pressure in one course at a growth of its outside circumference; NaN beyond its maximum.

    Source: own-derivation, membrane.pressure on the mapped mid-wall strain.
    Checked: tests/unit/test_walls.py (closed form; NaN beyond the maximum).
    """
    strain = strain_at_outside(wall, growth, under_pressure)
    value = np.asarray(
        membrane.pressure(wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic)
    )
    return np.where(strain > wall.top.strain, np.nan, value)


def growth_at_pressure(wall: Wall, pressure: Pascal) -> tuple[Array, Array]:
    """Growth of the outside circumference under pressure and released, NaN above the maximum.

    Pressures (M,) or (N, M) give (N, M). Below first yield the growth under pressure is elastic
    and nothing stays after release.

    Source: own-derivation, membrane.strain_at_pressure and the mapping to the outside.
    Checked: tests/unit/test_walls.py (round trip through `pressure_at_outside`).
    """
    strain = strain_at_pressure(wall, pressure)
    still = membrane.elastic_growth(pressure, wall.radius, wall.wall, wall.state, wall.elastic)
    elastic = surface.outside_from_mid(wall.shape, wall.radius, wall.wall, still)
    loaded = np.where(strain == 0.0, elastic, outside_growth(wall, strain, under_pressure=True))
    return loaded, np.asarray(outside_growth(wall, strain, under_pressure=False))


def strain_at_pressure(wall: Wall, pressure: Pascal) -> Array:
    """Equivalent plastic strain of one course at a pressure in it; NaN above its maximum.

    Source: own-derivation, membrane.strain_at_pressure.
    Checked: tests/unit/test_walls.py (round trip through `pressure_at_outside`).
    """
    return np.asarray(
        membrane.strain_at_pressure(
            pressure, wall.radius, wall.wall, wall.curve, wall.state, wall.elastic, wall.top
        )
    )

"""From a meridian, curves and an attitude to a shell ready to be solved.

Parts are numbered from below: 0 the lower head, 1.. the courses, last the upper head. A
tank that is symmetric in every respect and carries no weight is solved by its upper half.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from stretchform.errors import InputError
from stretchform.forming.membrane import Elastic
from stretchform.forming.shell.element import elements
from stretchform.forming.shell.loads import Loads, volume
from stretchform.forming.shell.material import tabulated
from stretchform.forming.shell.mesh import Fineness, Mesh, mesh
from stretchform.forming.shell.state import Problem, Rows
from stretchform.shape.meridian import Form, Meridian, upper_half
from stretchform.si import (
    STANDARD_GRAVITY,
    Array,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
)
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation",)


class Support(StrEnum):
    """Where the weight is taken up; both are circles at a tangent line."""

    WEIGHTLESS = "weightless"
    STANDING = "standing"  # on a skirt or ring at the lower tangent line
    HANGING = "hanging"  # from a ring at the upper tangent line


@dataclass(frozen=True, slots=True)
class Weight:
    """Attitude and densities; a lying tank is planned weightless with a higher pressure."""

    support: Support = Support.WEIGHTLESS
    liquid: KilogramPerCubicMetre = 998.0
    metal: KilogramPerCubicMetre = 7900.0


@dataclass(frozen=True, slots=True)
class Material:
    """What the parts are made of, and what varies from draw to draw.

    A curve's parameters may be arrays of one value per draw. `wall_factor` multiplies the
    walls: a number, one value per draw, or (draws, parts).
    """

    curves: tuple[Curve, ...]  # one per part
    elastic: Elastic
    draws: int = 1
    wall_factor: Ratio = 1.0


@dataclass(frozen=True, slots=True)
class Ready:
    """A shell ready to be solved."""

    meridian: Meridian  # whole
    mesh: Mesh
    problem: Problem
    material: Material
    scale: float  # mid-wall radius that lengths are divided by
    halved: bool
    wall: Array  # (draws, elements), metres before forming


def ready(meridian: Meridian, material: Material, weight: Weight, fineness: Fineness) -> Ready:
    """Mesh, scaled elements, loads and supports of a tank.

    Source: own-derivation, scaling and symmetry.
    Checked: tests/unit/forming/test_shell_mesh.py (ready), test_shell_whole_tank.py.
    Raises InputError when curves and parts do not match.
    """
    _check(meridian, material)
    halved = _symmetric(meridian, material, weight)
    grid = mesh(upper_half(meridian) if halved else meridian, fineness)
    scale, modulus = float(meridian.radius), float(material.elastic.youngs_modulus)
    walls = _walls(meridian, material)[:, grid.part]
    table = tabulated(material.curves, material.draws, modulus)
    parts = elements(
        grid,
        scale,
        walls,
        material.draws,
        table,
        material.elastic.poisson_ratio,
        fineness.layers,
    )
    loads = _loads(meridian, grid, walls, weight, scale, modulus)
    nothing = np.zeros((1, len(grid.radius), 3))
    enclosed = float(volume(loads, nothing)[0][0])
    courses = walls[:, (grid.part > 0) & (grid.part < meridian.parts - 1)]
    thin = float(np.min(courses)) / scale
    lengths = np.ones(3 * len(grid.radius))
    lengths[2::3] = np.sqrt(thin)
    flow = min(float(np.min(curve.stress(0.02))) for curve in material.curves)
    problem = Problem(
        parts,
        loads,
        _fixed(meridian, grid, weight, halved),
        enclosed,
        lengths,
        2.0 * np.pi * thin * flow / modulus,
        np.flatnonzero(grid.shell),
    )
    return Ready(meridian, grid, problem, material, scale, halved, walls)


def folded(ready: Ready, heights: Metre) -> Array:
    """Heights as the solved mesh knows them: those of a halved tank lie in its upper half.

    Source: own-derivation, symmetry.
    Checked: tests/unit/forming/test_shell_mesh.py.
    """
    low, high = ready.meridian.tangent_heights
    wanted = np.atleast_1d(np.asarray(heights, dtype=np.float64))
    if not ready.halved:
        return wanted
    return np.maximum(wanted, low + high - wanted)


def _walls(meridian: Meridian, material: Material) -> Array:
    """Walls of (draws, parts)."""
    nominal = [meridian.lower.wall, *(course.wall for course in meridian.courses)]
    nominal.append(meridian.upper.wall)
    factor = np.asarray(material.wall_factor, dtype=np.float64)
    if factor.ndim < 2:
        factor = factor.reshape(-1, 1)
    shape = (material.draws, len(nominal))
    return np.broadcast_to(np.asarray(nominal, dtype=np.float64) * factor, shape)


def _symmetric(meridian: Meridian, material: Material, weight: Weight) -> bool:
    if weight.support != Support.WEIGHTLESS:
        return False
    factor = np.asarray(material.wall_factor)
    if factor.ndim == 2 and not np.array_equal(factor, factor[:, ::-1]):
        return False
    curves = material.curves
    if any(a is not b for a, b in zip(curves, reversed(curves), strict=True)):
        return False
    try:
        upper_half(meridian)
    except InputError:
        return False
    return True


def _loads(
    meridian: Meridian,
    grid: Mesh,
    walls: Array,
    weight: Weight,
    scale: float,
    modulus: float,
) -> Loads:
    heavy = weight.support != Support.WEIGHTLESS
    per_length = STANDARD_GRAVITY * scale / modulus
    ring = 2.0 * np.pi * grid.middle * grid.length * walls / scale**3
    metal = np.zeros((len(walls), len(grid.radius)))
    if heavy:
        metal[:, :-1] += 0.5 * ring * float(weight.metal) * per_length
        metal[:, 1:] += 0.5 * ring * float(weight.metal) * per_length
    return Loads(
        grid.radius / scale,
        grid.height / scale,
        float(weight.liquid) * per_length if heavy else 0.0,
        float(grid.height[-1]) / scale,
        metal,
        (meridian.lower.form == Form.TIED, meridian.upper.form == Form.TIED),
    )


def _fixed(meridian: Meridian, grid: Mesh, weight: Weight, halved: bool) -> Rows:
    """Moves that stay zero: poles on the axis, mid plane, rims of tied ends, one support."""
    last = 3 * (len(grid.radius) - 1)
    fixed: set[int] = set()
    ends = ((0, meridian.lower), (last, meridian.upper))
    for first, head in ends:
        if first == 0 and halved:
            fixed |= {1, 2}
        elif head.form != Form.TIED or not head.slides:
            fixed |= {first, first + 2}
    if not halved:
        shell = np.flatnonzero(grid.shell)
        node = shell[-1] if weight.support == Support.HANGING else shell[0]
        fixed.add(3 * int(node) + 1)
    return np.asarray(sorted(fixed), dtype=np.intp)


def _check(meridian: Meridian, material: Material) -> None:
    if len(material.curves) != meridian.parts:
        raise InputError(
            "tank",
            f"{len(material.curves)} steels for {meridian.parts} parts (heads and courses)",
            "give one curve per head and course, from below",
        )
    elastic = material.elastic
    if not (elastic.youngs_modulus > 0.0 and 0.0 <= elastic.poisson_ratio < 0.5):
        raise InputError(
            "steel", "Young's modulus or Poisson's ratio is impossible", "193 GPa and 0.29"
        )
    if not np.all(np.greater(material.wall_factor, 0.0)):
        raise InputError("tank", "a wall factor is not positive", "wall_factor = 1.0")

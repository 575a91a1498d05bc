"""Graded meshes of meridians: fine where the wall bends, coarse where it only stretches.

Elements are straight chords between nodes of the meridian; each keeps the turn of the
tangent between its nodes as its curvature before forming.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stretchform.shape.meridian import Form, Meridian, Piece, points
from stretchform.si import Array, Metre, Ratio

SOURCES = ("own-derivation",)
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(4)


@dataclass(frozen=True, slots=True)
class Fineness:
    """How fine the mesh, the layers and the steps are."""

    smallest: Ratio = 0.15  # element at a tangent line over sqrt(radius * wall)
    growth: Ratio = 0.12  # of the element size along the meridian
    crown: Ratio = 0.04  # largest element in a dish over the radius
    shell: Ratio = 0.25  # largest element in the shell over the radius
    joint: Ratio = 4.0  # element at a joint of courses over the one at a tangent line
    layers: int = 5  # Gauss points through the wall
    step: Ratio = 0.0025  # largest step, as growth
    tolerance: Ratio = 1e-6  # residual force over the force of the flowing wall


PLAN = Fineness()
COARSE = Fineness(smallest=0.4, growth=0.2, crown=0.1, layers=3, step=0.01)
FINE = Fineness(smallest=0.05, growth=0.06, crown=0.02, shell=0.1, joint=2.0, step=0.001)


@dataclass(frozen=True, slots=True)
class Mesh:
    """Nodes from the lower pole (or mid plane, or end) upwards, elements between them."""

    radius: Array  # nodes
    height: Array
    angle: Array  # of the meridian's tangent at the nodes, before forming
    length: Array  # elements: chord
    middle: Array  # radius at mid chord
    cosine: Array  # of the chord
    sine: Array
    slope: Array  # angle of the chord
    curvature: Array
    part: NDArray[np.intp]
    shell: NDArray[np.bool_]  # nodes on courses or flanges


def mesh(meridian: Meridian, fineness: Fineness = PLAN) -> Mesh:
    """Mesh of a meridian, graded away from tangent lines, joints and knuckle ends.

        h(s) = min over refined points of h0 + g |s - s_i|, capped; nodes at equal steps
        of int ds / h

    Source: own-derivation, section above; grading settled by the convergence tests.
    Checked: tests/unit/forming/test_shell_mesh.py (mesh), test_shell_convergence.py.
    """
    ends, sizes = _refined(meridian, fineness)
    shapes: list[tuple[Array, Array, Array]] = []
    parts: list[NDArray[np.intp]] = []
    begin = 0.0
    for piece in meridian.pieces:
        cap = _cap(meridian, piece, fineness)
        along = _spread(begin, float(piece.length), (ends, sizes), cap, fineness)
        radius, height, angle = points(piece, along)
        shapes.append((np.asarray(radius), np.asarray(height), np.asarray(angle)))
        parts.append(np.full(len(along) - 1, piece.part, dtype=np.intp))
        begin += float(piece.length)
    joined = [_join([shape[row] for shape in shapes]) for row in range(3)]
    return _elements(meridian, joined, np.concatenate(parts))


def _elements(meridian: Meridian, nodes: list[Array], part: NDArray[np.intp]) -> Mesh:
    radius, height, angle = nodes
    radius = _blended(meridian, radius, height)
    radius[np.abs(radius) < 1e-12 * meridian.radius] = 0.0
    along, up = np.diff(radius), np.diff(height)
    length = np.hypot(along, up)
    low, high = meridian.tangent_heights
    slack = 1e-9 * float(meridian.radius)
    return Mesh(
        radius=radius,
        height=height,
        angle=angle,
        length=length,
        middle=(radius[1:] + radius[:-1]) / 2.0,
        cosine=along / length,
        sine=up / length,
        slope=np.arctan2(up, along),
        curvature=np.diff(angle) / length,
        part=part,
        shell=(height >= low - slack) & (height <= high + slack),
    )


def _join(rows: list[Array]) -> Array:
    """Nodes of consecutive pieces in one row; the shared node is kept once."""
    return np.concatenate([row if k == 0 else row[1:] for k, row in enumerate(rows)])


def _refined(meridian: Meridian, fineness: Fineness) -> tuple[Array, Array]:
    """Arc lengths that get small elements, and the element size wanted there."""
    ends, sizes, begin = [], [], 0.0
    radius = float(meridian.radius)
    pieces = meridian.pieces
    for number, piece in enumerate(pieces):
        begin += float(piece.length)
        if number + 1 == len(pieces):
            break
        after = pieces[number + 1]
        size = float(fineness.smallest) * np.sqrt(radius * min(piece.wall, after.wall))
        inside_dish = _dished(piece) and _dished(after)
        between_courses = not _dished(piece) and not _dished(after)
        ends.append(begin)
        sizes.append(size * (fineness.joint if between_courses or inside_dish else 1.0))
    wall = float(pieces[-1].wall)
    size = float(fineness.smallest) * np.sqrt(radius * wall)
    if meridian.lower.form == Form.TIED and not _dished(pieces[0]):
        ends.append(0.0)
        sizes.append(size)
    if meridian.upper.form == Form.TIED:
        ends.append(begin)
        sizes.append(size)
    return np.asarray(ends), np.asarray(sizes)


def _dished(piece: Piece) -> bool:
    return piece.bend != 0.0 or piece.ellipse is not None


def _cap(meridian: Meridian, piece: Piece, fineness: Fineness) -> float:
    share = fineness.crown if _dished(piece) else fineness.shell
    fewest = 4.0 if _dished(piece) else 3.0
    return min(float(share * meridian.radius), float(piece.length) / fewest)


def _spread(
    begin: float, length: float, refined: tuple[Array, Array], cap: float, fineness: Fineness
) -> Array:
    """Arc lengths of nodes on one piece, at equal steps of int ds / h."""
    fine = np.linspace(0.0, length, 400)
    half = np.diff(fine)[:, None] / 2.0
    inner = fine[:-1, None] + half * (1.0 + _NODES)
    away = np.abs(begin + inner[..., None] - refined[0])
    wanted = np.min(refined[1] + fineness.growth * away, axis=-1, initial=cap)
    count = np.concatenate(([0.0], np.cumsum(np.sum(half * _WEIGHTS / wanted, axis=1))))
    number = max(int(np.ceil(count[-1] - 1e-9)), 1)
    nodes = np.interp(np.linspace(0.0, count[-1], number + 1), count, fine)
    nodes[0], nodes[-1] = 0.0, length
    return np.asarray(nodes, dtype=np.float64)


def _blended(meridian: Meridian, radius: Array, height: Array) -> Array:
    """Radii of courses of unlike girth drawn together at their joints.

    The rims of a joint are welded to their common mean; the jump fades on both sides over
    the elastic edge length sqrt(radius * wall).
    """
    radius = radius.copy()
    joint = 0.0 if meridian.lower.form == Form.TIED else float(meridian.lower.flange)
    for below, above in zip(meridian.courses[:-1], meridian.courses[1:], strict=True):
        joint += float(below.length)
        jump = float(above.radius - below.radius)
        if jump == 0.0:
            continue
        fade = np.sqrt(float(above.radius * min(below.wall, above.wall)))
        away = height - joint
        on_shell = (height >= meridian.tangent_heights[0]) & (
            height <= meridian.tangent_heights[1]
        )
        shift = np.where(away > 0.0, -0.5, 0.5) * jump * np.exp(-np.abs(away) / fade)
        at_joint = np.abs(away) < 1e-9 * float(meridian.radius)
        shift[at_joint] = (float(below.radius + above.radius) / 2.0) - radius[at_joint]
        radius = np.where(on_shell, radius + shift, radius)
    return radius


def positions(mesh: Mesh, heights: Metre) -> tuple[NDArray[np.intp], Array]:
    """Nodes and weights that interpolate a nodal quantity at heights on the shell.

        four-point Lagrange polynomial of the height

    Source: own-derivation, Lagrange interpolation.
    Checked: tests/unit/forming/test_shell_mesh.py.
    """
    nodes = np.flatnonzero(mesh.shell)
    z = mesh.height[nodes]
    wanted = np.atleast_1d(np.asarray(heights, dtype=np.float64))
    count = min(4, len(nodes))
    first = np.clip(np.searchsorted(z, wanted, side="right") - 2, 0, len(nodes) - count)
    chosen = first[:, None] + np.arange(count)
    at = z[chosen]
    weights = np.ones_like(at)
    for i in range(count):
        for j in range(count):
            if i != j:
                weights[:, i] *= (wanted - at[:, j]) / (at[:, i] - at[:, j])
    return nodes[chosen], weights

"""An arm as a beam that bends as far as it must, yields, and remembers what it went through.

Plane sections that may shear a little; displacements and turns of any size; fibres as in
`fibres`. The root is held by the plate; the tab is moved out along the radius and does not
turn. A single arm is free along the rim, a bridge is held there (half of it is solved).
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from stretchform.errors import NoSolution
from stretchform.plates import fibres
from stretchform.si import Array, Metre, Newton, NewtonMetre, Pascal, Strain
from stretchform.steel.curve import Curve

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Integers: TypeAlias = NDArray[np.intp]
else:
    Integers = object

SOURCES = ("own-derivation", "reissner-1972")

ELEMENTS = 48
FIBRES = 16
STEPS = 10
READ_AT = 0.02  # of the depth: the root strain is read there; at the very clamp it has a peak
_SHEAR = 5.0 / 6.0 / 2.6  # shear correction times G/E
_ITERATIONS = 25
_HALVINGS = 8
_PRECISION = 1e-8  # last change of the unknowns over the length


@dataclass(frozen=True, slots=True)
class Strip:
    """An arm before loading; `radius` None: straight, else bowed outward like the rim."""

    depth: Metre
    thickness: Metre
    length: Metre
    held: bool  # True: half a bridge, False: a single arm
    radius: Metre | None = None


@dataclass(frozen=True, slots=True)
class BeamState:
    """What one strip does at the end of its path; of a bridge one half."""

    travel: float
    force: Newton  # radial
    tension: Newton  # along the rim, on the tab
    moment: NewtonMetre  # at the root
    root_strain: Strain  # largest engineering strain of an outer fibre so far
    shift: Metre  # of the tab along the rim, towards the root


@dataclass(frozen=True, slots=True)
class _Mesh:
    """Nodes, elements and sections of a strip."""

    start: Array  # x, y, turn of each node before loading
    lengths: Array
    bows: Array
    heights: Array
    areas: Array
    rows: Integers  # places of the entries of all element matrices in the banded matrix
    free: Array  # numbers of the free unknowns
    shear: float
    depth: float
    reading: tuple[Integers, Integers, Array]  # see _reading


@dataclass(frozen=True, slots=True)
class _State:
    """Unknowns, memory and inner forces of a strip in balance."""

    place: Array
    memory: fibres.Memory
    inner: Array
    strain: float  # largest outer strain
    course: Array  # change of the unknowns with the travel of the tab


def solve(
    strip: Strip,
    travel: Metre,
    curve: Curve,
    youngs_modulus: Pascal,
    elements: int = ELEMENTS,
    steps: int = STEPS,
) -> BeamState:
    """Move the tab of one arm out by a travel and give its forces and its root strain.

    Balance of a beam with exact turns in every element, found by Newton's method in `steps`
    equal moves of the tab, halved where a move finds no balance.

    Source: reissner-1972, plane beam of finite strain; own-derivation, fibres.
    Checked: tests/verification/test_plates_beam.py (rows 1 and 5 to 10, order of the mesh).
    Raises NoSolution where the arm necks or the path finds no balance.
    """
    return follow(strip, (float(travel),), curve, youngs_modulus, elements, steps)[0]


def follow(
    strip: Strip,
    travels: tuple[Metre, ...],
    curve: Curve,
    youngs_modulus: Pascal,
    elements: int = ELEMENTS,
    steps: int = STEPS,
) -> tuple[BeamState, ...]:
    """Move the tab from travel to travel, out and back, and give the state at each.

    Source: reissner-1972, plane beam of finite strain; own-derivation, fibres with memory.
    Checked: tests/verification/test_plates_beam.py (unloading is elastic).
    Raises NoSolution where the arm necks or the path finds no balance.
    """
    flow = fibres.tabulate(curve, youngs_modulus)
    mesh = _mesh(strip, elements)
    state = _rest(mesh)
    peak, here, found = 0.0, 0.0, []
    for target in travels:
        for goal in np.linspace(here, float(target), steps + 1)[1:]:
            state = _advance(mesh, state, float(goal), strip, flow)
            peak = max(peak, state.strain)
        here = float(target)
        found.append(_report(mesh, state, here, peak))
    return tuple(found)


def _mesh(strip: Strip, elements: int) -> _Mesh:
    """Nodes crowded at both ends, where the arm yields."""
    even = np.linspace(0.0, 1.0, elements + 1)
    along = float(strip.length) * (even - 0.8 * np.sin(2.0 * np.pi * even) / (2.0 * np.pi))
    back = float(strip.length) - along
    if strip.radius is None:
        start = np.stack([along, np.zeros_like(along), np.zeros_like(along)], axis=1)
    else:
        radius = float(strip.radius)
        turn = back / radius
        start = np.stack([-radius * np.sin(turn), radius * np.cos(turn), turn], axis=1)
    steps = np.diff(start, axis=0)
    lengths = np.hypot(steps[:, 0], steps[:, 1])
    heights, widths = fibres.places(strip.depth, FIBRES)
    unknowns = 3 * (elements + 1)
    section = float(strip.depth) * float(strip.thickness)
    return _Mesh(
        start=start,
        lengths=lengths,
        bows=(steps[:, 2] / lengths)[:, None],
        heights=heights,
        areas=widths * float(strip.thickness),
        rows=_band_places(elements, unknowns),
        free=_free(unknowns, strip.held),
        shear=_SHEAR * section,
        depth=float(strip.depth),
        reading=_reading(lengths, float(strip.depth)),
    )


def _band_places(elements: int, unknowns: int) -> Integers:
    """Place of entry (a, b) of each element in the banded matrix, five bands either side."""
    first = 3 * np.arange(elements)[:, None, None]
    row = first + np.arange(6)[None, :, None]
    column = first + np.arange(6)[None, None, :]
    return np.asarray((5 + row - column) * unknowns + column).ravel()


def _free(unknowns: int, held: bool) -> Array:
    """1 for a free unknown, 0 for one that is prescribed."""
    free = np.ones(unknowns)
    free[:3] = 0.0
    free[-2:] = 0.0
    free[-3] = 0.0 if held else 1.0
    return free


def _rest(mesh: _Mesh) -> _State:
    """The strip before loading."""
    shape = (len(mesh.lengths), len(mesh.heights))
    memory = fibres.Memory(np.zeros(shape), np.zeros(shape))
    still = np.zeros(len(mesh.free))
    return _State(still, memory, still, 0.0, still)


def _advance(
    mesh: _Mesh, state: _State, goal: float, strip: Strip, flow: fibres.Flow
) -> _State:
    """Bring the tab to a travel, in smaller moves if need be."""
    pieces = 1
    for _ in range(_HALVINGS):
        aims = np.linspace(float(state.place[-2]), goal, pieces + 1)[1:]
        moved = _through(mesh, state, aims, flow)
        if moved is not None:
            return moved
        pieces *= 2
    raise NoSolution(
        f"arm {1e3 * float(strip.length):.1f} mm long, {1e3 * float(strip.depth):.1f} mm deep",
        f"no balance at {1e3 * goal:.2f} mm of travel: it necks at the root",
        "make the arm longer or choose arms of one hand",
    )


def _through(mesh: _Mesh, state: _State, aims: Array, flow: fibres.Flow) -> _State | None:
    """Move the tab through several travels; None if one finds no balance."""
    moved: _State | None = state
    for aim in aims:
        if moved is None:
            break
        moved = _balance(mesh, moved, float(aim), flow)
    return moved


def _balance(mesh: _Mesh, state: _State, aim: float, flow: fibres.Flow) -> _State | None:
    """Newton's method for one move of the tab; None if it does not settle."""
    from scipy.linalg import solve_banded

    move = aim - float(state.place[-2])
    if move == 0.0:
        return state
    place = state.place + (state.course * move if move * state.course[-2] > 0.0 else 0.0)
    fixed = mesh.free == 0.0
    scale = float(np.sum(mesh.lengths))
    for turn in range(_ITERATIONS):
        inner, band, memory, strain = _inner(mesh, place, state.memory, flow)
        wanted = -inner * mesh.free
        wanted[-2] = aim - place[-2]
        held = _hold(band, fixed)
        change = solve_banded((5, 5), held, wanted, check_finite=False, overwrite_ab=True)
        size = float(np.max(np.abs(change)))
        if not np.isfinite(size) or size > scale:
            return None
        if turn and size < _PRECISION * scale:
            course = (place - state.place) / move
            outward = course if move > 0.0 else 0.0 * course
            return _State(place, memory, inner, strain, outward)
        place += change
    return None


def _hold(band: Array, fixed: Array) -> Array:
    """Replace the rows of prescribed unknowns by the unit matrix."""
    count = len(fixed)
    for row in np.flatnonzero(fixed).tolist():
        columns = np.arange(max(0, row - 5), min(count, row + 6))
        band[5 + row - columns, columns] = 0.0
        band[5, row] = 1.0
    return band


def _inner(
    mesh: _Mesh, place: Array, memory: fibres.Memory, flow: fibres.Flow
) -> tuple[Array, Array, fibres.Memory, float]:
    """Inner forces, banded stiffness, new memory and outer strains at given unknowns."""
    nodes = mesh.start + place.reshape(-1, 3)
    slopes = np.diff(nodes, axis=0) / mesh.lengths[:, None]
    turn = 0.5 * (nodes[:-1, 2] + nodes[1:, 2])
    c, s = np.cos(turn), np.sin(turn)
    along = c * slopes[:, 0] + s * slopes[:, 1]
    across = c * slopes[:, 1] - s * slopes[:, 0]
    section = fibres.section(
        along - 1.0, slopes[:, 2], mesh.bows, mesh.heights, mesh.areas, memory, flow
    )
    shear = mesh.shear * flow.modulus
    lines = _lines(mesh, c, s, along, across)
    forces = np.stack([section.tension, shear * across, section.moment], axis=1)
    stiffness = _stiffness(section, shear)
    weight = mesh.lengths
    local = np.einsum("eka,ek->ea", lines, forces) * weight[:, None]
    matrix = np.einsum("eka,ekl,elb->eab", lines, stiffness, lines, optimize=False)
    matrix += _turning(mesh, c, s, along, across, section.tension, shear * across)
    matrix *= weight[:, None, None]
    count = len(place)
    inner = np.zeros(count)
    np.add.at(inner.reshape(-1, 3), np.arange(len(weight)), local[:, :3])
    np.add.at(inner.reshape(-1, 3), np.arange(1, len(weight) + 1), local[:, 3:])
    band = np.bincount(mesh.rows, weights=matrix.ravel(), minlength=11 * count)
    strain = _outer(mesh, along - 1.0, slopes[:, 2])
    return inner, np.asarray(band, dtype=np.float64).reshape(11, count), section.memory, strain


def _outer(mesh: _Mesh, stretch: Array, curvature: Array) -> float:
    """Largest outer strain, at both ends read a fiftieth of the depth inside."""
    near, after, share = mesh.reading
    bow = mesh.bows[:, 0]
    ends = [v[near] + share * (v[after] - v[near]) for v in (stretch, curvature, bow)]
    inner = slice(int(near[0]), int(near[1]) + 1)
    inside = np.asarray(
        fibres.outer_strain(stretch[inner], curvature[inner], bow[inner], mesh.depth)
    )
    if share[0] > 0.0:
        inside = inside[1:-1]
    outside = fibres.outer_strain(ends[0], ends[1], ends[2], mesh.depth)
    return float(max(np.max(inside), np.max(outside)))


def _reading(lengths: Array, depth: float) -> tuple[Integers, Integers, Array]:
    """Elements on both sides of the place where the strain is read, and the share of each."""
    middles = np.cumsum(lengths) - 0.5 * lengths
    place = max(int(np.searchsorted(middles, READ_AT * depth)) - 1, 0)
    share = (READ_AT * depth - middles[place]) / (middles[place + 1] - middles[place])
    last = len(lengths) - 1
    return (
        np.array([place, last - place]),
        np.array([place + 1, last - place - 1]),
        np.array([share, share]),
    )


def _lines(mesh: _Mesh, c: Array, s: Array, along: Array, across: Array) -> Array:
    """Change of stretch, shear and curvature with the six unknowns of each element."""
    each = 1.0 / mesh.lengths
    lines = np.zeros((len(each), 3, 6))
    lines[:, 0, 3], lines[:, 0, 4] = c * each, s * each
    lines[:, 1, 3], lines[:, 1, 4] = -s * each, c * each
    lines[:, 2, 5] = each
    lines[:, :, :3] = -lines[:, :, 3:]
    lines[:, 0, 2] = lines[:, 0, 5] = 0.5 * across
    lines[:, 1, 2] = lines[:, 1, 5] = -0.5 * along
    return lines


def _stiffness(section: fibres.Section, shear: float) -> Array:
    """Stiffness of each section in stretch, shear and curvature."""
    matrix = np.zeros((len(section.tension), 3, 3))
    matrix[:, 0, 0] = section.by_stretch
    matrix[:, 0, 2] = matrix[:, 2, 0] = section.by_both
    matrix[:, 2, 2] = section.by_curvature
    matrix[:, 1, 1] = shear
    return matrix


def _turning(
    mesh: _Mesh, c: Array, s: Array, along: Array, across: Array, tension: Array, shear: Array
) -> Array:
    """Stiffness that the forces give by turning with the element."""
    each = 0.5 / mesh.lengths
    across_x = (-s * tension - c * shear) * each
    across_y = (c * tension - s * shear) * each
    turn = 0.25 * (-along * tension - across * shear)
    matrix = np.zeros((len(each), 6, 6))
    for node, sign in ((0, -1.0), (3, 1.0)):
        for other in (2, 5):
            matrix[:, node, other] = matrix[:, other, node] = sign * across_x
            matrix[:, node + 1, other] = matrix[:, other, node + 1] = sign * across_y
    for one in (2, 5):
        matrix[:, one, 2] = matrix[:, one, 5] = turn
    return matrix


def _report(mesh: _Mesh, state: _State, travel: float, peak: float) -> BeamState:
    """Forces at root and tab, and the largest strain."""
    return BeamState(
        travel=travel,
        force=float(state.inner[-2]),
        tension=float(-state.inner[0]),
        moment=float(abs(state.inner[2])),
        root_strain=peak,
        shift=float(-state.place[-3]),
    )

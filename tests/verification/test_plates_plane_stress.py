"""The beam against a two-dimensional model: plate body, round slot end, finite strain.

Plane stress, P2 triangles, deformation plasticity: energy W of the equivalent logarithmic
strain e with dW/de the curve (elastic part in series, no volume change), so
e^2 = (ln J)^2 + acosh(I/(2 J))^2 / 3 with I = F:F and J = det F. The plate gives a little, so the
beam is a few per cent stiffer. Asked: force within 10 % for two arms.
"""

import csv
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest
from scipy.sparse import csr_matrix
from scipy.sparse.linalg import spsolve
from scipy.spatial import Delaunay
from skfem import (
    Basis,
    BilinearForm,
    DiscreteField,
    ElementTriP2,
    ElementVector,
    LinearForm,
    MeshTri,
)

from stretchform.plates import beam, fibres
from stretchform.steel.curve import Ludwik

TABLE = Path(__file__).parent / "data/plates-check-values.csv"
LINES = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
ROWS = {row["row"]: float(row["expected"]) for row in csv.DictReader(LINES)}
STEEL = Ludwik(230e6, 1256e6, 0.66)  # invented
E = 195e9
T = 1.5e-3
FLOW = fibres.tabulate(STEEL, E)


def stress_and_slope(strain):
    """Uniaxial stress and tangent against total strain, exactly on the curve."""
    left = np.clip(np.searchsorted(FLOW.total, strain) - 1, 0, None)
    plastic = np.maximum(FLOW.plastic[left], 1e-12)  # from the left Newton cannot overshoot
    for _ in range(5):
        wrong = plastic + STEEL.stress(plastic) / E - strain
        plastic = np.maximum(plastic - wrong / (1.0 + STEEL.slope(plastic) / E), 1e-12)
    tangent = E * STEEL.slope(plastic) / (E + STEEL.slope(plastic))
    elastic = strain <= STEEL.yield_stress / E
    return np.where(elastic, E * strain, STEEL.stress(plastic)), np.where(elastic, E, tangent)


def scalar_derivatives(gradient):
    """F and the derivatives of the energy with respect to I and J."""
    f = gradient + np.eye(2)[:, :, None, None]
    i = np.einsum("ij...,ij...", f, f)
    j = f[0, 0] * f[1, 1] - f[0, 1] * f[1, 0]
    z = np.maximum(i / (2 * j), 1.0)
    near = z - 1.0 < 1e-4
    safe = np.where(near, 2.0, z)
    root = np.sqrt(safe**2 - 1.0)
    q = np.where(near, 2 * (z - 1) - (z - 1) ** 2 / 3, np.arccosh(safe) ** 2)
    q1 = np.where(near, 2 - 2 * (z - 1) / 3, 2 * np.arccosh(safe) / root)
    q2 = np.where(near, -2 / 3 + 8 * (z - 1) / 15, (2 - safe * q1) / root**2)
    log = np.log(j)
    e = np.sqrt(np.maximum(log**2 + q / 3, 1e-20))
    s, tangent = stress_and_slope(e)
    w1, w2 = s / (2 * e), (tangent - s / e) / (4 * e**2)
    by_i, by_j = q1 / (6 * j), 2 * log / j - q1 * i / (6 * j**2)
    ii = q2 / (12 * j**2)
    ij = -q1 / (6 * j**2) - q2 * i / (12 * j**3)
    jj = 2 * (1 - log) / j**2 + q1 * i / (3 * j**3) + q2 * i**2 / (12 * j**4)
    first = (w1 * by_i, w1 * by_j)
    second = (w2 * by_i**2 + w1 * ii, w2 * by_i * by_j + w1 * ij, w2 * by_j**2 + w1 * jj)
    return f, j, e, first, second


def cofactor(f):
    return np.array([[f[1, 1], -f[1, 0]], [-f[0, 1], f[0, 0]]])


@BilinearForm
def stiffness(u, v, w):
    return np.einsum("ijkl...,ij...,kl...", w["tangent"], u.grad, v.grad)


@LinearForm
def inner(v, w):
    return np.einsum("ij...,ij...", w["stress"], v.grad)


def material(gradient):
    """Nominal stress and its derivative with respect to the gradient."""
    f, _, _, (wi, wj), (wii, wij, wjj) = scalar_derivatives(gradient)
    cof, unit = cofactor(f), np.eye(2)
    turn = np.array([[0.0, 1.0], [-1.0, 0.0]])
    mixed = np.einsum("ij...,kl...->ijkl...", 2 * f, cof)
    tangent = wii * np.einsum("ij...,kl...->ijkl...", 2 * f, 2 * f)
    tangent += wij * (mixed + np.einsum("ijkl...->klij...", mixed))
    tangent += wjj * np.einsum("ij...,kl...->ijkl...", cof, cof)
    tangent += np.einsum("...,ik,jl->ijkl...", 2 * wi, unit, unit)
    tangent += np.einsum("...,ik,jl->ijkl...", wj, turn, turn)
    return DiscreteField(2 * wi * f + wj * cof), DiscreteField(tangent)


def arm_mesh(length, depth, radius):
    """Arm on a piece of plate with a round slot end tangent to the arm's inner edge."""
    rows = 5
    arm_x = np.linspace(0.0, length, 36)
    grid = np.array([(x, y) for x in arm_x for y in np.linspace(0, depth, rows)])
    angles = np.linspace(np.pi / 2, 3 * np.pi / 2, 15)
    shells = [radius * (1 + 0.16 * k + 0.035 * k**2) for k in range(7)]
    fan = [
        (r * np.cos(a), -radius + r * np.sin(a))
        for r in shells
        for a in angles
        if -radius + r * np.sin(a) < 1e-9 or r * np.cos(a) < 0.0
    ]
    step = depth / 3
    far = [
        (x, y)
        for x in np.arange(-3 * depth, 1e-9, step)
        for y in np.arange(-4 * depth, depth + 1e-9, step)
        if np.hypot(x, y + radius) > shells[-1] + 0.4 * step
    ]
    near_root = [(x, y) for x in (-depth / 6, -depth / 3) for y in np.linspace(0, depth, rows)]
    rim = [(0.0, y) for y in np.arange(-2 * radius, -4 * depth - 1e-9, -step)]
    cloud = np.array([*grid.tolist(), *fan, *far, *rim, *near_root])
    inside = (cloud[:, 1] <= depth + 1e-9) & (cloud[:, 0] >= -3 * depth - 1e-9)
    cloud = np.unique(np.round(cloud[inside] / depth, 6), axis=0) * depth
    keep = [0]
    for index in range(1, len(cloud)):
        gap = np.hypot(*(cloud[keep] - cloud[index]).T)
        if np.min(gap) > 0.05 * depth:
            keep.append(index)
    cloud = cloud[keep]
    triangles = Delaunay(cloud).simplices
    middle = cloud[triangles].mean(axis=1)
    hole = np.hypot(middle[:, 0], middle[:, 1] + radius) < radius
    outside = (middle[:, 0] > 0) & (middle[:, 1] < 0)
    a, b, c = (cloud[triangles[:, k]] for k in range(3))
    area = np.abs((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0])
    good = triangles[~hole & ~outside & (area > 1e-3 * depth**2)]
    used, places = np.unique(good, return_inverse=True)
    return MeshTri(cloud[used].T.copy(), places.reshape(good.shape).T.copy())


@lru_cache(maxsize=4)
def solved(length, depth, radius, travel):
    """Force of one arm and its largest stretch in the half at the root."""
    mesh = arm_mesh(length, depth, radius)
    basis = Basis(mesh, ElementVector(ElementTriP2()), intorder=3)
    far = basis.get_dofs(lambda x: (x[0] < -3 * depth + 1e-6) | (x[1] < -4 * depth + 1e-6))
    tab = basis.get_dofs(lambda x: x[0] > length - 1e-6)
    across, along = tab.all("u^2"), tab.all("u^1")
    fixed = np.concatenate([far.all(), across])
    free = np.setdiff1d(np.arange(basis.N), np.concatenate([fixed, along]))
    # every unknown from the free ones and the one shift of the tab along the arm
    columns = len(free) + 1
    rows = np.concatenate([free, along])
    place = np.concatenate([np.arange(len(free)), np.full(len(along), columns - 1)])
    tie = csr_matrix((np.ones(len(rows)), (rows, place)), shape=(basis.N, columns))
    u, step, here = np.zeros(basis.N), np.zeros(basis.N), 0.0
    size = travel / 200
    while here < travel:
        size = min(size, travel - here)
        moved = balance(basis, tie, across, u, step * size, here + size)
        if moved is None:
            size /= 2
            assert size > travel * 1e-4, "no balance in the plane-stress model"
            continue
        step, u, here, size = (moved - u) / size, moved, here + size, min(2 * size, travel / 10)
    state = basis.interpolate(u)
    force = inner.assemble(basis, stress=material(state.grad)[0])
    f = scalar_derivatives(state.grad)[0]
    stretch = np.linalg.svd(np.moveaxis(f, (0, 1), (-2, -1)), compute_uv=False)[..., 0]
    root = basis.global_coordinates()[0] < length / 2
    return float(np.sum(force[across])) * T, float(np.max(stretch[root])) - 1.0


def balance(basis, tie, across, start, ahead, goal):
    """Newton's method with halved steps for one move of the tab; None if it does not settle."""
    u = start + ahead
    u[across] = goal
    force = pull(basis, u)
    for _ in range(30):
        if force is None:
            return None
        tangent = material(basis.interpolate(u).grad)[1]
        matrix = tie.T @ stiffness.assemble(basis, tangent=tangent) @ tie
        change = tie @ spsolve(matrix.tocsc(), -(tie.T @ force))
        before, share = np.linalg.norm(tie.T @ force), 1.0
        for _ in range(6):
            force = pull(basis, u + share * change)
            if force is not None and np.linalg.norm(tie.T @ force) < before:
                break
            share /= 2
        u = u + share * change
        if np.max(np.abs(change)) < 1e-7:  # of 17.5 mm of travel
            return u
    return None


def pull(basis, u):
    """Inner forces; None where an element has turned over."""
    with np.errstate(invalid="ignore", divide="ignore"):
        stress = material(basis.interpolate(u).grad)[0]
    return inner.assemble(basis, stress=stress) if np.all(np.isfinite(stress)) else None


ARMS = [
    pytest.param("11F5", "11e5", 95e-3, 10e-3, 5e-3, id="95 x 10"),
    pytest.param("11F3", "11e3", 80e-3, 6e-3, 3e-3, id="80 x 6", marks=pytest.mark.campaign),
]


@pytest.mark.parametrize(("force_row", "strain_row", "length", "depth", "radius"), ARMS)
def test_beam_agrees_with_the_plane_model(force_row, strain_row, length, depth, radius):
    force, strain = solved(length, depth, radius, 17.5e-3)
    assert force == pytest.approx(ROWS[force_row], rel=0.015)  # another mesh of the same model
    assert strain == pytest.approx(ROWS[strain_row], rel=0.10)  # few elements at the root
    arm = beam.solve(beam.Strip(depth, T, length, False), 17.5e-3, STEEL, E)
    assert 1.0 < arm.force / force < 1.10  # asked: 10 %; the plate gives a little
    assert strain < arm.root_strain  # an end radius of half the depth keeps the beam's strain


def test_material_has_consistent_derivatives():
    rng = np.random.default_rng(1)
    for size in (1e-3, 1e-2, 0.1):
        gradient = rng.normal(size=(2, 2, 1, 5)) * size
        tangent = material(gradient)[1]
        for k, m in ((0, 0), (0, 1), (1, 0), (1, 1)):
            step = np.zeros_like(gradient)
            step[k, m] = 1e-5 * size
            ahead, back = material(gradient + step)[0], material(gradient - step)[0]
            slope = (ahead - back) / (2e-5 * size)
            largest = np.max(np.abs(tangent), axis=(0, 1, 2, 3))
            # central difference of a kinked curve
            assert np.max(np.abs(slope - tangent[:, :, k, m]) / largest) < 1e-4


def test_simple_pull_returns_the_curve():
    stretch = np.exp(0.1)
    gradient = np.zeros((2, 2, 1, 1))
    gradient[0, 0], gradient[1, 1] = stretch - 1.0, stretch**-0.5 - 1.0
    nominal = material(gradient)[0][:, :, 0, 0]
    stress, _ = stress_and_slope(np.array([0.1]))
    assert nominal[0, 0] == pytest.approx(stress[0] / stretch, rel=1e-9)
    assert nominal[1, 1] == pytest.approx(0.0, abs=1.0)  # pascals

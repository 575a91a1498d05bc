"""Two-node shell elements with one point along and Gauss layers through the wall.

Geometrically exact: stretch, turn and shear of the mid-wall line at mid element. Lengths are
over the tank radius, stresses over Young's modulus. Transverse shear stays elastic.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from stretchform.forming.shell.material import Answer, CurveTable, Flow, update
from stretchform.forming.shell.mesh import Mesh
from stretchform.si import Array, Metre, Ratio

SOURCES = ("own-derivation",)
_SHEAR = 5.0 / 6.0
_MIRRORED = ((0, 1), (0, 2), (0, 3), (2, 1), (3, 1), (3, 2), (4, 0), (4, 1), (4, 2), (4, 3))


@dataclass(slots=True)
class Elements:
    """What an evaluation needs, for all draws of a batch."""

    middle: Array  # (elements,)
    length: Array
    cosine: Array
    sine: Array
    slope: Array
    curvature: Array
    share: Array  # (5, elements): what a node's move adds to r, r', z', turn, turn'
    wall: Array  # (draws, elements)
    base: NDArray[np.intp]  # (draws, elements): first cells in the curve table
    table: CurveTable
    poisson: float
    layers: int
    shear: float = 0.0  # modulus over Young's

    def chosen(self, rows: NDArray[np.intp]) -> "Elements":
        """The same elements for some of the draws."""
        from dataclasses import replace

        return replace(self, wall=self.wall[rows], base=self.base[rows])


@cache
def _gauss(layers: int) -> tuple[Array, Array]:
    places, weights = np.polynomial.legendre.leggauss(layers)
    return places, np.stack([weights, weights * places, weights * places**2])


def elements(
    mesh: Mesh,
    scale: Metre,
    wall: Array,
    draws: int,
    table: CurveTable,
    poisson: Ratio,
    layers: int,
) -> Elements:
    """Elements of a mesh in lengths over `scale`; wall is (draws, elements) in metres.

    Source: own-derivation, scaling.
    Checked: tests/unit/forming/test_shell_element.py (parts, elements of a shell).
    """
    length = mesh.length / scale
    half, rate = np.full_like(length, 0.5), 1.0 / length
    return Elements(
        middle=mesh.middle / scale,
        length=length,
        cosine=mesh.cosine,
        sine=mesh.sine,
        slope=mesh.slope,
        curvature=mesh.curvature * scale,
        share=np.stack([half, rate, rate, half, rate]),
        wall=np.ascontiguousarray(np.broadcast_to(wall / scale, (draws, len(length)))),
        base=table.base(mesh.part, np.arange(draws)),
        table=table,
        poisson=float(poisson),
        layers=layers,
        shear=0.5 / (1.0 + float(poisson)),
    )


@dataclass(slots=True)
class Motion:
    """Stretches and their derivatives with respect to r, r', z', turn, turn'."""

    strains: Array  # (5, draws, elements): meridian, hoop, two bendings, shear
    radius: Array
    stretch: Array
    gradient: Array  # (5 strains, 5 motions, draws, elements)
    cosine: Array
    sine: Array
    skew: Array  # shear stretch
    turning: Array  # derivative of the turn along the reference line


def motion(parts: Elements, moves: Array) -> Motion:
    """Strains at mid element from nodal moves (draws, nodes, 3: radius, height, turn).

        G1 = r' cos + z' sin, G2 = -r' sin + z' cos, eps_s = ln G1, eps_h = ln(r/R)
        chi_s = -(R psi') / (G1^2 r) + psi0', chi_h = -R sin(psi) / (G1 r^2) + sin(psi0)/R

    chi is per reference distance from the mid wall, inward positive; R / (G1 r) is the
    thinning of the wall at constant volume.

    Source: own-derivation, kinematics of a shear-flexible shell of revolution.
    Checked: tests/unit/forming/test_shell_element.py (finite differences).
    """
    delta = moves[:, 1:] - moves[:, :-1]
    mean = 0.5 * (moves[:, 1:] + moves[:, :-1])
    r = parts.middle + mean[..., 0]
    along = parts.cosine + delta[..., 0] / parts.length
    up = parts.sine + delta[..., 1] / parts.length
    angle = parts.slope + mean[..., 2]
    turning = parts.curvature + delta[..., 2] / parts.length
    cos, sin = np.cos(angle), np.sin(angle)
    stretch, skew = along * cos + up * sin, up * cos - along * sin
    thin = parts.middle / (stretch * r)
    by_turn = thin / stretch  # of chi_s
    chi_s, chi_h = by_turn * turning, thin * sin / r
    shape = r.shape
    strains = np.empty((5, *shape))
    strains[0] = np.log(stretch)
    strains[1] = np.log(r / parts.middle)
    strains[2] = parts.curvature - chi_s
    strains[3] = parts.sine / parts.middle - chi_h
    strains[4] = skew
    g = np.zeros((5, 5, *shape))
    cs, sn, sk = cos / stretch, sin / stretch, skew / stretch
    g[0, 1], g[0, 2], g[0, 3] = cs, sn, sk
    g[1, 0] = 1.0 / r
    g[2, 0] = chi_s / r
    twice = 2.0 * chi_s
    g[2, 1], g[2, 2], g[2, 3] = twice * cs, twice * sn, twice * sk
    g[2, 4] = -by_turn
    g[3, 0] = 2.0 * chi_h / r
    g[3, 1], g[3, 2] = chi_h * cs, chi_h * sn
    g[3, 3] = chi_h * sk - thin * cos / r
    g[4, 1], g[4, 2], g[4, 3] = -sin, cos, -stretch
    return Motion(strains, r, stretch, g, cos, sin, skew, turning)


def curvature_of(parts: Elements, move: Motion, forces: Array) -> Array:
    """Sum of the section forces times the second derivatives of their strains, (5, 5, ..).

    Source: own-derivation, second derivatives of the strains of `motion`.
    Checked: tests/unit/forming/test_shell_element.py (finite differences).
    """
    n_s, n_h, m_s, m_h, q = forces
    r, stretch, cos, sin, skew = move.radius, move.stretch, move.cosine, move.sine, move.skew
    thin = parts.middle / (stretch * r)
    f = thin / stretch * move.turning  # chi_s
    f_turn = thin / stretch
    k = thin * sin / r  # chi_h
    k_angle = thin * cos / r
    # strains as functions of (r, G1, angle, turn'), then the chain through G1(r', z', angle)
    first = n_s / stretch + (2.0 * m_s * f + m_h * k) / stretch
    second = -n_s / stretch**2 - (6.0 * m_s * f + 2.0 * m_h * k) / stretch**2
    mixed_r = -(2.0 * m_s * f + 2.0 * m_h * k) / (r * stretch)
    mixed_angle = m_h * k_angle / stretch
    grad = (cos, sin, skew)
    h = np.zeros((5, 5, *r.shape))
    h[0, 0] = -n_h / r**2 - (2.0 * m_s * f + 6.0 * m_h * k) / r**2
    for i in range(3):
        h[0, i + 1] = mixed_r * grad[i]
        h[4, i + 1] = 2.0 * m_s * f_turn / stretch * grad[i]
        for j in range(i + 1):
            h[i + 1, j + 1] = second * grad[i] * grad[j]
    h[0, 3] += 2.0 * m_h * k_angle / r
    h[4, 0] = m_s * f_turn / r
    h[3, 1] += -first * sin + mixed_angle * cos - q * cos
    h[3, 2] += first * cos + mixed_angle * sin - q * sin
    h[3, 3] += -first * stretch + 2.0 * mixed_angle * skew + m_h * k - q * skew
    for i, j in _MIRRORED:
        h[j, i] = h[i, j]
    return h


@dataclass(slots=True)
class Inner:
    """Inner forces and tangents of the elements, and the trial state of the wall."""

    force: Array  # (draws, elements, 6)
    tangent: Array  # (draws, elements, 6, 6)
    sections: Array  # (5, draws, elements): N_s, N_h, M_s, M_h, Q
    answer: Answer
    strains: Array


def inner(parts: Elements, moves: Array, flow: Flow, guess: Array) -> Inner:
    """Inner forces and consistent tangents at nodal moves, from the last settled state.

        f = 2 pi R L B^T S, K = 2 pi R L (B^T D B + sum S_k d2 e_k); Kirchhoff = J Cauchy

    Source: own-derivation, virtual work on the shell before forming.
    Checked: tests/unit/forming/test_shell_element.py (finite differences).
    """
    move = motion(parts, moves)
    e = move.strains
    places, weights = _gauss(parts.layers)
    zeta = 0.5 * parts.wall * places[:, None, None]
    layered = (e[0] + e[1]) + zeta * (e[2] + e[3]), (e[0] - e[1]) + zeta * (e[2] - e[3])
    answer = update(parts.table, parts.base, parts.poisson, layered, flow, guess)
    forces, stiffness = _sections(parts, answer, weights, e[4])
    g, bending = move.gradient, move.gradient[:4]
    scale = 2.0 * np.pi * parts.middle * parts.length * parts.share
    force = np.einsum("i...,ij...->j...", forces, g) * scale[:, None]
    tangent = curvature_of(parts, move, forces)
    product = np.einsum("ij...,jk...->ik...", stiffness, bending)
    tangent += np.einsum("ji...,jk...->ik...", bending, product)
    slip = g[4, 1:4]
    tangent[1:4, 1:4] += (_SHEAR * parts.shear * parts.wall * slip)[:, None] * slip
    tangent *= (scale[:, None] * parts.share)[:, :, None]
    both = _to_nodes(_to_nodes(tangent).swapaxes(0, 1))
    return Inner(
        _to_nodes(force).transpose(1, 2, 0),
        both.transpose(2, 3, 1, 0),
        forces,
        answer,
        e,
    )


def _to_nodes(motions: Array) -> Array:
    """From r, r', z', turn, turn' (already shared out) to the moves of both nodes."""
    nodal = np.empty((6, *motions.shape[1:]))
    nodal[0], nodal[3] = motions[0] - motions[1], motions[0] + motions[1]
    nodal[1], nodal[4] = -motions[2], motions[2]
    nodal[2], nodal[5] = motions[3] - motions[4], motions[3] + motions[4]
    return nodal


def _sections(
    parts: Elements, answer: Answer, weights: Array, shear: Array
) -> tuple[Array, Array]:
    """Forces and moments of the sections, and their derivatives with the strains."""
    squeeze = 1.0 - 2.0 * parts.poisson
    volume = np.exp(squeeze * answer.sum)
    total, apart = volume * answer.sum, volume * answer.difference
    t = answer.tangent
    press = volume + squeeze * total
    layers = total.shape[0]
    table = np.empty((layers, 6, *total.shape[1:]))
    table[:, 0], table[:, 1] = total, apart
    table[:, 2], table[:, 3] = press * t[0], press * t[1]
    tilt = squeeze * apart
    table[:, 4], table[:, 5] = volume * t[1] + tilt * t[0], volume * t[2] + tilt * t[1]
    sums = np.einsum("ml,ln->mn", weights, table.reshape(layers, -1))
    sums = sums.reshape(3, 6, *total.shape[1:])
    half = 0.5 * parts.wall
    power = half
    for row in range(3):
        sums[row] *= power
        power = power * half
    n, m, _ = sums
    forces = np.empty((5, *half.shape))
    forces[0], forces[1] = 0.5 * (n[0] + n[1]), 0.5 * (n[0] - n[1])
    forces[2], forces[3] = 0.5 * (m[0] + m[1]), 0.5 * (m[0] - m[1])
    forces[4] = _SHEAR * parts.shear * parts.wall * shear
    stiff = np.empty((4, 4, *half.shape))
    for row, corners in enumerate((((0, 0),), ((0, 2), (2, 0)), ((2, 2),))):
        pp, pm, mp, mm = sums[row, 2:]
        block = (pp + pm + mp + mm, pp - pm + mp - mm, pp + pm - mp - mm, pp - pm - mp + mm)
        for i, j in corners:
            stiff[i, j], stiff[i, j + 1] = 0.5 * block[0], 0.5 * block[1]
            stiff[i + 1, j], stiff[i + 1, j + 1] = 0.5 * block[2], 0.5 * block[3]
    return forces, stiff

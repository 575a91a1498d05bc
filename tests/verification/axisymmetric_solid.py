"""An independent model of a half tank for the tests: axisymmetric solid, eight-node quads.

Two elements through the wall, 2 x 2 Gauss points, total Lagrangian, multiplicative J2
plasticity with a spectral logarithmic update (the flow stress is Cauchy), pressure on the
deformed INNER surface through its enclosed volume, tangent by differences. It shares with
the shell the meridian before forming and the curve, nothing else. scikit-fem gives mesh,
shape functions and mapping.
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu
from skfem import Basis, ElementQuadS2, ElementVector, MeshQuad, MeshQuad2

from stretchform.forming.shell.mesh import mesh as graded
from stretchform.shape.meridian import points, upper_half

_STEP = 1e-7  # of the deformation gradient, for the tangent


@dataclass
class Solid:
    """Result: pressure and the growth of the mid wall along the cylinder."""

    pressure: float
    heights: np.ndarray  # of mid-wall nodes of the shell
    growth: np.ndarray
    depth_change: float
    elements: int
    outer_work: float


def solve(tank, curve, elastic, growth, fineness, steps=26):
    """Form the upper half of a symmetric tank to a mid-wall growth at its mid plane."""
    model = _Model(upper_half(tank), curve, elastic, fineness)
    return model.run(growth, steps)


class _Model:
    def __init__(self, half, curve, elastic, fineness):
        self.curve = curve
        young, nu = elastic.youngs_modulus, elastic.poisson_ratio
        self.shear, self.bulk = young / (2 + 2 * nu), young / (3 - 6 * nu)
        grid = graded(half, fineness)
        along = np.concatenate(([0.0], np.cumsum(_arc_lengths(half, grid))))
        through = np.linspace(-0.5, 0.5, 3)
        flat = MeshQuad2.from_mesh(MeshQuad.init_tensor(along, through))
        places = flat.doflocs
        curved = _mapped(half, along, places[0], places[1])
        self.mesh = MeshQuad2(curved, flat.t)
        self.basis = Basis(self.mesh, ElementVector(ElementQuadS2()), intorder=3)
        self.parameter = self._parameters(along, through)
        self.along, self.half = along, half
        self._points()
        self._edges()

    def _parameters(self, along, through):
        """Distance along the meridian and place through the wall of every unknown."""
        flat = MeshQuad2.from_mesh(MeshQuad.init_tensor(along, through))
        return Basis(flat, ElementVector(ElementQuadS2()), intorder=3).doflocs

    def _points(self):
        """Shape functions and gradients at all Gauss points, weights 2 pi R."""
        basis = self.basis
        radius = np.asarray(basis.global_coordinates())[0]
        self.radius = radius
        self.weight = 2.0 * np.pi * radius * basis.dx
        local = basis.Nbfun
        elements, gauss = radius.shape
        # rows of the gradient: F11 F12 F21 F22 F33
        b = np.zeros((elements, gauss, 5, local))
        for i in range(local):
            field = basis.basis[i][0]
            b[..., 0, i], b[..., 1, i] = field.grad[0, 0], field.grad[0, 1]
            b[..., 2, i], b[..., 3, i] = field.grad[1, 0], field.grad[1, 1]
            b[..., 4, i] = np.asarray(field)[0] / radius
        self.b = b
        self.dofs = basis.element_dofs.T
        rows = np.repeat(self.dofs[:, :, None], local, axis=2)
        self.rows, self.columns = rows.ravel(), rows.swapaxes(1, 2).ravel()

    def _edges(self):
        """Inner edge in order: end, middle, end unknowns of every inner element side."""
        inner = np.flatnonzero(np.abs(self.parameter[1] - 0.5) < 1e-9)
        order = inner[np.argsort(self.parameter[0][inner], kind="stable")]
        pairs = order.reshape(-1, 2)  # radius and height unknown of each inner node
        radius_first = np.sort(pairs, axis=1)
        self.inner_r, self.inner_z = radius_first[:, 0], radius_first[:, 1]
        self.start = self.basis.doflocs

    def run(self, growth, steps):
        size = self.basis.N
        s, z = self.parameter
        vertical = np.zeros(size, dtype=bool)
        vertical[self._vertical()] = True
        fixed = np.flatnonzero(vertical & (np.abs(s) < 1e-9))
        pole = np.flatnonzero(~vertical & (np.abs(s - self.along[-1]) < 1e-9))
        self.free = np.setdiff1d(np.arange(size), np.concatenate([fixed, pole]))
        held = np.flatnonzero(~vertical & (np.abs(s) < 1e-9) & (np.abs(z) < 1e-9))[0]
        radius = self.start[0, held]
        u, pressure = np.zeros(size), 0.0
        elements, gauss = self.radius.shape
        plastic = np.tile(np.eye(3), (elements, gauss, 1, 1))
        strain = np.zeros((elements, gauss))
        work, volume = 0.0, self._volume(u)[0]
        settled = (u, pressure, plastic, strain)
        done, wanted = 0.0, list(np.linspace(0.0, 1.0, steps + 1)[1:] ** 1.6 * growth)
        past, past_step = None, 1.0
        while wanted:
            target = wanted[0]
            share = (target - done) / past_step if past is not None else 0.0
            fresh = self._careful(settled, past, share, held, target * radius)
            if fresh is None:
                wanted.insert(0, 0.5 * (done + target))
                assert len(wanted) < 60, "the solid found no way on"
                continue
            now = self._volume(fresh[0])[0]
            work += 0.5 * (fresh[1] + settled[1]) * (now - volume)
            past, past_step = (fresh[0] - settled[0], fresh[1] - settled[1]), target - done
            volume, done, settled = now, target, fresh
            wanted.pop(0)
        u, pressure = settled[:2]
        return self._result(u, pressure, work, vertical)

    def _careful(self, settled, past, share, held, target):
        """A step from an extrapolated start, else from the settled state, else none."""
        u, pressure, plastic, strain = settled
        if past is not None:
            start = (u + share * past[0], pressure + share * past[1])
            fresh = self._step(*start, plastic, strain, held, target)
            if fresh is not None:
                return fresh
        return self._step(u.copy(), pressure, plastic, strain, held, target)

    def _vertical(self):
        """Unknowns that are heights: second of each node's pair."""
        return np.unique(self.dofs[:, 1::2])

    def _step(self, u, pressure, plastic, strain, held, target):
        free = self.free
        worst = np.inf
        for count in range(14):
            stress, tangent, new_plastic, new_strain = self._material(u, plastic, strain)
            force = np.einsum("egci,egc,eg->ei", self.b, stress, self.weight)
            local = np.einsum(
                "egci,egcd,egdj,eg->eij", self.b, tangent, self.b, self.weight, optimize=True
            )
            _, gradient, hessian = self._volume(u)
            residual = np.bincount(self.dofs.ravel(), force.ravel(), minlength=self.basis.N)
            residual -= pressure * gradient
            matrix = coo_matrix((local.ravel(), (self.rows, self.columns))).tocsc()
            matrix = (matrix - pressure * hessian)[free][:, free]
            factor = splu(matrix.tocsc())
            x1, x2 = factor.solve(-residual[free]), factor.solve(gradient[free])
            place = np.searchsorted(free, held)
            push = (target - u[held] - x1[place]) / x2[place]
            u[free] += x1 + push * x2
            pressure += push
            scale = np.max(np.abs(pressure * gradient))
            worst, before = float(np.max(np.abs(residual[free]))) / scale, worst
            if count and worst < 1e-6:
                jump = np.max(new_strain - strain)
                return (u, pressure, new_plastic, new_strain) if jump < 0.03 else None
            if not np.isfinite(worst) or worst > 1e3 or (count > 5 and worst > 0.5 * before):
                return None
        return None

    def _gradient(self, u):
        f = np.einsum("egci,ei->egc", self.b, u[self.dofs])
        return f + np.array([1.0, 0.0, 0.0, 1.0, 1.0])

    def _material(self, u, plastic, strain):
        f = self._gradient(u)
        stress, new_plastic, new_strain = self._stress(f, plastic, strain)
        tangent = np.empty((*f.shape, 5))
        for column in range(5):
            moved = f.copy()
            moved[..., column] += _STEP
            tangent[..., column] = (self._stress(moved, plastic, strain)[0] - stress) / _STEP
        return stress, tangent, new_plastic, new_strain

    def _stress(self, f, plastic, strain):
        """First Piola-Kirchhoff stress (5 components) after the return mapping."""
        full = np.zeros((*f.shape[:-1], 3, 3))
        full[..., 0, 0], full[..., 0, 1] = f[..., 0], f[..., 1]
        full[..., 1, 0], full[..., 1, 1] = f[..., 2], f[..., 3]
        full[..., 2, 2] = f[..., 4]
        trial = full @ plastic @ np.swapaxes(full, -1, -2)
        values, vectors = _spectral(trial)
        elastic = 0.5 * np.log(values)
        volume = np.sum(elastic, axis=-1, keepdims=True)
        deviator = 2.0 * self.shear * (elastic - volume / 3.0)
        equivalent = np.sqrt(1.5 * np.sum(deviator**2, axis=-1))
        jacobian = np.exp(volume[..., 0])
        flow = self._flow(equivalent, jacobian, strain)
        safe = np.where(equivalent > 0.0, equivalent, 1.0)
        share = 1.0 - 3.0 * self.shear * flow / safe
        principal = share[..., None] * deviator + self.bulk * volume
        kirchhoff = _joined(principal, vectors)
        left = np.exp(2.0 * (share[..., None] * deviator / (2.0 * self.shear) + volume / 3.0))
        inverse = _inverse(full)
        piola = kirchhoff @ np.swapaxes(inverse, -1, -2)
        new = inverse @ _joined(left, vectors) @ np.swapaxes(inverse, -1, -2)
        picked = np.stack(
            [piola[..., 0, 0], piola[..., 0, 1], piola[..., 1, 0], piola[..., 1, 1],
             piola[..., 2, 2]], axis=-1,
        )  # fmt: skip
        return picked, new, strain + flow

    def _flow(self, equivalent, jacobian, strain):
        """Plastic step: equivalent - 3 G d = J s(x + d)."""
        excess = equivalent - jacobian * self.curve.stress(np.maximum(strain, 1e-7))
        where = excess > 0.0
        d = np.zeros_like(equivalent)
        if not where.any():
            return d
        e, j, x = equivalent[where], jacobian[where], strain[where]
        step = np.zeros_like(e)
        for _ in range(60):
            at = np.maximum(x + step, 1e-7)
            gap = e - 3.0 * self.shear * step - j * self.curve.stress(at)
            change = gap / (3.0 * self.shear + j * self.curve.slope(at))
            step = np.maximum(step + change, 0.0)
            if np.max(np.abs(gap) / e) < 1e-13:
                break
        d[where] = step
        return d

    def _volume(self, u):
        """Volume inside the inner surface, its gradient and its second derivatives."""
        at_r, at_z = self.inner_r, self.inner_z
        r, z = self.start[0, at_r] + u[at_r], self.start[1, at_z] + u[at_z]
        gauss, weights = np.polynomial.legendre.leggauss(3)
        volume, gradient = 0.0, np.zeros(self.basis.N)
        first = np.arange(0, len(r) - 2, 2)
        nodes = first[:, None] + np.arange(3)
        rows, columns, values = [], [], []
        for x, w in zip(gauss, weights, strict=True):
            n = np.array([x * (x - 1) / 2, 1 - x * x, x * (x + 1) / 2])
            dn = np.array([x - 0.5, -2 * x, x + 0.5])
            rr, dz = r[nodes] @ n, z[nodes] @ dn
            volume += np.sum(np.pi * rr**2 * dz) * w
            np.add.at(gradient, at_r[nodes], 2 * np.pi * w * (rr * dz)[:, None] * n)
            np.add.at(gradient, at_z[nodes], np.pi * w * (rr**2)[:, None] * dn)
            both = 2 * np.pi * w * dz[:, None, None] * np.outer(n, n)
            mixed = 2 * np.pi * w * rr[:, None, None] * np.outer(n, dn)
            shape = (len(first), 3, 3)
            i_r = np.broadcast_to(at_r[nodes][:, :, None], shape)
            j_r, j_z = np.swapaxes(i_r, 1, 2), np.broadcast_to(at_z[nodes][:, None, :], shape)
            rows += [i_r.ravel(), i_r.ravel(), j_z.ravel()]
            columns += [j_r.ravel(), j_z.ravel(), i_r.ravel()]
            values += [both.ravel(), mixed.ravel(), mixed.ravel()]
        size = self.basis.N
        hessian = coo_matrix(
            (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))),
            shape=(size, size),
        ).tocsc()
        return volume, gradient, hessian

    def _result(self, u, pressure, work, vertical):
        s, through = self.parameter
        middle = np.abs(through) < 1e-9
        high = self.half.tangent_heights[1]
        radial = np.flatnonzero(middle & ~vertical)
        upright = np.flatnonzero(middle & vertical)
        radial = radial[np.argsort(s[radial])]
        upright = upright[np.argsort(s[upright])]
        height = self.start[1, upright]
        shell = height <= high + 1e-9
        growth = u[radial] / np.where(self.start[0, radial] > 0, self.start[0, radial], 1.0)
        rim = np.flatnonzero(shell)[-1]
        depth = u[upright[-1]] - u[upright[rim]]
        return Solid(pressure, height[shell], growth[shell], depth, self.mesh.nelements, work)


def _arc_lengths(half, grid):
    """Arc length of every element of the graded mesh."""
    turn = np.abs(np.diff(grid.angle))
    half_turn = np.maximum(turn / 2.0, 1e-12)
    return grid.length * half_turn / np.sin(half_turn)


def _mapped(half, along, s, through):
    """Places of the parameter mesh on the wall: mid-wall point plus wall times normal."""
    ends = np.cumsum([float(piece.length) for piece in half.pieces])
    # the arc lengths of the mesh are close to, not equal to, the pieces' own: rescale
    radius, height, angle, wall = (np.empty_like(s) for _ in range(4))
    total = ends[-1] / along[-1]
    scaled = np.clip(s * total, 0.0, ends[-1])
    number = np.minimum(np.searchsorted(ends, scaled - 1e-6 * ends[-1]), len(ends) - 1)
    for index, piece in enumerate(half.pieces):
        mine = number == index
        begin = ends[index] - float(piece.length)
        r, z, a = points(piece, np.clip(scaled[mine] - begin, 0.0, float(piece.length)))
        radius[mine], height[mine], angle[mine] = r, z, a
        wall[mine] = piece.wall
    inward_r, inward_z = -np.sin(angle), np.cos(angle)
    x = radius + through * wall * inward_r
    x[np.abs(x) < 1e-9] = 0.0
    return np.stack([x, height + through * wall * inward_z])


def _spectral(matrix):
    """Eigenvalues and eigenvectors of matrices with an in-plane 2 x 2 block and a hoop."""
    a, b, c = matrix[..., 0, 0], matrix[..., 0, 1], matrix[..., 1, 1]
    angle = 0.5 * np.arctan2(2.0 * b, a - c)
    cos, sin = np.cos(angle), np.sin(angle)
    mean, reach = 0.5 * (a + c), np.hypot(0.5 * (a - c), b)
    values = np.stack([mean + reach, mean - reach, matrix[..., 2, 2]], axis=-1)
    return values, (cos, sin)


def _joined(values, vectors):
    cos, sin = vectors
    matrix = np.zeros((*values.shape, 3))
    first, second = values[..., 0], values[..., 1]
    matrix[..., 0, 0] = first * cos**2 + second * sin**2
    matrix[..., 1, 1] = first * sin**2 + second * cos**2
    matrix[..., 0, 1] = matrix[..., 1, 0] = (first - second) * cos * sin
    matrix[..., 2, 2] = values[..., 2]
    return matrix


def _inverse(full):
    det = full[..., 0, 0] * full[..., 1, 1] - full[..., 0, 1] * full[..., 1, 0]
    inverse = np.zeros_like(full)
    inverse[..., 0, 0], inverse[..., 1, 1] = full[..., 1, 1] / det, full[..., 0, 0] / det
    inverse[..., 0, 1], inverse[..., 1, 0] = -full[..., 0, 1] / det, -full[..., 1, 0] / det
    inverse[..., 2, 2] = 1.0 / full[..., 2, 2]
    return inverse

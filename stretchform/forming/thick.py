"""A thick wall under inner pressure: the exact integral through the wall, rigid and plastic.

The wall keeps its volume, so the strain at every radius follows from the outside growth; the
pressure is the integral of the stress difference over ln r. Used below radius/wall 10, and as
the measure of the thin-wall formulas.
"""

import numpy as np

from stretchform.forming.criterion import MISES_FACTOR, Shape
from stretchform.si import Array, Growth, Metre, Pascal, Ratio
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation", "hill-1950")
THIN_FROM = 10.0  # radius over wall from which the thin-wall formulas stand alone


def pressure(
    shape: Shape,
    radius: Metre,
    wall: Metre,
    outside_growth: Growth,
    curve: Curve,
    factor: Ratio = MISES_FACTOR,
    points: int = 9,
) -> Pascal:
    """Pressure of a thick closed cylinder or sphere at a growth of its outside circumference.

        cylinder: p = ∫ C s(C ln(r/R)) dr/r;  sphere: p = ∫ 2 s(2 ln(r/R)) dr/r

    R: radius of the material before forming, r after; from inner to outer surface, by `points`
    Gauss points in ln r. `radius` (mid-wall) and `wall` are before forming; C as in `general`.
    Exact for smooth laws; the kinks of a table lower the accuracy to some 1e-3.

    Source: own-derivation, radial balance; hill-1950, chapter V.
    Checked: tests/verification/test_thick.py (thick_wall.csv to 1e-9; C5 to C7 corrected).
    Raises ValueError for an open cylinder, whose axial strain the integral does not know.
    """
    if shape is Shape.OPEN:
        raise ValueError("the thick-wall integral knows closed cylinders and spheres only")
    power, multiplier = (3, 2.0) if shape is Shape.SPHERE else (2, factor)
    inner, outer = np.asarray(radius - 0.5 * wall), np.asarray(radius + 0.5 * wall)
    grown_outer = outer * (1.0 + np.asarray(outside_growth))
    shift = grown_outer**power - outer**power
    start, end = np.log(inner**power + shift) / power, np.log(grown_outer)
    nodes, weights = np.polynomial.legendre.leggauss(points)
    place = 0.5 * (start + end)[..., None] + 0.5 * (end - start)[..., None] * nodes
    now = np.exp(place)
    before = (now**power - shift[..., None]) ** (1.0 / power)
    stress = multiplier * curve.stress(multiplier * np.log(now / before))
    total: Array = 0.5 * (end - start) * np.sum(weights * stress, axis=-1)
    return total


def tube_pressure(inner: Metre, outer: Metre, front: Metre, shear_yield: Pascal) -> Pascal:
    """Inner pressure of a tube without hardening whose plastic zone reaches a front radius.

        p = k (1 − c²/b² + 2 ln(c/a))

    front = inner: onset; front = outer: fully plastic, 2 k ln(b/a). k: yield stress in shear,
    Y/2 by Tresca or Y/sqrt(3) by Mises. Small displacements, closed ends.

    Source: hill-1950, chapter V, section 2 (formula from memory).
    Checked: tests/published/from_memory/test_hill_tube.py (onset, fronts and full plasticity).
    Raises ValueError when the front lies outside the wall.
    """
    a, b, c = (np.asarray(value, dtype=np.float64) for value in (inner, outer, front))
    if np.any((c < a) | (c > b)):
        raise ValueError("the plastic front must lie inside the wall")
    return shear_yield * (1.0 - c**2 / b**2 + 2.0 * np.log(c / a))


def tube_residual_hoop(inner: Metre, outer: Metre, front: Metre, strength: Pascal) -> Pascal:
    """Hoop stress left at the bore after the pressure of `tube_pressure` (Tresca) is released.

        s = Y − p − p (b² + a²)/(b² − a²), elastic unloading

    Source: hill-1950, chapter V, section 2 (formula from memory).
    Checked: tests/published/from_memory/test_hill_tube.py (residual bore stress).
    """
    inside = tube_pressure(inner, outer, front, strength / 2.0)
    a, b = np.asarray(inner), np.asarray(outer)
    return np.asarray(strength - inside - inside * (b**2 + a**2) / (b**2 - a**2))

"""What a dished head does before the shell is formed: first yield, limit load, wrinkles.

Membrane stresses of the head as built, and the handbook pressures of torispherical heads.
An ellipsoid 2:1 is judged as the torisphere that the rules put in its place. ALLOWABLE
pressures hold a factor of 1.5 against the test; they are not the pressures of wrinkling.
The tank's own shell model sees no wrinkles: these numbers say where to look for them.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stretchform.errors import InputError, NoSolution
from stretchform.si import Metre, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve

SOURCES = (
    "own-derivation",
    "en-13445-3",
    "asme-viii-2-part-4",
    "galletly-1986",
    "shield-drucker-1961",
)
WRINKLE_RATIO = 100.0  # diameter / wall above which hoop compression asks for a look
_COLLAPSE, _ALLOWABLE = 120.0, 80.0


@dataclass(frozen=True, slots=True)
class Torisphere:
    """Inside sizes of a torispherical head and its wall."""

    inside_diameter: Metre
    crown_radius: Metre
    knuckle_radius: Metre
    wall: Metre


@dataclass(frozen=True, slots=True)
class Allowable:
    """Pressures of EN 13445-3 7.5.3, all allowable ones (test / 1.5)."""

    crown: Pascal  # Ps: membrane stress in the crown
    knuckle_yield: Pascal  # Py: axisymmetric yielding of the knuckle
    knuckle_buckling: Pascal  # Pb: buckling of the knuckle
    shape_factor: Ratio  # beta
    in_range: NDArray[np.bool_]  # sizes within the limits of the rule


@dataclass(frozen=True, slots=True)
class KnuckleBuckling:
    """Pressures of ASME VIII-2 4.3.6 for the knuckle."""

    equivalent_radius: Metre
    elastic: Pascal  # Peth: elastic buckling
    yielding: Pascal  # Py: peak stress reaches yield
    collapse: Pascal  # Pck: expected buckling
    allowable: Pascal  # Pak = Pck / 1.5


def equivalent_torisphere(inside_diameter: Metre, wall: Metre) -> Torisphere:
    """Torisphere that the European rule puts in place of a 2:1 ellipsoid (K = 2).

        r = Di (0.5/K - 0.08) = 0.17 Di, R = Di (0.44 K + 0.02) = 0.9 Di

    Source: en-13445-3, 7.5.4 (from memory, not read).
    Checked: tests/published/from_memory/test_heads_en_13445.py (equivalent_torisphere).
    """
    return Torisphere(
        inside_diameter,
        np.multiply(0.90, inside_diameter),
        np.multiply(0.17, inside_diameter),
        wall,
    )


def allowable(
    head: Torisphere, proof_02: Pascal, design: Pascal, cold_spun: bool = False
) -> Allowable:
    """ALLOWABLE pressures of a dished head: crown, knuckle yield, knuckle buckling.

        Ps = 2 f e / (R + e/2), Py = f e / (beta (0.75 R + 0.2 Di))
        Pb = 111 fb (e / (0.75 R + 0.2 Di))^1.5 (r / Di)^0.825, fb = Rp0.2 / 1.5

    `design` is the nominal design stress f (for austenitic steel from the 1.0 % proof
    strength and the tensile strength); a cold-spun austenitic head takes 1.6 Rp0.2 in fb.
    Joint factor 1.

    Source: en-13445-3, 7.5.3 (from memory, not read).
    Checked: tests/published/from_memory/test_heads_en_13445.py (allowable: three heads).
    Raises InputError for sizes that are not positive.
    """
    _check(head)
    e, di = np.asarray(head.wall), np.asarray(head.inside_diameter)
    crown, knuckle = np.asarray(head.crown_radius), np.asarray(head.knuckle_radius)
    beta = shape_factor(head)
    reach = 0.75 * crown + 0.2 * di
    buckling_stress = np.multiply(proof_02, (1.6 if cold_spun else 1.0) / 1.5)
    outside = di + 2.0 * e
    in_range = (knuckle >= 0.06 * di) & (knuckle <= 0.2 * di) & (knuckle >= 2.0 * e)
    in_range &= (crown <= outside) & (e >= 0.001 * outside) & (e <= 0.08 * outside)
    return Allowable(
        crown=2.0 * design * e / (crown + 0.5 * e),
        knuckle_yield=design * e / (beta * reach),
        knuckle_buckling=111.0 * buckling_stress * (e / reach) ** 1.5 * (knuckle / di) ** 0.825,
        shape_factor=beta,
        in_range=np.asarray(in_range, dtype=np.bool_),
    )


def shape_factor(head: Torisphere) -> Ratio:
    """Factor beta of the knuckle-yield formula.

        Y = min(e/R, 0.04), Z = log10(1/Y), X = r/Di, N = 1.006 - 1/(6.2 + (90 Y)^4)
        cubics in Z at X = 0.06 and 0.1, a parabola in Y at 0.2, straight lines between

    Source: en-13445-3, 7.5.3.5 (from memory, not read).
    Checked: tests/published/from_memory/test_heads_en_13445.py (shape_factor: three heads).
    """
    y = np.minimum(np.divide(head.wall, head.crown_radius), 0.04)
    z = np.log10(1.0 / y)
    x = np.clip(np.divide(head.knuckle_radius, head.inside_diameter), 0.06, 0.2)
    n = 1.006 - 1.0 / (6.2 + (90.0 * y) ** 4)
    low = n * (-0.3635 * z**3 + 2.2124 * z**2 - 3.2937 * z + 1.8873)
    middle = n * (-0.1833 * z**3 + 1.0383 * z**2 - 1.2943 * z + 0.837)
    high = np.maximum(0.95 * (0.56 - 1.94 * y - 82.5 * y**2), 0.5)
    below = 25.0 * ((0.1 - x) * low + (x - 0.06) * middle)
    above = 10.0 * ((0.2 - x) * middle + (x - 0.1) * high)
    return np.where(x <= 0.1, below, above)


def knuckle_buckling(
    head: Torisphere, yield_strength: Pascal, modulus: Pascal
) -> KnuckleBuckling:
    """Elastic buckling, peak yield, expected buckling and allowable pressure of a knuckle.

        Peth = C1 E t^2 / (C2 Rth (Rth/2 - r)), Py = Sy t / (C2 Rth (Rth/(2 r) - 1))
        G = Peth/Py; Pck = 0.6 Peth for G <= 1, else a ratio of cubics in G times Py

    Source: asme-viii-2-part-4, 4.3.6 (from memory, not read).
    Checked: tests/published/from_memory/test_heads_asme_4_3_6.py (knuckle_buckling).
    Raises InputError for sizes that are not positive.
    """
    _check(head)
    d, t = np.asarray(head.inside_diameter), np.asarray(head.wall)
    crown, r = np.asarray(head.crown_radius), np.asarray(head.knuckle_radius)
    share = r / d
    c1 = np.where(share <= 0.08, 9.31 * share - 0.086, 0.692 * share + 0.605)
    c2 = np.where(share <= 0.08, 1.25, 1.46 - 2.6 * share)
    turn = np.arccos((0.5 * d - r) / (crown - r))
    spread = np.sqrt(crown * t) / r
    inner = (0.5 * d - r) / np.cos(np.maximum(turn - spread, 0.0))
    radius = np.where(spread < turn, inner + r, 0.5 * d)
    elastic = c1 * modulus * t**2 / (c2 * radius * (radius / 2.0 - r))
    yielding = yield_strength * t / (c2 * radius * (radius / (2.0 * r) - 1.0))
    g = elastic / yielding
    cubic = (0.77508 * g - 0.20354 * g**2 + 0.019274 * g**3) / (
        1.0 + 0.19014 * g - 0.089534 * g**2 + 0.0093965 * g**3
    )
    collapse = np.where(g <= 1.0, 0.6 * elastic, cubic * yielding)
    return KnuckleBuckling(radius, elastic, yielding, collapse, collapse / 1.5)


def buckling_estimate(head: Torisphere, yield_strength: Pascal, of_collapse: bool) -> Pascal:
    """Pressure of knuckle buckling: the collapse estimate, or the ALLOWABLE one.

        p = c sy (r/D)^0.825 / ((D/t)^1.5 (L/D)^1.15), c = 120 collapse, 80 allowable

    Source: galletly-1986, design equation (from memory; the abstract alone was seen).
    Checked: tests/published/from_memory/test_heads_galletly.py (buckling_estimate).
    Raises InputError for sizes that are not positive.
    """
    _check(head)
    d = np.asarray(head.inside_diameter)
    factor = _COLLAPSE if of_collapse else _ALLOWABLE
    shape = (head.knuckle_radius / d) ** 0.825 / (head.crown_radius / d) ** 1.15
    return np.asarray(factor * np.asarray(yield_strength) * shape / (d / head.wall) ** 1.5)


def limit_pressure(head: Torisphere, yield_strength: Pascal) -> Pascal:
    """Limit pressure of a torisphere that keeps its shape, perfectly plastic, Tresca.

        p/sy = (0.33 + 5.5 r/D) t/L + 28 (1 - 2.2 r/D) (t/L)^2 - 0.0006

    Real heads go beyond it: they change shape and the steel hardens.

    Source: shield-drucker-1961, approximate formula (from memory, not read).
    Checked: tests/published/from_memory/test_heads_shield_drucker.py (limit_pressure).
    Raises InputError for sizes that are not positive.
    """
    _check(head)
    share = np.divide(head.knuckle_radius, head.inside_diameter)
    thin = np.divide(head.wall, head.crown_radius)
    ratio = (0.33 + 5.5 * share) * thin + 28.0 * (1.0 - 2.2 * share) * thin**2 - 0.0006
    return np.asarray(np.multiply(yield_strength, ratio))


def ellipsoid_stresses(
    pressure: Pascal, radius: Metre, depth: Metre, wall: Metre, at: Metre
) -> tuple[Pascal, Pascal]:
    """Membrane stress along the meridian and around, at a distance `at` from the axis.

        R2 = sqrt(a^4 + r^2 (b^2 - a^2)) / b, R1 = R2^3 b^2 / a^4
        s1 = p R2 / (2 t), s2 = s1 (2 - R2/R1)

    2:1, equator: p a / 2t and -p a / t; crown: p a / t both ways.

    Source: own-derivation, membrane balance of a shell of revolution.
    Checked: tests/verification/test_heads_membrane.py (ellipsoid_stresses).
    """
    a, b, r = np.asarray(radius), np.asarray(depth), np.asarray(at)
    second = np.sqrt(a**4 + r**2 * (b**2 - a**2)) / b
    first = second**3 * b**2 / a**4
    along = np.asarray(pressure) * second / (2.0 * np.asarray(wall))
    return along, along * (2.0 - second / first)


def first_yield(radius: Metre, depth: Metre, wall: Metre, yield_strength: Pascal) -> Pascal:
    """Pressure of first yield of an ellipsoid or hemisphere by its membrane stresses, Mises.

        the least pressure over the meridian; a sphere 2 sy t / r

    Bending at the joint is left out; the shell model has it.

    Source: own-derivation, von Mises on the stresses of `ellipsoid_stresses`.
    Checked: tests/verification/test_heads_membrane.py (first_yield).
    """
    at = np.linspace(0.0, 1.0, 201) * radius
    along, around = (
        np.asarray(each) for each in ellipsoid_stresses(1.0, radius, depth, wall, at)
    )
    equivalent = np.sqrt(along**2 - along * around + around**2)
    return np.asarray(np.divide(yield_strength, np.max(equivalent)))


def crown_strain(pressure: Pascal, crown_radius: Metre, wall: Metre, curve: Curve) -> Strain:
    """Equivalent plastic strain of a crown that thins but keeps its radius.

        s(x) exp(-x) = p R / (2 t); the in-plane strain is x / 2 each way

    A quick estimate; a real crown bulges to a smaller radius, so it strains less.

    Source: own-derivation, equal biaxial membrane of constant radius.
    Checked: tests/verification/test_heads_membrane.py (crown_strain).
    Raises NoSolution when no strain of the curve carries the pressure.
    """
    from scipy.optimize import brentq

    wanted = float(pressure * crown_radius / (2.0 * wall))
    strain = np.linspace(0.0, float(curve.strain_limit), 801)
    carried = np.asarray(curve.stress(strain)) * np.exp(-strain)
    if carried[0] >= wanted:
        return 0.0
    above = np.flatnonzero(carried >= wanted)
    if not above.size:
        raise NoSolution(
            "head",
            f"a crown of constant radius carries no {float(pressure) / 1e6:.4g} MPa",
            "a thicker head",
        )

    def missing(x: float) -> float:
        return float(curve.stress(x) * np.exp(-x)) - wanted

    return float(brentq(missing, strain[above[0] - 1], strain[above[0]], xtol=1e-14))


def edge_lengths(radius: Metre, wall: Metre, poisson: Ratio) -> tuple[Metre, Metre]:
    """Elastic edge effect of a cylinder: length to 1/e, and half a wave.

        1/b and pi/b, b^4 = 3 (1 - nu^2) / (r t)^2

    Elastic only: while the tank is formed the heads hold the wall back much further.

    Source: own-derivation, beam on an elastic foundation.
    Checked: tests/verification/test_heads_membrane.py (edge_lengths).
    """
    decay = (3.0 * (1.0 - np.square(poisson))) ** 0.25 / np.sqrt(np.multiply(radius, wall))
    return 1.0 / decay, np.pi / decay


def wrinkling_asks_for_a_look(diameter: Metre, wall: Metre, lowest_hoop: Pascal) -> bool:
    """Whether a head is thin enough, and compressed around, for wrinkles to be looked for.

        any compressive membrane hoop stress and D/t above 100

    Source: own-derivation, cautious reading of tests on thin ends (D/t 212 sound, 530 not).
    Checked: tests/verification/test_heads_membrane.py (wrinkling_asks_for_a_look).
    """
    return bool(np.any((np.divide(diameter, wall) > WRINKLE_RATIO) & np.less(lowest_hoop, 0.0)))


def _check(head: Torisphere) -> None:
    sizes = (head.inside_diameter, head.crown_radius, head.knuckle_radius, head.wall)
    if not all(np.all(np.greater(size, 0.0)) for size in sizes):
        raise InputError(
            "head",
            "diameter, crown radius, knuckle radius and wall must be positive",
            'crown_radius = "1200 mm", knuckle_radius = "120 mm", wall = "3 mm"',
        )

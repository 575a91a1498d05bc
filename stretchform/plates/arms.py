"""Closed formulas for an arm that yields while it lets the wall leave the plate.

An arm is a flat strip, `depth` deep in the plane of the plate and `length` long between the
end of the slot and the edge of the tab, which moves out without turning. Formulas hold for
annealed sheet and straight arms square to the radius; a concentric arm is treated as said.
Strains are engineering strains of the outer fibre at the root.
"""

from math import log

import numpy as np

from stretchform.si import Metre, Newton, NewtonMetre, Pascal, Radian, Ratio, Strain
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation", "roark", "timoshenko-rings", "jones-impact")

STRAIN_PASS = 0.15  # judged: a third of the elongation of annealed sheet
STRAIN_FAIL = 0.20  # judged
SLOPE_SINGLE = 0.35  # travel / length: range of the formula
SLOPE_BRIDGE = 0.20  # travel / length: beyond it the strain localises at the root
CONCENTRIC_BRIDGE_GROWTH = 0.01  # beyond it a concentric bridge is refused
STRAIN_FACTOR = 7.5  # of a single arm in annealed sheet
ANNEALED_BRIDGE = (6.0, 4.5)  # bending and string factor of a bridge in annealed sheet
BOW_GATHERS = 1.25  # fitted: the stretch of a bowed bridge gathers at its tab
BOW_RANGE = 1.5  # rise of a bowed bridge over its travel: longer ones gain nothing
LEAST_HARDENING = 0.18  # range of the formulas
PROOF_STRAIN = 0.002
YIELD_POINT = 1.15  # on the bending factor: a real curve has a yield point


def hardening(curve: Curve) -> Ratio:
    """Mean hardening exponent of a curve between 2 and 10 % strain.

        n = ln(S(0.10) / S(0.02)) / ln 5

    Source: own-derivation, power law through two points.
    Checked: tests/unit/plates/test_plates_arms.py (a power law gives its exponent).
    Raises nothing.
    """
    rise = np.divide(curve.stress(0.10), curve.stress(0.02))
    return np.asarray(np.log(rise) / log(5.0), dtype=np.float64)


def bending_factor(curve: Curve) -> Ratio:
    """Factor between travel * depth / length^2 and the outer strain of a guided power-law arm.

        factor = (2 n + 1) / n;  n = 1 gives the elastic 3

    Source: own-derivation, curvature ~ moment^(1/n), moment linear along the arm.
    Checked: tests/verification/test_plates_check_values.py (elastic limit, row 5).
    Raises nothing.
    """
    exponent = hardening(curve)
    return (2.0 * exponent + 1.0) / exponent


def strain_factor(curve: Curve) -> Ratio:
    """Factor C of the root strain of a single arm: never below 7.5.

        C = max(7.5, 1.25 * (2 n + 1) / n)

    1.25 allows for the yield point that a power law lacks, on the safe side.

    Source: own-derivation, fitted to solves of a beam that yields.
    Checked: tests/verification/test_plates_formula_campaign.py (random arms, safe side).
    Raises nothing.
    """
    return np.maximum(STRAIN_FACTOR, 1.25 * bending_factor(curve))


def bridge_factors(curve: Curve) -> tuple[Ratio, Ratio]:
    """Factors of bending and of the string in the root strain of a bridge.

        bending = max(6, (2 n + 1) / n),   string = max(4.5, 0.9 (n + 1) (n + 2) / (2 n))

    Source: own-derivation, boundary layer of a string with a power-law section, times 0.9.
    Checked: tests/verification/test_plates_formula_campaign.py (random arms, safe side).
    Raises nothing.
    """
    n = hardening(curve)
    string = 0.9 * (n + 1.0) * (n + 2.0) / (2.0 * n)
    return np.maximum(6.0, bending_factor(curve)), np.maximum(4.5, string)


def single_strain(depth: Metre, length: Metre, travel: Metre, factor: Ratio) -> Strain:
    """Outer strain at the root of a single arm, or of one limb of a folded arm.

        strain = factor * travel * depth / length^2

    `travel` is that of the one limb.

    Source: own-derivation, guided arm with a power-law section.
    Checked: tests/verification/test_plates_check_values.py (rows 5 to 7).
    Raises nothing.
    """
    return factor * np.multiply(travel, depth) / np.square(length)


def bridge_strain(
    depth: Metre,
    length: Metre,
    travel: Metre,
    radius: Metre | None = None,
    factors: tuple[Ratio, Ratio] = ANNEALED_BRIDGE,
) -> Strain:
    """Outer strain at the root of a bridge of half span `length`; a safe bound.

        straight:   b (travel/length) (depth/length) + s (travel/length)^2
        concentric: the same + 1.25 s travel/radius
        b, s = `factors`, 6 and 4.5 of annealed sheet

    A concentric bridge is stretched by its own bow as well: the mean tie strain is
    (theta^2 + travel/radius) / 2, and it gathers at the tab. `radius` None: straight.

    Source: own-derivation, bending and string boundary layer fitted to beam solves.
    Checked: tests/verification/test_plates_check_values.py (rows 8 to 10, concentric rows).
    Raises nothing.
    """
    slope = np.divide(travel, length)
    bow = 0.0 if radius is None else BOW_GATHERS * np.divide(travel, radius)
    return factors[0] * slope * np.divide(depth, length) + factors[1] * (slope**2 + bow)


def tie_strain(length: Metre, travel: Metre, radius: Metre | None = None) -> Strain:
    """Mean stretch of a bridge whose middle moves out.

        straight:   sqrt(1 + (travel/length)^2) - 1
        concentric: the same with (travel/length)^2 + travel/radius

    Source: own-derivation, length of the moved line.
    Checked: tests/verification/test_plates_check_values.py (row 4).
    Raises nothing.
    """
    bow = 0.0 if radius is None else np.divide(travel, radius)
    return np.sqrt(1.0 + np.square(np.divide(travel, length)) + bow) - 1.0


def effective_slope(length: Metre, travel: Metre, radius: Metre | None) -> Ratio:
    """Slope that limits an arm: with its own bow if it is concentric.

        straight: travel / length      concentric: travel / length + length / (2 radius)

    Source: own-derivation, mean slope of the bowed arm; never below sqrt(2 travel / radius).
    Checked: tests/unit/plates/test_plates_arms.py (least value over the length).
    Raises nothing.
    """
    bow = 0.0 if radius is None else np.divide(length, np.multiply(2.0, radius))
    return np.divide(travel, length) + bow


def root_moment(
    depth: Metre, length: Metre, travel: Metre, thickness: Metre, curve: Curve, factor: Ratio
) -> NewtonMetre:
    """Bending moment at the root of a guided arm that yields.

        M = S(e) * thickness * depth^2 / (2 (n + 2)),   e = factor * travel * depth / length^2

    Source: own-derivation, moment of a power-law section.
    Checked: tests/verification/test_plates_check_values.py (row 5 within 15 %).
    Raises nothing.
    """
    strain = single_strain(depth, length, travel, factor)
    shape = 2.0 * (hardening(curve) + 2.0)
    return curve.stress(strain) * np.multiply(thickness, np.square(depth)) / shape


def single_force(moment: NewtonMetre, length: Metre, travel: Metre) -> Newton:
    """Radial force of a single arm on its tab.

        F = 2 M / (length - 0.5 travel^2 / length)

    Source: own-derivation, moments about the shortened arm.
    Checked: tests/verification/test_plates_check_values.py (rows 5 to 7 within 15 %).
    Raises nothing.
    """
    return 2.0 * moment / (length - 0.5 * np.square(travel) / length)


def tie_tension(
    depth: Metre, thickness: Metre, stretch: Strain, curve: Curve, youngs_modulus: Pascal
) -> Newton:
    """Tension along a bridge.

        N = depth * thickness * S(stretch / 2 + yield / E)

    Half of the stretch, because the yielding roots take their part of it first.

    Source: own-derivation, fitted to beam solves.
    Checked: tests/verification/test_plates_check_values.py (rows 8 to 10).
    Raises nothing.
    """
    elastic = np.divide(curve.stress(PROOF_STRAIN), youngs_modulus)
    section = np.multiply(depth, thickness)
    return section * curve.stress(np.divide(stretch, 2.0) + elastic)


def bridge_force(moment: NewtonMetre, tension: Newton, length: Metre, slope: Ratio) -> Newton:
    """Radial force of a whole bridge on its tab.

        F = 2 (N sin(atan(slope)) + 2 M / length)

    `slope` is that of the line from root to tab, see `effective_slope`.

    Source: own-derivation, moments of half the bridge about its root.
    Checked: tests/verification/test_plates_check_values.py (rows 8 to 10: +0 to +35 %).
    Raises nothing.
    """
    return 2.0 * (tension * np.sin(np.arctan(slope)) + 2.0 * moment / length)


def single_length(
    depth: Metre, travel: Metre, strain_limit: Strain, factor: Ratio, limbs: int = 1
) -> Metre:
    """Clear length that a single arm, or each limb of a folded arm, needs.

        length = max(sqrt(factor * d * depth / limit), d / 0.35),   d = travel / limbs

    Source: own-derivation, `single_strain` solved for the length, and its range.
    Checked: tests/verification/test_plates_check_values.py (row 13 and the table of lengths).
    Raises nothing.
    """
    each = np.divide(travel, limbs)
    bending = np.sqrt(factor * np.multiply(each, depth) / strain_limit)
    return np.maximum(bending, each / SLOPE_SINGLE)


def bridge_length(
    depth: Metre,
    travel: Metre,
    strain_limit: Strain,
    radius: Metre | None = None,
    factors: tuple[Ratio, Ratio] = ANNEALED_BRIDGE,
) -> Metre:
    """Half span that a bridge needs; infinite where no span passes.

        length = max(sqrt((b travel depth + s travel^2) / (limit - bow)), slope limit)
        bow = 1.25 s travel/radius of a concentric bridge, else 0;   b, s = `factors`

    A concentric bridge that rises by more than 1.5 times its travel gains nothing by more
    length: there is none.

    Source: own-derivation, `bridge_strain` solved for the length, and its range.
    Checked: tests/verification/test_plates_check_values.py (row 14 and the table of lengths).
    Raises nothing.
    """
    bending, string = factors
    bow = 0.0 if radius is None else BOW_GATHERS * string * np.divide(travel, radius)
    room = np.maximum(np.subtract(strain_limit, bow), 0.0)
    with np.errstate(divide="ignore"):
        square = (bending * np.multiply(travel, depth) + string * np.square(travel)) / room
    length = np.maximum(np.sqrt(square), _least_slope_length(travel, radius))
    if radius is None:
        return length
    longest = np.sqrt(2.0 * BOW_RANGE * np.multiply(travel, radius))
    return np.where(length <= longest, length, np.inf)


def _least_slope_length(travel: Metre, radius: Metre | None) -> Metre:
    """Shortest half span within the slope limit of a bridge."""
    if radius is None:
        return np.divide(travel, SLOPE_BRIDGE)
    inner = SLOPE_BRIDGE**2 - 2.0 * np.divide(travel, radius)
    root = SLOPE_BRIDGE - np.sqrt(np.maximum(inner, 0.0))
    return np.where(inner < 0.0, np.inf, np.multiply(radius, root))


def plate_turn(length: Metre, travel: Metre, radius: Metre, concentric: bool = False) -> Radian:
    """Angle by which arms of one hand turn the plate about the tank's axis.

        straight:   u = 0.53 travel^2 / length,   angle = u / radius
        concentric: u more by travel * length / (2 radius)

    Source: own-derivation, shortening of the bent arm (0.50 to 0.54 in beam solves).
    Checked: tests/verification/test_plates_check_values.py (rows 5 to 7; 1.7 and 4.1 mm).
    Raises nothing.
    """
    shift = 0.53 * np.square(travel) / length
    if concentric:
        shift = shift + np.multiply(travel, length) / np.multiply(2.0, radius)
    return shift / radius


def stalk(length: Metre, radius: Metre, clearance: Metre) -> Metre:
    """Least distance from the wall to the outer edge of a straight arm at its tab.

        stalk = clearance + length^2 / (2 radius)

    The rim falls away from a straight arm by length^2/(2 radius) at its root, so its tab
    stands on a stalk of this height, or the rim gets a flat.

    Source: own-derivation, rise of a shallow arc.
    Checked: tests/unit/plates/test_plates_arms.py (against the exact arc).
    Raises nothing.
    """
    return np.add(clearance, np.square(length) / np.multiply(2.0, radius))


def guided_stiffness(
    depth: Metre, length: Metre, thickness: Metre, youngs_modulus: Pascal
) -> Newton:
    """Elastic force per unit of travel of a guided arm, with shear; right for unloading.

        F/d = 12 E I / (length^3 (1 + P)),   P = 12 E I / (k G A length^2), k = 5/6, G = E/2.6

    In newton per metre. At travels of millimetres the arm yields: never use it for the force.

    Source: roark, guided beam (from memory, reproduced by computation); own-derivation, shear.
    Checked: tests/verification/test_plates_check_values.py (row 1).
    Raises nothing.
    """
    inertia = np.multiply(thickness, np.power(depth, 3)) / 12.0
    shear = 12.0 * inertia * 2.6 / (5.0 / 6.0 * np.multiply(depth, thickness) * length**2)
    return 12.0 * np.multiply(youngs_modulus, inertia) / (np.power(length, 3) * (1.0 + shear))


def elastic_strain(depth: Metre, length: Metre, travel: Metre) -> Strain:
    """Outer strain of a slender guided arm before it yields.

        strain = 3 travel depth / length^2

    Source: roark, guided beam (from memory, reproduced by computation).
    Checked: tests/verification/test_plates_check_values.py (row 2).
    Raises nothing.
    """
    return single_strain(depth, length, travel, 3.0)


def bridge_limit_ratio(travel: Metre, depth: Metre) -> Ratio:
    """Force of a rigid-plastic bridge over its force at the start, 4 Mp / length.

        1 + (travel/depth)^2 up to travel = depth, then 2 travel/depth

    Source: jones-impact, beam with held ends (from memory); own-derivation.
    Checked: tests/verification/test_plates_check_values.py (row 12).
    Raises nothing.
    """
    share = np.divide(travel, depth)
    return np.where(share <= 1.0, 1.0 + np.square(share), 2.0 * share)


def ring_coefficients() -> tuple[Ratio, Ratio, Ratio]:
    """Thin elastic ring pulled at two opposite points.

        opening = (pi/4 - 2/pi) F R^3/(E I),  across = -(2/pi - 1/2) F R^3/(E I),  M = F R/pi

    For a ring without slots that bends as a whole: it goes oval and pulls hard on the wall.

    Source: timoshenko-rings, two opposite loads (from memory, recomputed).
    Checked: tests/verification/test_plates_check_values.py (row 3, by quadrature).
    Raises nothing.
    """
    return np.pi / 4.0 - 2.0 / np.pi, 0.5 - 2.0 / np.pi, 1.0 / np.pi

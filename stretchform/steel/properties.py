"""Physical properties of austenitic steels, and what a flow-stress law says of a tensile test.

The modulus and contraction are fits to measurements on 304; the Blackburn law is a second
opinion on the first few per cent of strain, never a forecast. A tensile test stops stretching
evenly where the flow stress no longer rises as fast as the section shrinks (Considere).
"""

import numpy as np

from stretchform.errors import NoSolution
from stretchform.si import Array, Kelvin, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve, Ludwik

SOURCES = ("own-derivation", "nist-cryogenics-304", "blackburn-304", "considere-1885")

_MODULUS_WARM = (210.0593, 0.1534883, -1.61739e-3, 5.11706e-6, -6.1546e-9)  # 57 to 293 K, GPa
_MODULUS_COLD = (209.8145, 0.1217019, -1.146999e-2, 3.60543e-4, -3.0179e-6)  # 5 to 57 K, GPa
_CONTRACTION_304 = (-295.54, -0.39811, 9.2683e-3, -2.0261e-5, 1.7127e-8)  # 23 to 300 K, 1e-5
_CONTRACTION_304L = (-295.46, -0.40518, 9.4014e-3, -2.1098e-5, 1.8780e-8)  # the same
_POUND_PER_SQUARE_INCH = 6894.757293168  # Pa
_SCAN = 4001  # points of the first look for the end of even stretching


def _polynomial(coefficients: tuple[float, ...], temperature: Kelvin) -> Array:
    powers = [c * np.power(temperature, i) for i, c in enumerate(coefficients)]
    return np.asarray(sum(powers), dtype=np.float64)


def modulus_304(temperature: Kelvin) -> Pascal:
    """Young's modulus of 304 from 5 to 293 K.

        E = (c0 + c1 T + c2 T^2 + c3 T^3 + c4 T^4) GPa, two ranges that meet at 57 K

    Source: nist-cryogenics-304, Young's modulus, coefficients as quoted in a public file.
    Checked: tests/published/test_nist_304.py.
    Raises NoSolution outside 5 to 293.15 K.
    """
    _refuse_outside(temperature, 5.0, 293.15)
    warm = _polynomial(_MODULUS_WARM, temperature)
    cold = _polynomial(_MODULUS_COLD, temperature)
    return np.asarray(1e9 * np.where(np.less(temperature, 57.0), cold, warm), dtype=np.float64)


def contraction_304(temperature: Kelvin) -> Strain:
    """Change of length of 304 over the length at 293 K; negative below it.

        dL/L = 1e-5 (c0 + c1 T + c2 T^2 + c3 T^3 + c4 T^4)

    Source: nist-cryogenics-304, linear expansion of 304, as quoted in a public file.
    Checked: tests/published/test_nist_304.py.
    Raises NoSolution outside 23 to 300 K.
    """
    _refuse_outside(temperature, 23.0, 300.0)
    return 1e-5 * _polynomial(_CONTRACTION_304, temperature)


def contraction_304l(temperature: Kelvin) -> Strain:
    """Change of length of 304L over the length at 293 K; negative below it.

        dL/L = 1e-5 (c0 + c1 T + c2 T^2 + c3 T^3 + c4 T^4)

    Source: nist-cryogenics-304, linear expansion of 304L, as quoted in a public file.
    Checked: tests/published/test_nist_304.py.
    Raises NoSolution outside 23 to 300 K.
    """
    _refuse_outside(temperature, 23.0, 300.0)
    return 1e-5 * _polynomial(_CONTRACTION_304L, temperature)


def blackburn_304(temperature: Kelvin) -> Ludwik:
    """Flow-stress law of annealed 304 for the first 5 % of plastic strain, as a cross-check.

        s = sp + K1 x^m1,  sp = 1.25 (25850.5 - 12.8179 T) - 12198 + 6.7093 T,
        K1 = 69964 - 25.4491 T,  m1 = 0.25824 + 7.749e-5 T,  stresses in psi, T in kelvin

    Source: blackburn-304, tensile equations of 304 as coded in the package hbbdata.
    Checked: tests/published/test_blackburn_304.py.
    Raises NoSolution outside 273 to 1089 K.
    """
    _refuse_outside(temperature, 273.0, 1089.0)
    proof = 1.25 * (25850.5 - 12.8179 * temperature)
    offset = -12198.0 + 6.7093 * temperature
    return Ludwik(
        yield_stress=_POUND_PER_SQUARE_INCH * (proof + offset),
        strength_coefficient=_POUND_PER_SQUARE_INCH * (69964.0 - 25.4491 * temperature),
        hardening_exponent=0.25824 + 7.749e-5 * temperature,
        strain_start=0.002,
        strain_limit=0.05,
    )


def uniform_strain(curve: Curve) -> Strain:
    """True plastic strain at the maximum load of a tensile test of one law.

        ds/dx = s; elastic strain neglected, the law carried on beyond its own limit

    Source: considere-1885, criterion of maximum load.
    Checked: tests/published/test_callister_304.py (K-n pair: strain n, closed form).
    Raises NoSolution when the load still rises at 100 % strain or falls from the start.
    """
    scan = np.linspace(1e-4, 1.0, _SCAN)
    excess = np.asarray(curve.slope(scan) - curve.stress(scan), dtype=np.float64)
    falling = np.nonzero(excess <= 0.0)[0]
    if falling.size == 0 or falling[0] == 0:
        raise NoSolution(
            "flow-stress law",
            "its tensile test would have no maximum load between 0 and 100 % strain",
            "give the law with parameters in their units, or the certificate values instead",
        )
    return _halved(curve, float(scan[falling[0] - 1]), float(scan[falling[0]]))


def _halved(curve: Curve, low: float, high: float) -> float:
    for _ in range(60):
        middle = 0.5 * (low + high)
        if float(curve.slope(middle) - curve.stress(middle)) > 0.0:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def tensile_strength(curve: Curve) -> Pascal:
    """Engineering strength of a law: its true stress at the uniform strain over the section lost.

        Rm = s(xu) exp(-xu),  xu from uniform_strain

    Source: considere-1885, criterion of maximum load.
    Checked: tests/published/test_callister_304.py (K-n pair: K n^n exp(-n)).
    Raises NoSolution as uniform_strain does.
    """
    strain = uniform_strain(curve)
    return curve.stress(strain) * np.exp(np.negative(strain))


def proof_strength(curve: Curve, youngs_modulus: Pascal, offset: Ratio = 0.002) -> Pascal:
    """Engineering proof strength of a law: stress over the first section at a plastic offset.

        R = s(x) exp(-(x + s/E)),  with exp(x + s/E) = 1 + offset + R/E

    Source: own-derivation, true from engineering values with the elastic part kept.
    Checked: tests/unit/steel/test_properties.py (round trip through true_proof).
    """
    strain = offset
    proof = curve.stress(strain)
    for _ in range(20):
        proof = curve.stress(strain) / (1.0 + offset + proof / youngs_modulus)
        total = np.log1p(offset + proof / youngs_modulus)
        strain = total - curve.stress(strain) / youngs_modulus
    return proof


def _refuse_outside(temperature: Kelvin, low: float, high: float) -> None:
    if np.any(np.less(temperature, low)) or np.any(np.greater(temperature, high)):
        raise NoSolution(
            f"temperature {np.ravel(temperature)[0]:.1f} K",
            f"the fit holds from {low:g} to {high:g} K",
            f"a temperature from {low - 273.15:.0f} to {high - 273.15:.0f} degC",
        )

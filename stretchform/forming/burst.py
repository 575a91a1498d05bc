"""Burst theories of plain cylinders: bounds to hold our maximum pressure against.

All give the highest pressure of a thin cylinder of a power-law steel (K x^n) from its tensile
strength; defect-free pipes burst between the Tresca and the von Mises value. They are checks,
not forecasts: a real tank has seams, thin spots and plates.
"""

import numpy as np

from stretchform.si import Metre, Pascal, Ratio

SOURCES = ("zhu-leis-2006", "svensson-1958", "faupel-1956", "en-13458-2")


def zhu_leis(radius: Metre, wall: Metre, tensile: Pascal, exponent: Ratio) -> Pascal:
    """Burst pressure by the mean of the Tresca and Mises criteria (average shear stress).

        p = (C/2)^(n+1) · 4 t Rm / D, C = 1/2 + 1/sqrt(3), D mean diameter

    Source: zhu-leis-2006, the ASSY solution (formula from memory).
    Checked: tests/verification/test_burst.py (C10, C12; lies between Tresca and Mises).
    """
    factor = 0.5 + 1.0 / np.sqrt(3.0)
    power = np.asarray(np.power(factor / 2.0, np.add(exponent, 1.0)), dtype=np.float64)
    return power * 2.0 * wall / radius * tensile


def svensson(inner: Metre, outer: Metre, tensile: Pascal, exponent: Ratio) -> Pascal:
    """Burst pressure of a cylinder by Svensson's approximation.

        p = Rm · 0.25/(n + 0.227) · (e/n)^n · ln(outer/inner)

    Valid for n from about 0.05 to 0.5; meant for thick walls, 3 to 8 % low for thin ones.

    Source: svensson-1958, cylinder formula (from memory).
    Checked: tests/verification/test_burst.py (C12).
    """
    n = np.asarray(exponent, dtype=np.float64)
    factor = 0.25 / (n + 0.227) * np.power(np.e / n, n)
    return tensile * factor * np.log(np.divide(outer, inner))


def faupel(inner: Metre, outer: Metre, proof: Pascal, tensile: Pascal) -> Pascal:
    """Burst pressure of a thick closed cylinder by Faupel.

        p = 2 Y/sqrt(3) · ln(W) · (2 − Y/Rm), W = outer/inner

    Source: faupel-1956, his burst formula (from memory).
    Checked: tests/verification/test_burst.py (C29).
    """
    logarithm = np.asarray(np.log(np.divide(outer, inner)), dtype=np.float64)
    ratio = np.asarray(np.divide(proof, tensile), dtype=np.float64)
    return np.asarray(np.multiply(2.0 / np.sqrt(3.0), proof) * logarithm * (2.0 - ratio))


def vessel_wall(
    outside_diameter: Metre,
    design_pressure: Pascal,
    strength: Pascal,
    safety: Ratio,
    joint: Ratio = 1.0,
    allowance: Metre = 0.0,
) -> Metre:
    """Wall of a vessel that is strengthened by pressure, by the European rule.

        s = Da p / (2 (K/S) v + p) + c

    p: design pressure; K: highest design stress; S: safety factor; v: joint factor. A check
    value for a nominal stress, not a design: the standard itself and a licensed engineer
    decide.

    Source: en-13458-2, annex C, shell thickness (form seen in a review, 410 MPa from memory).
    Checked: tests/published/test_en_vessel.py (thickness, pressure, nominal stress 410 MPa).
    """
    stress = np.asarray(strength) / safety
    return outside_diameter * design_pressure / (2.0 * stress * joint + design_pressure) + (
        allowance
    )

"""A rough proof strength from analysis and grain size, to see whether a certificate is sound."""

from collections.abc import Mapping

import numpy as np

from stretchform.si import MassPerCent, Metre, Pascal, Ratio

SOURCES = ("irvine-1969",)

_COEFFICIENTS = {
    "C": 23.0,
    "Si": 1.3,
    "Cr": 0.24,
    "Mo": 0.94,
    "V": 1.2,
    "W": 0.29,
    "Nb": 2.6,
    "Ti": 1.7,
    "Al": 0.82,
    "N": 32.0,
}
_TON_PER_SQUARE_INCH = 15.4e6  # Pa, as rounded by the source


def annealed_proof(
    analysis: Mapping[str, MassPerCent], grain: Metre, ferrite: Ratio = 0.0
) -> Pascal:
    """Proof strength of annealed austenitic steel; `grain` is the mean linear intercept.

        15.4 MPa (4.4 + 23 C + 1.3 Si + 0.24 Cr + 0.94 Mo + 1.2 V + 0.29 W + 2.6 Nb + 1.7 Ti
                  + 0.82 Al + 32 N + 0.16 ferrite in % + 0.46 / sqrt(d in mm))

    Source: irvine-1969, regression (from memory).
    Checked: tests/verification/test_steel_check_values.py
    """
    share = sum(factor * analysis.get(name, 0.0) for name, factor in _COEFFICIENTS.items())
    size = 0.46 / np.sqrt(np.multiply(grain, 1e3))
    return _TON_PER_SQUARE_INCH * (4.4 + share + 16.0 * np.asarray(ferrite) + size)

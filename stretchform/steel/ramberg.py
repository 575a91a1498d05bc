"""Two-stage Ramberg-Osgood curves: the building code's and the literature's alternatives.

They are made for buildings, where strains stay small. Against a measured 316L they read 6 to
11 % low between 10 and 25 % strain, and a pressure computed from them would be too low by as
much. They are offered for comparison, never as the curve to pump by. Engineering stress and
strain throughout, except in `true_curve`.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.si import Pascal, Ratio, Strain
from stretchform.steel.curve import Table

SOURCES = ("en-1993-1-4", "rasmussen-2003", "arrayago-2015", "own-derivation")

READS_LOW_FROM = 0.10  # strain above which the curves read low by 6 % or more
USUAL_EXPONENT = 7.0
_OFFSET = 0.002


@dataclass(frozen=True, slots=True)
class TwoStage:
    """Constants of a two-stage curve."""

    proof_02: Pascal
    tensile: Pascal
    modulus: Pascal
    exponent: Ratio  # n of the first stage
    second_exponent: Ratio  # m of the second
    proof_slope: Pascal  # tangent at the proof strength
    ultimate_strain: Strain


def two_stage(
    proof_02: Pascal,
    tensile: Pascal,
    modulus: Pascal,
    exponent: Ratio = USUAL_EXPONENT,
    factor: Ratio = 3.5,
) -> TwoStage:
    """Constants of EN 1993-1-4 Annex C and Rasmussen 2003 (factor 3.5), Arrayago 2015 (2.8).

        E_y = E / (1 + 0.002 n E / f_y),  m = 1 + factor f_y / f_u,  e_u = 1 - f_y / f_u

    Source: en-1993-1-4, Annex C; rasmussen-2003; arrayago-2015 (all from memory).
    Checked: tests/verification/test_steel_check_values.py
    """
    ratio = proof_02 / tensile
    slope = modulus / (1.0 + _OFFSET * exponent * modulus / proof_02)
    return TwoStage(
        proof_02, tensile, modulus, exponent, 1.0 + factor * ratio, slope, 1.0 - ratio
    )


def two_stage_strain(stress: Pascal, constants: TwoStage) -> Strain:
    """Engineering strain of a two-stage curve at an engineering stress.

        s <= f_y: s/E + 0.002 (s/f_y)^n
        above:    0.002 + f_y/E + (s - f_y)/E_y + e_u ((s - f_y)/(f_u - f_y))^m

    Source: en-1993-1-4, Annex C (from memory).
    Checked: tests/verification/test_steel_check_values.py
    """
    c = constants
    first = stress / c.modulus + _OFFSET * np.power(np.divide(stress, c.proof_02), c.exponent)
    over = np.maximum(np.subtract(stress, c.proof_02), 0.0)
    bend = np.power(over / (c.tensile - c.proof_02), c.second_exponent)
    second = _OFFSET + c.proof_02 / c.modulus + over / c.proof_slope + c.ultimate_strain * bend
    return np.where(np.less_equal(stress, c.proof_02), first, second)


def tensile_estimate(
    proof_02: Pascal, modulus: Pascal, exponent: Ratio | None = None
) -> Pascal:
    """Tensile strength guessed from the proof strength alone.

        f_u = f_y / (0.2 + 185 f_y/E); with n: times 1 - 0.0375 (n - 5)

    Source: rasmussen-2003, austenitic and duplex; all alloys with n (from memory).
    Checked: tests/verification/test_steel_check_values.py
    """
    ratio = 0.2 + 185.0 * proof_02 / modulus
    correction = 1.0 if exponent is None else 1.0 - 0.0375 * (np.asarray(exponent) - 5.0)
    return proof_02 / ratio * correction


def true_curve(constants: TwoStage) -> Table:
    """Flow stress against plastic true strain of a two-stage curve, up to its tensile strength.

        s = stress (1 + e), x = ln(1 + e) - s/E

    Source: own-derivation, true from engineering values.
    Checked: tests/published/test_fit_316l.py
    """
    stress = np.linspace(0.2, 1.0, 1500) * float(constants.tensile)
    strain = np.asarray(two_stage_strain(stress, constants), dtype=np.float64)
    true = stress * (1.0 + strain)
    plastic = np.log1p(strain) - true / float(constants.modulus)
    rising = np.concatenate([[True], np.diff(np.maximum.accumulate(plastic)) > 1e-9])
    return Table(plastic[rising], true[rising], strain_start=float(plastic[rising][0]))

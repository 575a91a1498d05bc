"""Against ASME VIII-2 Annex 3-D (equal to VIII-3 KM-620): stress-strain curve from Sy and Su.

Seen: the formulas, in an open code. Derived: the numbers below, computed from those formulas by
another program; and what the curve must do by its own construction.
"""

import numpy as np
import pytest

from stretchform.steel import certificate

MPA = 1e6
MINIMUM_304 = certificate.code_curve(205 * MPA, 515 * MPA)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("ratio", 0.398058),
        ("transition", 0.286935),
        ("small_exponent", 0.200500),
        ("large_exponent", 0.451456),
        ("small_coefficient", 714.251675e6),
        ("large_coefficient", 1158.238836e6),
        ("true_tensile", 808.857867e6),
    ],
)
def test_constants_catch_the_ferritic_exponent_or_a_swapped_strain(name, expected):
    ours = getattr(MINIMUM_304, name)
    assert ours == pytest.approx(expected, rel=2e-6)  # six digits were kept


@pytest.mark.parametrize(("stress", "expected"), [(300, 0.03573112), (400, 0.09661063)])
def test_strain_catches_a_lost_elastic_part_or_a_lost_factor_two_in_h(stress, expected):
    ours = certificate.code_strain(stress * MPA, MINIMUM_304, 195e9)
    assert ours == pytest.approx(expected, abs=6e-9)  # half a unit of the last digit


@pytest.mark.parametrize(("strain", "expected"), [(0.05, 439.6), (0.10, 543.8), (0.20, 724.3)])
def test_stress_catches_total_strain_taken_for_plastic_strain(strain, expected):
    """The strain here is total; taken for plastic it would give 4 MPa more at 5 %."""
    code = certificate.code_curve(295 * MPA, 650 * MPA)
    plastic = strain - expected * MPA / 195e9
    ours = certificate.code_stress(plastic, code) / MPA
    assert ours == pytest.approx(expected, abs=0.06)  # half a digit, and the table's lines


@pytest.mark.parametrize(
    ("proof", "tensile"), [(150, 400), (295, 650), (360, 750), (800, 1200)]
)
def test_plastic_strain_rises_to_the_uniform_strain_at_the_true_tensile_strength(
    proof, tensile
):
    code = certificate.code_curve(proof * MPA, tensile * MPA)
    stresses = np.linspace(0.5 * proof * MPA, code.true_tensile, 2000)
    strains = certificate.code_plastic_strain(stresses, code)
    assert np.all(np.diff(strains) > 0)
    # tanh is within 2 % of one there; the rest of the first branch makes the difference
    assert strains[-1] == pytest.approx(code.large_exponent, rel=0.02)

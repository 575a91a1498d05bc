"""Proof and tensile strength of laws, and the way back from a certificate."""

import numpy as np
import pytest
from laws import LAWS

from stretchform.errors import NoSolution
from stretchform.steel.certificate import true_proof
from stretchform.steel.curve import Hollomon, Ludwik, Swift, Voce
from stretchform.steel.properties import proof_strength, tensile_strength, uniform_strain

MPA = 1e6
MODULUS = 200e9


@pytest.mark.parametrize("name", ["S", "V", "VL", "M2", "M3", "M4"])
@pytest.mark.parametrize("offset", [0.002, 0.010])
def test_proof_strength_and_true_proof_undo_each_other(name, offset):
    curve = LAWS[name]
    strain, stress = true_proof(proof_strength(curve, MODULUS, offset), offset, MODULUS)
    assert stress == pytest.approx(curve.stress(strain), rel=1e-12)  # a fixed point, converged


def test_uniform_strain_of_a_prestrained_power_law_is_its_exponent_less_the_prestrain():
    """Considere on K (x0 + x)^n by hand: xu = n - x0; here 0.59051 - 0.0669."""
    law = Swift(1412.52 * MPA, 0.0669, 0.59051)
    assert uniform_strain(law) == pytest.approx(0.52361, abs=1e-12)  # bisection to 1e-19


def test_uniform_strain_of_a_saturating_law_has_a_closed_form():
    """s0 + Q (1 - exp(-b x)): slope = stress at x = ln(Q (1 + b) / (s0 + Q)) / b."""
    law = Voce(260 * MPA, 700 * MPA, 3.2)
    expected = np.log(700 * 4.2 / 960) / 3.2
    assert uniform_strain(law) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("name", ["S", "V", "VL", "M2", "M3", "M4", "H", "T"])
def test_tensile_strength_is_the_largest_engineering_stress(name):
    curve = LAWS[name]
    strains = np.linspace(1e-4, 1.0, 20001)
    engineering = np.asarray(curve.stress(strains)) * np.exp(-strains)
    # the top of a parabola, missed by at most half a step of 5e-5
    assert tensile_strength(curve) == pytest.approx(np.max(engineering), rel=1e-6)


@pytest.mark.parametrize(
    "law", [Hollomon(1400 * MPA, 1.5), Ludwik(900 * MPA, 100 * MPA, 1.0), Voce(9e8, 1e7, 1.0)]
)
def test_a_law_without_maximum_load_is_refused(law):
    with pytest.raises(NoSolution, match="no maximum load"):
        uniform_strain(law)

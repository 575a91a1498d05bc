"""Against Callister and Rethwisch, table 7.4: annealed 304, K = 1400 MPa, n = 0.44.

Seen: the pair. Derived: stresses and Rm from it, by hand with Considere's closed forms (strain n,
Rm = K n^n exp(-n)); our functions find them by search, without knowing that it is a power law.
"""

import pytest

from stretchform.files.judged import load_judged
from stretchform.files.steels import load_steel
from stretchform.steel.properties import tensile_strength, uniform_strain

MPA = 1e6


@pytest.fixture(scope="module")
def steel():
    return load_steel("textbook-304", None, "test", load_judged())


def test_the_shipped_pair_is_the_printed_one(steel):
    assert steel.curve.strength_coefficient == 1400 * MPA  # printed digits, exact
    assert steel.curve.hardening_exponent == 0.44


@pytest.mark.parametrize(("strain", "expected"), [(0.05, 374.692), (0.10, 508.309)])
def test_stress_catches_per_cent_taken_for_a_fraction(steel, strain, expected):
    ours = steel.curve.stress(strain) / MPA
    assert ours == pytest.approx(expected, abs=5e-4)  # half a unit of the last digit


def test_uniform_strain_is_the_hardening_exponent(steel):
    """Catches a maximum sought in true stress, or slope taken per engineering strain."""
    assert uniform_strain(steel.curve) == pytest.approx(
        0.44, abs=1e-9
    )  # bisection of 60 halvings


def test_tensile_strength_catches_a_true_stress_given_as_rm(steel):
    """True stress at maximum load is 975.5 MPa; the engineering value over exp(n) is 628.3."""
    ours = tensile_strength(steel.curve) / MPA
    assert ours == pytest.approx(628.286, abs=5e-4)  # half a unit of the last digit


def test_the_pair_lies_far_below_a_measured_curve_at_two_per_cent_so_it_starts_at_three(steel):
    """Measured 316L (stress316l) carries 337.5 MPa at 2 % strain, the pair a quarter less."""
    assert steel.curve.stress(0.02) / MPA < 0.76 * 337.5
    assert steel.curve.strain_start == pytest.approx(0.03, abs=1e-15)

"""The smooth law laid through the strengths of a certificate."""

import numpy as np
import pytest

from stretchform.errors import DataError
from stretchform.steel.certificate import code_curve, code_stress, curve_from_certificate
from stretchform.steel.grade import Certificate
from stretchform.steel.properties import proof_strength, tensile_strength

MPA = 1e6
MODULUS = 200e9
SEEN = [(295, 325, 650), (300, 325, 625), (360, 400, 750)]
SANE = [
    (proof, tensile)
    for proof in range(150, 801, 50)
    for tensile in range(400, 1201, 100)
    if 1.15 * proof < tensile < 5 * proof
]


def fitted(proof, tensile, middle=None):
    one = None if middle is None else middle * MPA
    return curve_from_certificate(Certificate(proof * MPA, tensile * MPA, one), MODULUS)


@pytest.mark.parametrize(("proof", "tensile"), SANE)
def test_every_sane_certificate_gives_a_law_that_rises_and_bends_down(proof, tensile):
    found = fitted(proof, tensile)
    strains = np.linspace(0.002, found.curve.strain_limit, 500)
    slopes = np.asarray(found.curve.slope(strains))
    assert np.all(slopes > 0)
    assert np.all(np.diff(slopes) < 0) or found.curve.hardening_exponent == 1.0
    assert found.rms <= found.largest < 0.10  # the half-width given to a certificate


@pytest.mark.parametrize(("proof", "middle", "tensile"), SEEN)
def test_the_law_returns_the_certificate_it_came_from(proof, middle, tensile):
    curve = fitted(proof, tensile, middle).curve
    # three strengths and 60 points against three parameters: a fit, not an interpolation
    assert proof_strength(curve, MODULUS) / MPA == pytest.approx(proof, rel=0.012)
    assert proof_strength(curve, MODULUS, 0.010) / MPA == pytest.approx(middle, rel=0.03)
    assert tensile_strength(curve) / MPA == pytest.approx(tensile, rel=0.02)


@pytest.mark.parametrize(("proof", "middle", "tensile"), SEEN)
def test_a_higher_one_per_cent_proof_strength_lifts_the_first_strains(proof, middle, tensile):
    low = fitted(proof, tensile, middle).curve
    high = fitted(proof, tensile, middle + 20).curve
    assert high.stress(0.02) > low.stress(0.02)


@pytest.mark.parametrize(("proof", "middle", "tensile"), SEEN)
def test_stress_and_slope_belong_to_one_law(proof, middle, tensile):
    curve = fitted(proof, tensile, middle).curve
    strains = np.linspace(0.01, 0.35, 60)
    step = 1e-6
    numeric = (curve.stress(strains + step) - curve.stress(strains - step)) / (2 * step)
    # rounding of 1e-16 * 600 MPa over 2e-6, against some 1500 MPa
    assert numeric == pytest.approx(curve.slope(strains), rel=1e-7)


def test_the_misfit_is_measured_against_the_code_curve():
    found = fitted(295, 650, 325)
    strains = np.linspace(0.01, 0.30, 60)
    code = code_stress(strains, code_curve(295 * MPA, 650 * MPA))
    misfit = np.asarray(found.curve.stress(strains)) / code - 1
    assert found.largest == pytest.approx(np.max(np.abs(misfit)), rel=1e-12)
    assert found.rms == pytest.approx(np.sqrt(np.mean(misfit**2)), rel=1e-12)


def test_strengths_in_any_unit_of_pressure_scale_the_law():
    """All strengths and the modulus times k: the law is k times itself."""
    base = fitted(250, 560, 290).curve
    scaled = curve_from_certificate(
        Certificate(1.2 * 250 * MPA, 1.2 * 560 * MPA, 1.2 * 290 * MPA), 1.2 * MODULUS
    ).curve
    ratio = np.asarray(scaled.stress(np.array([0.01, 0.1, 0.3]))) / base.stress(
        np.array([0.01, 0.1, 0.3])
    )
    assert ratio == pytest.approx(1.2, rel=1e-9)  # least squares of the same system


@pytest.mark.parametrize(
    ("proof", "middle", "tensile", "word"),
    [
        (295, None, 0.65, "tensile = 0.65 MPa"),
        (29.5, None, 650, "proof_02 = 29.5 MPa"),
        (295, None, 1300, "tensile"),
        (900, None, 1200, "proof_02"),
        (600, None, 650, "cold-worked"),
        (180, None, 1000, "more than 5 times"),
        (650, None, 500, "changed over"),
        (295, 250, 650, "proof_10"),
        (295, 700, 650, "proof_10"),
        (295, float("nan"), 650, "proof_10"),
        (float("nan"), None, 650, "proof_02"),
        (float("inf"), None, 650, "proof_02"),
        (-295, None, 650, "proof_02"),
    ],
)
def test_strange_strengths_are_refused_with_a_cure(proof, middle, tensile, word):
    """By refuse_strange, before any fit."""
    with pytest.raises(DataError, match=word) as caught:
        fitted(proof, tensile, middle)
    assert caught.value.fix and caught.value.where == "certificate"

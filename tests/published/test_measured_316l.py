"""Against Stress316L: a measured tensile test of 316L sheet to 50 % strain (open data, MIT).

Seen: the points. The four tests of the set scatter by 2 % at 10 % strain; that sets tolerances.
The set states no Rp0.2; its first points suggest 240 to 250 MPa, so the certificate-only curve
is tested with both and only against the points.
"""

from pathlib import Path

import numpy as np
import pytest

from stretchform.files.judged import load_judged
from stretchform.files.steels import load_steel
from stretchform.steel.certificate import code_curve, code_stress, curve_from_certificate
from stretchform.steel.grade import Certificate
from stretchform.steel.properties import tensile_strength, uniform_strain

MPA = 1e6
TABLE = Path(__file__).parent / "data/stress316l-tensile-test-2.csv"
POINTS = np.loadtxt(TABLE, delimiter=",", skiprows=3)
HIGHEST_ENGINEERING = 611.0  # of the same test, at a true strain of 0.46


@pytest.fixture(scope="module")
def steel():
    return load_steel("316L", None, "test", load_judged())


@pytest.mark.parametrize(("strain", "stress"), POINTS[:-1].tolist())
def test_the_shipped_law_catches_engineering_stress_or_total_strain(steel, strain, stress):
    plastic = strain - stress * MPA / steel.youngs_modulus.value
    assert plastic < steel.curve.strain_limit
    ours = steel.curve.stress(plastic) / MPA
    # half of the scatter between tests; the first point sits on the knee of first yielding
    assert ours == pytest.approx(stress, rel=0.025 if strain < 0.015 else 0.01)


def test_total_strain_taken_for_plastic_makes_the_law_misfit_more(steel):
    strain, stress = POINTS[1:8].T
    plastic = strain - stress * MPA / steel.youngs_modulus.value
    right = np.asarray(steel.curve.stress(plastic)) / MPA / stress - 1
    wrong = np.asarray(steel.curve.stress(strain)) / MPA / stress - 1
    assert _rms(wrong) > 3 * _rms(right)  # 1.2 % against 0.3 %


def test_considere_on_the_law_finds_the_highest_load_of_the_test(steel):
    """Catches a tensile strength computed from true stress, 59 % too high."""
    ours = tensile_strength(steel.curve) / MPA
    # the law follows the points within 1.2 % up to 45 % strain
    assert ours == pytest.approx(HIGHEST_ENGINEERING, rel=0.01)


def test_considere_on_the_law_finds_the_uniform_strain_of_the_test(steel):
    # the load is flat: 0.3 % of load is 4 points of strain
    assert uniform_strain(steel.curve) == pytest.approx(0.46, abs=0.04)


@pytest.mark.parametrize("proof", [240.0, 250.0])
@pytest.mark.parametrize(("strain", "stress"), POINTS[POINTS[:, 0] >= 0.02][:-2].tolist())
def test_a_certificate_alone_gives_the_measured_stress_within_its_spread(proof, strain, stress):
    known = Certificate(proof * MPA, HIGHEST_ENGINEERING * MPA)
    curve = curve_from_certificate(known, 194.2e9).curve
    ours = curve.stress(strain - stress * MPA / 194.2e9) / MPA
    assert ours == pytest.approx(stress, rel=0.10)  # the half-width given to a certificate


@pytest.mark.parametrize("proof", [240.0, 250.0])
def test_the_smooth_law_has_a_better_slope_than_the_code_curve_it_came_from(steel, proof):
    """Catches a slope taken from the code curve: 25 % low near 3 %, 25 % high near 8 %."""
    strains = np.linspace(0.02, 0.20, 91)
    measured = np.asarray(steel.curve.slope(strains))
    code = code_curve(proof * MPA, HIGHEST_ENGINEERING * MPA)
    known = Certificate(proof * MPA, HIGHEST_ENGINEERING * MPA)
    smooth = np.asarray(curve_from_certificate(known, 194.2e9).curve.slope(strains))
    step = 1e-3
    rough = (code_stress(strains + step, code) - code_stress(strains - step, code)) / (2 * step)
    assert _rms(smooth / measured - 1) < 0.7 * _rms(rough / measured - 1)
    assert np.max(np.abs(smooth / measured - 1)) < np.max(np.abs(rough / measured - 1))


def _rms(values):
    return float(np.sqrt(np.mean(np.square(values))))

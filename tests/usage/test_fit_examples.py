"""From the invented coupon and trial cylinder in examples to a plan of the tanks they belong to."""

from pathlib import Path

import pytest

from stretchform import actions
from stretchform.files.coupon_columns import CouponOptions
from stretchform.files.coupon_fit import FitOptions, TrialOptions, fit_coupons, fit_trial_file
from stretchform.files.fit_saving import save_steel
from stretchform.files.steel_writer import coupon_steel, trial_steel
from stretchform.report import words_fit
from stretchform.steel.grade import Certificate

EXAMPLES = Path(__file__).parents[2] / "examples"
INCH = 25.4e-3
SPECIMEN = CouponOptions(width=0.5 * INCH, thickness=0.078 * INCH, gauge_length=2.0 * INCH)
PAPER = Certificate(proof_02=288e6, tensile=641e6, proof_10=322e6)


def planned(folder, job, steel_line, own):
    """The plan of an example whose first course takes its steel from a file of its own."""
    lines = (EXAMPLES / job).read_text(encoding="utf-8").splitlines()
    place = lines.index(steel_line)
    lines[place] = f'steel = "{own}"'
    assert lines[place + 1].startswith("certificate")
    del lines[place + 1]
    path = folder / job
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return actions.plan(path)


@pytest.fixture(scope="module")
def coupon():
    options = FitOptions(coupon=SPECIMEN, like="316L", invented=True)
    return fit_coupons((EXAMPLES / "rain-cistern-coupon.csv",), options)


def test_the_example_coupon_gives_the_strengths_it_was_made_with(coupon):
    (tensile,) = coupon.tensiles
    # made from K 1465 MPa, x0 0.055, n 0.565: 0.2 % noise and a toe of 0.04 %
    assert tensile.proof_02 / 1e6 == pytest.approx(289.6, rel=0.01)
    assert tensile.tensile / 1e6 == pytest.approx(634.0, rel=0.01)
    assert coupon.pooled.fit.chosen.curve.stress(0.05) / 1e6 == pytest.approx(
        1465.0 * 0.105**0.565, rel=0.005
    )


def test_everything_said_about_the_example_coupon_has_words(coupon):
    said = [words_fit.finding(found) for found in coupon.tensiles[0].findings]
    said += [words_fit.repair(r.code, r.detail) for r in coupon.coupons[0].repairs]
    assert any("highest force" in sentence for sentence in said)
    assert any("2 lines above the table" in sentence for sentence in said)


def test_from_coupon_to_steel_file_to_plan(coupon, tmp_path):
    save_steel(coupon_steel(coupon, "own-316L", "Invented sheet"), tmp_path, "own-316L")
    plan = planned(tmp_path, "rain-cistern.toml", 'steel = "316L"', "own-316L.toml")
    paper = actions.plan(EXAMPLES / "rain-cistern.toml")
    spans = [p.forming_pressure.high / p.forming_pressure.low for p in (plan, paper)]
    assert spans[0] < spans[1]  # an own test tightens the band of a certificate
    middle = plan.forming_pressure.likely
    assert paper.forming_pressure.low < middle < paper.forming_pressure.high


def test_from_trial_cylinder_to_steel_file_to_plan(tmp_path):
    options = TrialOptions(None, 2.0e-3, "1.4307", PAPER, invented=True)
    result = fit_trial_file(EXAMPLES / "survey-boat-deck-tank-trial.csv", options)
    assert result.fit.findings == ()
    # made with 0.94 of Ludwik 262, 1275, 0.72 MPa and C = 1.10
    truth = 0.94 * 1.10 * (262e6 + 1275e6 * 0.05**0.72)
    found = result.fit.strength * result.fit.criterion * float(result.steel.curve.stress(0.05))
    assert found == pytest.approx(truth, rel=0.02)  # gauge 0.1 bar, tape 0.5 mm, to 2.5 % only
    save_steel(trial_steel(result, "own-1.4307", "Invented sheet"), tmp_path, "own-1.4307")
    job = "survey-boat-deck-tank.toml"
    plan = planned(tmp_path, job, 'steel = "1.4307"', "own-1.4307.toml")
    assert plan.forming_pressure.low < plan.forming_pressure.likely < plan.forming_pressure.high

"""Two hundred invented coupons with a known answer.

Five laws, one of which the fit does not know; force noise 0.3 % of reading and 0.05 % of range,
extension noise 1.5 µm and 0.2 %, 20 to 200 readings a second, toe up to 0.1 %, slack up to
0.3 mm on a gauge length of 50 mm. Limits are those the project set itself before the campaign.
Second round: the same shares also as constant errors of the machine, which the fit is told.
"""

import numpy as np
import pytest
from fit_synthetic import KINDS, coupon
from laws import campaign_size

from stretchform.steel.fit import Instruments, confidence_band, fit_tensile, standard_error
from stretchform.steel.tensile import evaluate

STRAINS = np.array([0.01, 0.015, 0.02, 0.03, 0.05, 0.08, 0.10, 0.15, 0.20, 0.25, 0.30])
FULL = 200


def judge(seed, gains=(0.0, 0.0), instruments=Instruments()):  # noqa: B008 - frozen
    """Errors of one coupon: proof, tensile, largest of the flow stress, share in the band."""
    made = coupon(seed, *gains)
    tensile = evaluate(made.record)
    fit = fit_tensile(tensile, instruments)
    strain = STRAINS[min(made.uniform, fit.chosen.curve.strain_limit) > STRAINS]
    truth = made.truth.stress(strain)
    low, high = confidence_band(fit, strain)
    return (
        tensile.proof_02 / made.proof_02 - 1.0,
        tensile.tensile / made.tensile - 1.0,
        float(np.max(np.abs(fit.chosen.curve.stress(strain) / truth - 1.0))),
        float(np.mean((low <= truth) & (truth <= high))),
    )


def campaign(count, **kwargs):
    return np.array([judge(seed, **kwargs) for seed in range(count)])


def require_limits(rows):
    proof, tensile, flow, covered = rows.T
    assert np.mean(np.abs(proof) < 0.02) >= 0.95  # limit set: 2 % for 95 of 100
    assert np.mean(np.abs(tensile) < 0.01) >= 0.95  # limit set: 1 % for 95 of 100
    assert np.mean(flow < 0.02) >= 0.95  # limit set: 2 % over the range for 95 of 100
    assert 0.85 <= np.mean(covered) <= 0.95  # limit set for a band of 90 %


def test_two_hundred_noisy_coupons_give_their_curve_back():
    require_limits(campaign(FULL))


def test_constant_errors_of_the_machine_are_covered_when_they_are_told():
    told = Instruments(force=0.003, extension=0.002)
    require_limits(campaign(FULL // 2, gains=(0.003, 0.002), instruments=told))


def test_constant_errors_that_are_not_told_are_not_covered():
    rows = campaign(60, gains=(0.003, 0.002))
    assert np.mean(rows[:, 3]) < 0.80  # the band cannot know them: why the option exists


@pytest.mark.campaign
def test_fresh_coupons_that_no_constant_was_chosen_on_do_as_well():
    count = campaign_size(1000, least=100)
    rows = np.array([judge(seed) for seed in range(5000, 5000 + count)])
    proof, tensile, flow, covered = rows.T
    assert np.mean(np.abs(proof) < 0.02) >= 0.95
    assert np.mean(np.abs(tensile) < 0.01) >= 0.95
    assert np.mean(flow < 0.02) >= 0.95
    assert 0.83 <= np.mean(covered) <= 0.97  # two points for the luck of fresh seeds


@pytest.mark.parametrize("kind", range(len(KINDS)), ids=list(KINDS))
def test_the_band_widens_where_the_data_end(kind):
    fit = fit_tensile(evaluate(coupon(kind).record))
    inside, outside = standard_error(fit, np.array([0.10, 1.5 * fit.chosen.curve.strain_limit]))
    assert outside > inside

"""Gained yield strength and the line of a seam."""

import pytest

from stretchform.errors import InputError
from stretchform.steel.gained import (
    NOT_GAINED,
    gained_from_pressure,
    gained_yield,
    weld_check,
    without_filler,
)

FACTORS = (0.88, 0.95, 1.00)


def test_gained_yield_is_a_share_of_the_flow_stress():
    gained = gained_yield(400e6, FACTORS)
    assert (gained.low, gained.likely, gained.high) == pytest.approx((352e6, 380e6, 400e6))


def test_from_a_measured_pressure_the_highest_criterion_is_the_cautious_one():
    # p r / t = 2 MPa 0.3 / 0.0015 = 400 MPa
    cautious = gained_from_pressure(2e6, 0.3, 1.5e-3, 1.17, FACTORS)
    bold = gained_from_pressure(2e6, 0.3, 1.5e-3, 1.03, FACTORS)
    assert cautious.high == pytest.approx(400e6 / 1.17, rel=1e-12)
    assert cautious.likely < bold.likely


def test_what_stretching_does_not_give_is_listed():
    assert {"compression", "other_temperature", "welds", "tempered_sheet"} <= set(NOT_GAINED)


def test_a_seam_that_stretches_three_times_the_target_passes():
    check = weld_check("308L", 0.15, 0.04)
    assert check.needed == pytest.approx(0.12)
    assert check.passes
    assert check.codes == ()


@pytest.mark.parametrize(
    ("filler", "elongation", "target", "codes"),
    [
        ("308L", 0.14, 0.049, ("elongation_short",)),
        ("ER316LSi", None, 0.03, ("elongation_not_given",)),
        (None, None, 0.03, ("weld_not_described",)),
        ("mystery", 0.30, 0.03, ("filler_unknown",)),
        ("308L", 0.30, 0.06, ("long_seam_yields",)),
        ("308L", 0.40, 0.12, ("long_seam_yields", "seam_may_be_weaker")),
    ],
)
def test_a_doubtful_seam_is_named(filler, elongation, target, codes):
    check = weld_check(filler, elongation, target)
    assert check.codes == codes


@pytest.mark.parametrize("filler", ["none", "", "Autogenous", "no filler"])
def test_a_seam_without_filler_is_refused(filler):
    with pytest.raises(InputError, match="without filler"):
        weld_check(filler, 0.40, 0.05)


def test_temper_rolled_sheet_is_refused():
    with pytest.raises(InputError, match="temper-rolled"):
        weld_check("308L", 0.40, 0.05, tempered=True)


@pytest.mark.parametrize("text", ["none", "No", " autogenous ", "", "0"])
def test_a_seam_without_filler_is_known_by_its_words(text):
    assert without_filler(text)
    assert not without_filler("308L")

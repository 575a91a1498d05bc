"""Checks of plates: both sides of both limits, and which one governs."""

import pytest

from stretchform.plates.checks import at_least, at_most, governing


@pytest.mark.parametrize(
    ("value", "result"),
    [(0.149, "ok"), (0.15, "ok"), (0.151, "care"), (0.2, "care"), (0.201, "fails")],
)
def test_upper_limit_has_a_band_of_care(value, result):
    assert at_most("strain", value, 0.15, "strain", 0.20).result == result


@pytest.mark.parametrize(
    ("value", "result"), [(5.0, "ok"), (4.9, "care"), (4.0, "care"), (3.9, "fails")]
)
def test_lower_limit_has_a_band_of_care(value, result):
    assert at_least("depth", value, 5.0, "metre", 4.0).result == result


def test_without_a_band_a_limit_passes_or_fails():
    assert at_most("gap", 2.0, 1.0, "metre").result == "fails"
    assert at_least("gap", 0.5, 1.0, "metre").result == "fails"


def test_use_is_the_share_of_the_limit_on_either_side():
    assert at_most("a", 3.0, 4.0, "metre").use == pytest.approx(0.75)
    assert at_least("a", 4.0, 3.0, "metre").use == pytest.approx(0.75)
    assert at_least("a", 0.0, 3.0, "metre").use == float("inf")


def test_a_failed_check_governs_before_a_fuller_one_that_passes():
    failed = at_least("ligament", 0.9, 1.0, "metre")
    full = at_most("strain", 0.1999, 0.15, "strain", 0.20)
    assert full.use > failed.use
    assert governing([full, failed]) == "ligament"
    assert governing([]) is None

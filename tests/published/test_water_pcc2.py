"""Against ASME PCC-2, Article 501, Appendix II (gas only), equations seen in the 2008 pages.

The figures are computed from the printed equations, so they guard our coding of them; they
would fail for an exact 2/7, for a standard atmosphere or for gauge in place of absolute.
Not implemented on purpose: the distances of Appendix III and any liquid distance rule.
No function of this project computes or prints a distance.
"""

from dataclasses import replace

import pytest

from stretchform.water import air, energy

FOOT_POUND, POUND = 1.3558179483, 0.45359237  # J, kg


def test_gas_in_the_reference_tank_at_2_megapascals():
    ours = air.gas_instead(0.339292, 2.0e6)
    assert ours == pytest.approx(1_034_028.0, abs=1.0)  # printed to the joule
    assert energy.tnt(ours) == pytest.approx(0.24234, abs=6e-6)  # last printed digit


def test_gas_of_one_cubic_metre_at_100_bar_absolute():
    ours = air.gas_instead(1.0, 10e6 - 101_000.0)
    assert ours == pytest.approx(18_282_991.0, abs=1.0)  # printed to the joule
    assert energy.tnt(ours) == pytest.approx(4.2848, abs=6e-5)  # last printed digit


def test_published_tnt_constants_differ_and_ours_gives_the_most_of_the_seen_ones():
    leading = energy.tnt(1.0)
    seen = [entry for entry in energy.TNT_OTHERS if entry.how == "seen"]
    assert len(seen) == 3
    assert all(energy.tnt(1.0, entry) < leading for entry in seen)


@pytest.mark.parametrize(
    ("printed", "place"),
    [(1_488_617.0, "II-5"), (1_551_000.0, "1,551,000")],
)
def test_constants_in_foot_pounds_convert_to_joules_per_kilogram(printed, place):
    found = [entry for entry in energy.TNT_OTHERS if place in entry.where]
    # stored with five significant digits
    assert found[0].value == pytest.approx(printed * FOOT_POUND / POUND, rel=2e-4)


def test_other_constants_label_the_reference_tank_as_expected():
    ours = air.gas_instead(0.339292, 2.0e6)
    convention = next(entry for entry in energy.TNT_OTHERS if entry.how == "memory")
    assert energy.tnt(ours, convention) == pytest.approx(0.24714, abs=6e-6)  # last digit
    round_figure = replace(convention, value=4.6e6)
    assert energy.tnt(ours, round_figure) == pytest.approx(0.22479, abs=6e-6)  # last digit

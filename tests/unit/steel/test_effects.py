"""Effects on the flow stress and how each one shows in the band."""

import numpy as np
import pytest

from stretchform.errors import NoSolution
from stretchform.steel.effects import (
    HOLD_END_RATE,
    Effect,
    bands,
    combined_factor,
    rate_effect,
    rate_factor,
    temperature_effect,
    warming,
)

RATE = (0.90, 0.95, 0.99)


def test_rate_factor_is_the_power_law():
    assert rate_factor(0.034, 1e-3, 1e-1) == pytest.approx(325 / 278, rel=1e-3)
    assert rate_factor(0.02, 1e-3, 1e-3) == 1.0


def test_the_judged_rate_factor_holds_for_a_usual_test():
    effect = rate_effect(*RATE)
    assert (effect.low, effect.likely, effect.high) == pytest.approx(RATE, rel=1e-12)


def test_a_test_at_the_speed_of_the_hold_needs_no_factor():
    effect = rate_effect(*RATE, test_rate=HOLD_END_RATE)
    assert (effect.low, effect.likely, effect.high) == (1.0, 1.0, 1.0)
    assert rate_effect(*RATE, test_rate=1e-9).likely == 1.0  # never a gain


def test_a_faster_test_loses_more():
    assert rate_effect(*RATE, test_rate=1e-2).likely < rate_effect(*RATE).likely


def test_from_5_to_40_degrees_the_law_of_304_loses_two_per_cent():
    ratio = temperature_effect(40.0, test=5.0).likely
    assert 100 * (ratio - 1.0) == pytest.approx(-2.0, abs=0.1)  # one decimal printed


def test_water_as_warm_as_the_test_changes_nothing():
    effect = temperature_effect(20.0, test=20.0)
    assert (effect.low, effect.likely, effect.high) == (1.0, 1.0, 1.0)


def test_cold_water_widens_the_band_and_more_so_where_martensite_forms():
    covered, open_ = temperature_effect(6.0), temperature_effect(6.0, covered=False)
    assert covered.high / covered.low == pytest.approx(1.02 / 0.98, rel=1e-9)
    assert open_.high / open_.low > covered.high / covered.low
    assert open_.code == "temperature_martensite"


@pytest.mark.parametrize("water", [-1.0, 4.9, 40.1, 90.0])
def test_water_outside_the_range_is_refused(water):
    with pytest.raises(NoSolution, match="5 to 40 degC"):
        temperature_effect(water)


def test_every_effect_has_its_own_row_and_shifts_or_widens():
    rows = bands(400e6, 0.10, (rate_effect(*RATE), temperature_effect(8.0)))
    assert [row.code for row in rows] == ["curve", "rate", "temperature"]
    assert rows[0].high / rows[0].likely == pytest.approx(1.10, rel=1e-12)
    assert rows[1].likely == pytest.approx(0.95 * rows[0].likely, rel=1e-12)
    width = [row.high / row.low for row in rows]
    assert width[0] < width[1] < width[2]


def test_effects_commute():
    first, second = rate_effect(*RATE), Effect("other", 0.97, 1.01, 1.05)
    one, other = combined_factor((first, second)), combined_factor((second, first))
    np.testing.assert_allclose(one, other, rtol=1e-12)


def test_a_wall_in_water_stays_at_the_temperature_of_the_water():
    # 1e-4 /s is some 0.6 % a minute: faster than a hand pump stretches a tank
    assert warming(500e6, 1e-4, 2e-3) < 1.5
    assert warming(500e6, 1e-6, 2e-3) < 0.02

"""Volumes, first strokes and air pockets on simple cases."""

import numpy as np
import pytest

from stretchform.errors import InputError
from stretchform.water import volumes


def test_filling_sums_courses_and_heads_and_takes_plates_off():
    radii, lengths = np.array([0.3, 0.3]), np.array([0.5, 0.7])
    whole = volumes.filling(radii, lengths, heads=0.05, displaced=0.01)
    assert whole == pytest.approx(np.pi * 0.09 * 1.2 + 0.04, rel=1e-12)  # rounding


def test_filling_takes_one_row_per_draw():
    radii = np.array([[0.3, 0.3], [0.31, 0.31]])
    found = volumes.filling(radii, np.array([0.5, 0.7]), heads=0.0)
    assert found.shape == (2,)
    assert found[1] / found[0] == pytest.approx((0.31 / 0.3) ** 2, rel=1e-12)  # rounding


def test_plates_that_fill_the_tank_are_refused():
    with pytest.raises(InputError):
        volumes.filling(np.array([0.3]), np.array([0.5]), heads=0.0, displaced=1.0)


PRESSURES = np.array([0.05, 0.1, 0.2, 0.4, 0.6]) * 1e6


def test_first_strokes_give_back_air_compliance_and_slack():
    added = volumes.pumped(0.0, 0.8e-9, PRESSURES, air=1.7e-3, slack=0.2e-3)
    found = volumes.first_strokes(PRESSURES, added)
    # rounding of a well-scaled least-squares solve
    assert found.air == pytest.approx(1.7e-3, rel=1e-6)
    assert found.compliance == pytest.approx(0.8e-9, rel=1e-6)
    assert found.slack == pytest.approx(0.2e-3, rel=1e-6)


def test_first_strokes_bear_a_reading_error():
    rng = np.random.default_rng(3)
    added = volumes.pumped(0.0, 0.8e-9, PRESSURES, air=1.7e-3) + rng.normal(0, 5e-6, 5)
    # 5 ml of reading error; the design of five pressures amplifies it about twelve-fold
    assert volumes.first_strokes(PRESSURES, added).air == pytest.approx(1.7e-3, abs=180e-6)


@pytest.mark.parametrize(
    "pressures", [PRESSURES[:3], np.array([0.1, 0.1, 0.2, 0.2]) * 1e6, np.array([1e5])]
)
def test_too_few_first_strokes_are_refused(pressures):
    with pytest.raises(InputError):
        volumes.first_strokes(pressures, pressures * 1e-9)


def test_intercept_without_pressure_is_refused():
    with pytest.raises(InputError):
        volumes.air_from_intercept(1e-3, 0.0)


@pytest.mark.parametrize(("depth", "share"), [(0.0, 0.0), (0.3, 0.5), (0.6, 1.0)])
def test_segment_of_a_circle(depth, share):
    ours = volumes.segment(0.3, depth)
    assert ours == pytest.approx(share * np.pi * 0.09, abs=1e-12)  # rounding


def test_level_plates_keep_a_film_that_notches_do_not_vent():
    areas = np.array([0.2, 0.2, 0.1])
    for notched in (False, True):
        kept = volumes.air_under_plates(areas, True, 0.3, 1.2, notched)
        assert kept == pytest.approx(2.5e-3, rel=1e-12)  # 0.5 m2 times 5 mm


def test_upright_plates_keep_the_crest_unless_notched():
    areas = np.array([0.2, 0.2, 0.1])
    kept = volumes.air_under_plates(areas, False, 0.3, 1.2, notched=False)
    assert 0.0 < kept < volumes.air_under_plates(areas, True, 0.3, 1.2, notched=False)
    assert volumes.air_under_plates(areas, False, 0.3, 1.2, notched=True) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: volumes.strokes(1e-3, 0.0),
        lambda: volumes.strokes(1e-3, 40e-6, efficiency=0.0),
        lambda: volumes.pumping_time(1e-3, 0.0),
    ],
)
def test_a_pump_that_delivers_nothing_is_refused(call):
    with pytest.raises(InputError):
        call()

"""Tape readings against closed forms and the package uncertainties (independent)."""

import numpy as np
import pytest

from stretchform.water import tape
from stretchform.water.tape import TapeErrors

MM = 1e-3
BEFORE, AFTER, THICK = 1895.17 * MM, 1989.85 * MM, 0.25 * MM


def test_outside_diameter_of_a_wrap():
    # printed digits
    assert tape.outside_diameter(BEFORE, THICK) / MM == pytest.approx(603.0013, abs=6e-5)


def test_stretch_of_a_tape_under_its_pull():
    ours = tape.stretch(22.24, 6.35 * MM, 0.25 * MM, 200e9)
    # printed digits
    assert ours == pytest.approx(7.005e-5, abs=6e-9)
    assert ours * BEFORE / MM == pytest.approx(0.133, abs=6e-4)


@pytest.mark.parametrize(
    ("friction", "one", "both"), [(0.1, 0.74, 0.86), (0.2, 0.5693, 0.7425), (0.3, 0.45, 0.65)]
)
def test_friction_lowers_the_mean_pull(friction, one, both):
    # printed to two digits, the middle case to four
    assert tape.mean_pull(friction, False) == pytest.approx(one, abs=6e-3)
    assert tape.mean_pull(friction, True) == pytest.approx(both, abs=6e-3)
    assert tape.mean_pull(0.2, False) == pytest.approx(0.5693, abs=6e-5)
    assert tape.mean_pull(0.2, True) == pytest.approx(0.7425, abs=6e-5)


def test_without_friction_the_pull_is_the_same_all_round():
    assert tape.mean_pull(0.0, False) == 1.0


def test_a_skewed_tape_reads_too_much():
    assert tape.skew(BEFORE, 10 * MM) / MM == pytest.approx(0.026, abs=6e-4)  # digits


@pytest.mark.parametrize(("tape_warmth", "excess"), [(20.0, 0.097), (30.0, 0.027)])
def test_ten_kelvin_of_warmth_in_diameter(tape_warmth, excess):
    reading = BEFORE
    true = tape.at_reference(reading, tape_warmth, 30.0, 11.5e-6, 16e-6)
    # printed digits
    assert (reading - true) / np.pi / MM == pytest.approx(excess, abs=6e-4)


@pytest.mark.parametrize(("single", "printed"), [(0.1, 7.7e-5), (0.577, 4.4e-4)])
def test_growth_and_its_uncertainty_from_two_readings(single, printed):
    errors = TapeErrors(before=single * MM, after=single * MM)
    # printed digits
    assert tape.growth(BEFORE, AFTER, THICK) == pytest.approx(0.04998, abs=6e-6)
    ours = tape.growth_uncertainty(BEFORE, AFTER, THICK, errors)
    assert ours == pytest.approx(printed, rel=0.01)


BUDGET = TapeErrors(
    before=0.3 * MM,
    after=0.3 * MM,
    thickness=0.01 * MM,
    pull=2e-5,
    skew=0.06 * MM,
    temperature=1.0,
    scale=2e-4,
)


def test_full_budget_of_a_growth():
    ours = tape.growth_uncertainty(BEFORE, AFTER, THICK, BUDGET)
    # printed to three digits, made with tape 11.5e-6 and tank 16e-6 per kelvin
    assert ours == pytest.approx(2.36e-4, abs=1e-6)


def test_budget_equals_linear_propagation_by_another_program():
    uncertainties = pytest.importorskip("uncertainties")
    made = uncertainties.ufloat
    thick, scale = made(THICK, BUDGET.thickness), made(1.0, BUDGET.scale)

    def reading(value, alone):
        along = 1 + made(0.0, BUDGET.pull) + made(0.0, BUDGET.temperature) * 4.5e-6
        return (value + made(0.0, alone) + made(0.0, BUDGET.skew)) * along * scale

    before, after = reading(BEFORE, BUDGET.before), reading(AFTER, BUDGET.after)
    theirs = (after - np.pi * thick) / (before - np.pi * thick) - 1
    ours = tape.growth_uncertainty(BEFORE, AFTER, THICK, BUDGET)
    # one common reading of tape and wall apart by second order
    assert ours == pytest.approx(theirs.std_dev, rel=1e-3)

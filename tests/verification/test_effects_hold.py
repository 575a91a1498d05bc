"""Growth in a hold, plastic work and warming against direct integration and closed forms."""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from stretchform.errors import NoSolution
from stretchform.steel.curve import Hollomon, Ludwigson
from stretchform.steel.effects import (
    HOLD_END_RATE,
    HoldPrior,
    adiabatic_rise,
    hold_growth,
    hold_time,
    net_hardening,
    plastic_work,
)

MPA = 1e6
PAIR = Hollomon(1400 * MPA, 0.44)
LAW = Ludwigson(1391.478 * MPA, 0.48019, 5.15572 + np.log(MPA), -17.80384)


def test_hold_growth_solves_the_rate_law_at_constant_pressure():
    stress, theta, rate, time = 4.5 * MPA, 1700 * MPA, 1e-4, 3600.0
    # S ln(rate / r0) + theta x = 0: the hardening won is the rate lost
    solved = solve_ivp(
        lambda _, x: rate * np.exp(-theta * x / stress),
        (0, time),
        [0.0],
        rtol=1e-10,
        atol=1e-14,
    )
    # 1e-7 is the tolerance of the integrator over its steps
    assert hold_growth(stress, theta, rate, time) == pytest.approx(solved.y[0, -1], rel=1e-7)
    assert hold_growth(stress, theta, rate, time) == pytest.approx(0.0130235, abs=1e-7)


def test_hold_time_is_when_growth_has_slowed_to_the_rate_asked_for():
    reach, first = 0.0012, 1e-4
    time = hold_time(reach, first, HOLD_END_RATE)
    step = 1.0
    later = hold_growth(reach, 1.0, first, time + step) - hold_growth(reach, 1.0, first, time)
    assert later / step == pytest.approx(
        HOLD_END_RATE, rel=1e-3
    )  # a difference over one second


def test_the_prior_of_a_hold_ends_within_the_hours_that_shops_use():
    prior = HoldPrior()
    hours = [hold_time(r, 1e-4, HOLD_END_RATE) / 3600 for r in (prior.low, prior.high)]
    assert 0.3 < hours[0] < 1.0 < hours[1] < 4.0  # practice: about an hour


def test_a_wall_that_softens_faster_than_it_hardens_runs_away():
    strain = 0.30  # beyond n / sqrt(3) = 0.254 of this pair
    assert net_hardening(PAIR, strain) < 0.0
    with pytest.raises(NoSolution, match="does not die out"):
        hold_growth(4.5 * MPA, net_hardening(PAIR, strain), 1e-4, 3600.0)


def test_net_hardening_vanishes_at_the_maximum_pressure_of_a_closed_cylinder():
    at = 0.44 / np.sqrt(3.0)
    # relative to the stress: rounding only
    assert net_hardening(PAIR, at) == pytest.approx(0.0, abs=1e-9 * PAIR.stress(at))
    assert net_hardening(LAW, 0.10) / MPA == pytest.approx(842.7, abs=0.2)  # one digit printed


@pytest.mark.parametrize("strain", [0.01, 0.10, 0.30])
def test_plastic_work_equals_the_integral(strain):
    exact = 1400 * MPA * strain**1.44 / 1.44
    assert plastic_work(PAIR, strain) == pytest.approx(exact, rel=1e-6)  # 40 Gauss points
    numeric, _ = quad(LAW.stress, 0.0, strain, epsrel=1e-10)
    assert plastic_work(LAW, strain) == pytest.approx(numeric, rel=1e-6)


def test_adiabatic_rise_of_the_textbook_pair_at_10_per_cent():
    work = plastic_work(PAIR, 0.10)
    assert work / MPA == pytest.approx(35.2993, abs=1e-3)
    assert adiabatic_rise(work, 7900.0, 500.0) == pytest.approx(8.043, abs=1e-3)

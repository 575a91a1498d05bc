"""Relief, hose, heights and reaction times on simple cases; the power-law tank is invented."""

import numpy as np
import pytest

from stretchform.errors import InputError, NoSolution
from stretchform.water import drift, supply, volumes

STRAINS = np.linspace(1e-4, 0.225, 4001)
ROOT = 2.0 / np.sqrt(3.0)
PRESSURES = ROOT * 1400e6 * (ROOT * STRAINS) ** 0.45 * 0.005 * np.exp(-2 * STRAINS)
GROWTH_AT = supply.growth_along(PRESSURES, np.expm1(STRAINS))


def test_a_relief_valve_set_to_the_plan_lets_five_per_cent_become_more():
    planned = 2.00932e6
    assert GROWTH_AT(planned) == pytest.approx(0.05, abs=1e-5)  # grid of 4001 points
    allowed = supply.growth_at_relief(planned, GROWTH_AT)
    assert allowed == pytest.approx(0.067, abs=6e-4)  # printed digits


def test_a_valve_set_near_the_maximum_pressure_protects_nothing():
    assert np.isnan(supply.growth_at_relief(2.75e6, GROWTH_AT))
    many = supply.growth_at_relief(np.array([1.8e6, 2.75e6]), GROWTH_AT)
    assert np.isfinite(many[0]) and np.isnan(many[1])


def test_a_curve_past_its_maximum_is_refused():
    with pytest.raises(InputError):
        supply.growth_along(np.array([1.0, 2.0, 1.5]), np.array([0.01, 0.02, 0.03]))


def test_a_gauge_below_shows_more_and_one_above_less():
    below = supply.gauge_reading(2e6, point_height=1.2, gauge_height=0.0, temperature=20.0)
    above = supply.gauge_reading(2e6, point_height=0.0, gauge_height=1.2, temperature=20.0)
    assert below > 2e6 > above
    assert below + above == pytest.approx(4e6, rel=1e-12)  # equal columns


def test_relief_capacity_against_the_pump():
    # 5 mm bore at 2 MPa, sharp edge: 0.6 * 19.63 mm2 * 63.30 m/s = 0.7457 L/s
    flow = supply.orifice_flow(np.pi / 4 * 0.005**2, 2e6, 20.0)
    assert flow * 1e3 == pytest.approx(0.7457, abs=1e-4)  # product of rounded figures
    assert supply.relief_share(flow, 10e-3 / 60) > 1.0
    with pytest.raises(InputError):
        supply.relief_share(flow, 0.0)


def test_ten_minutes_for_five_per_cent_leave_less_than_a_tenth_in_ten_seconds():
    volume = 0.34
    flow = volumes.course_gain(volume, 0.05) / 600.0
    assert supply.growth_in_reaction(flow, 10.0, volume) < 1e-3


def test_a_stiff_pipe_takes_only_its_squeezed_water():
    hose = supply.hose_compliance(3.0, 6e-3, 0.0, 20.0)
    inside = np.pi / 4 * 0.006**2 * 3.0
    assert hose == pytest.approx(volumes.compliance(inside, 20.0, 0.0, 0.0), rel=1e-12)
    assert supply.hose_compliance(3.0, 6e-3, 1e-9, 20.0) > hose
    with pytest.raises(InputError):
        supply.hose_compliance(-1.0, 6e-3, 0.0, 20.0)


def test_no_still_temperature_for_a_wall_that_swells_too_much():
    with pytest.raises(NoSolution):
        drift.still_temperature(0.0, 200e-6)

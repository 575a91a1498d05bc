"""The water of the job: volumes, air under plates, drift, draining."""

from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import filling, forecast, outcome, size
from stretchform.planning.tank import Attitude
from stretchform.water import collapse, drift, volumes

JOB = jobs.job()


@cache
def plan():
    made = forecast.forecast(JOB, jobs.JUDGED, quick=True)
    forming = outcome.forming_band(made)
    stations = outcome.stations(JOB, made)
    found = filling.water_plan(JOB, jobs.JUDGED, made, forming, stations)
    return found, forming, stations


def test_water_plan_holds_more_after_forming_than_before():
    found, _, _ = plan()
    before = size.volume(JOB.tank)
    assert found.volume_before == before
    assert found.volume_after.low > 1.05 * before  # 5 % of growth, courses counted whole
    gain = found.volume_after.likely - before
    # what is pumped in is the gain and what comes back: medians of nearly constant sums
    assert found.in_total.likely == pytest.approx(gain + found.returned.likely, rel=2e-3)
    assert found.upper_bound


def test_filled_mass_is_water_and_metal():
    found, _, _ = plan()
    metal = 7900.0 * (size.shell_metal(JOB.tank) + size.head_metal(JOB.tank))
    by_hand = 998.2 * size.volume(JOB.tank) + metal
    assert found.filled_mass == pytest.approx(by_hand, rel=2e-3)  # densities of 7.9 to 8.0


def test_collapse_pressure_uses_formed_sizes():
    found, _, stations = plan()
    growth = max(item.growth_released.likely for item in stations)
    assert found.collapse == filling.collapse_pressure(JOB, growth)
    course = JOB.tank.courses[0]
    by_hand = collapse.collapse_pressure(
        2.0 * course.radius * (1.0 + growth),
        course.wall / (1.0 + growth),
        3.0,
        course.steel.youngs_modulus.value,
        course.steel.poisson_ratio.value,
    )
    assert found.collapse == pytest.approx(by_hand, rel=1e-12)
    assert found.collapse < filling.collapse_pressure(JOB, 0.0)
    stub = jobs.job(courses=[jobs.course(length=0.01)], stations=())
    assert filling.collapse_pressure(stub, 0.0) is None


def test_drift_is_that_of_the_formed_elastic_tank():
    found, forming, stations = plan()
    course = JOB.tank.courses[0]
    grown = 1.0 + max(item.growth_released.likely for item in stations)
    steel = course.steel
    swelling = volumes.swelling(
        course.radius * grown,
        course.wall / grown,
        steel.youngs_modulus.value,
        steel.poisson_ratio.value,
    )
    expansion = steel.thermal_expansion.value
    by_hand = drift.per_kelvin(20.0, forming.likely, swelling, expansion)
    assert found.drift == pytest.approx(by_hand, rel=1e-12)


def test_air_under_plates_is_a_film_under_level_ones_and_the_crest_under_upright_ones():
    ring = jobs.plate(heights=(1.0, 1.7))
    standing = filling.air_under_plates(jobs.job(plates=(ring,)))
    outer = 0.321 - 0.001 - 0.001  # bore, less the tab clearance
    area = np.pi * (outer**2 - (outer - 0.06) ** 2)
    assert standing == pytest.approx(2.0 * area * volumes.AIR_FILM, rel=1e-9)
    lying = jobs.job(plates=(ring,), attitude=Attitude.LYING)
    crest = volumes.segment(0.32, volumes.AIR_FILM) * lying.tank.length
    assert filling.air_under_plates(lying) == pytest.approx(float(crest), rel=1e-9)
    assert filling.air_under_plates(JOB) == 0.0

"""Whole plans: what belongs together in them, and how they answer a change of the job."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.errors import NoSolution
from stretchform.files.steels import load_steel
from stretchform.planning import build, places, size
from stretchform.planning.job import Gauge, Limits, Model, Target, TargetKind, Water
from stretchform.planning.tank import Attitude, Station
from stretchform.steel.curve import Hollomon

RING = jobs.plate("ring", heights=(0.5, 1.0, 1.7))


@cache
def plan():
    return jobs.plan(jobs.job(plates=(RING,)))


def plan_of(**fields):
    return jobs.plan(jobs.job(**fields))


def course_with(curve, name="lower"):
    return jobs.course(name, steel=replace(jobs.steel(), curve=curve))


def test_low_likely_and_high_are_in_order():
    made = plan()
    bands = [made.forming_pressure, made.maximum_pressure]
    for station in made.stations:
        bands += [station.growth_released, station.growth_under_pressure, station.gained_yield]
    for band in bands:
        assert band.low <= band.likely <= band.high
    assert made.forming_pressure.likely < made.maximum_pressure.likely


def test_the_target_is_reported_as_a_growth_of_the_outside():
    assert plan().target_growth == 0.05
    wider = Target(TargetKind.OUTSIDE_DIAMETER, 0.644 * 1.04, False, "largest")
    assert plan_of(target=wider).target_growth == pytest.approx(0.04, rel=1e-12)  # rounding


def test_the_sensitivity_is_the_slope_of_growth_against_the_logarithm_of_pressure():
    found = plan_of(model=Model(spread=False))
    curve = found.growth
    pressure = found.forming_pressure.likely
    low, high = np.interp(
        [0.99 * pressure, 1.01 * pressure], curve.pressure, curve.released_likely
    )
    # points of growth for 1 % of pressure; straight lines between 49 levels leave some per cent
    assert found.points_per_per_cent == pytest.approx((high - low) / 0.02, rel=0.1)
    assert 0.1 < found.points_per_per_cent < 1.0


def test_the_growth_curve_rises_and_passes_the_target_at_the_likely_pressure():
    curve, pressure = plan().growth, plan().forming_pressure.likely
    likely = curve.released_likely
    assert np.all(np.diff(likely[np.isfinite(likely)]) >= 0.0)
    assert np.all(curve.released_low <= likely) and np.all(likely <= curve.released_high)
    # straight lines between 49 levels
    assert np.interp(pressure, curve.pressure, likely) == pytest.approx(0.05, rel=0.03)


def test_a_target_under_pressure_takes_less_than_the_same_one_released():
    calm = Model(spread=False)
    released = plan_of(model=calm)
    under = plan_of(model=calm, target=jobs.growth(0.05, under_pressure=True))
    station = released.stations[0]
    springback = station.growth_under_pressure.likely - station.growth_released.likely
    assert 0.002 < springback < 0.003
    step = springback / released.points_per_per_cent
    ratio = released.forming_pressure.likely / under.forming_pressure.likely - 1.0
    assert ratio == pytest.approx(step, rel=0.1)  # the slope changes by so much over the step


def test_the_growth_limit_is_a_point_over_the_target_or_as_the_job_says():
    before = 2.0 * np.pi * 0.322
    stop = plan().steps[0].stations[0].stop_above / before - 1.0
    assert 0.061 < stop < 0.064  # 5 % and one point, and the springback under pressure
    limits = Limits(0.9, 0.4, 0.6, growth=0.055)
    own = plan_of(limits=limits).steps[0].stations[0].stop_above / before - 1.0
    assert stop - own == pytest.approx(0.005, abs=1e-9)  # differences of sizes near 2 m


def test_the_gauge_reads_the_water_above_it():
    gauge = Gauge(6e6, 0.6, 0.0)
    step = plan_of(gauge=gauge).steps[-1]
    top = size.top_height(jobs.tank())
    assert step.gauge_reading - step.pressure == pytest.approx(9789.0 * top, rel=1e-4)  # 20 °C
    lying = plan_of(gauge=gauge, attitude=Attitude.LYING).steps[-1]
    assert lying.gauge_reading == lying.pressure
    without = plan().steps[-1]
    assert without.gauge_reading == without.pressure


def test_the_fingerprint_changes_with_a_number_and_not_with_the_run():
    first = build.fingerprint(jobs.job())
    assert first == build.fingerprint(jobs.job()) == plan_of().fingerprint
    assert len(first) == 16
    nudged = jobs.job(target=jobs.growth(0.0500000001))
    other_steel = jobs.job(courses=[jobs.course(steel=jobs.steel(certificate=jobs.WEAK_COIL))])
    seed = jobs.job(model=Model(seed=2))
    one = jobs.job(courses=[jobs.course()])
    prints = [first] + [build.fingerprint(job) for job in (nudged, other_steel, seed, one)]
    assert len(set(prints)) == 5


def test_the_same_job_gives_the_same_plan():
    assert plan_of(plates=(RING,)).forming_pressure == plan().forming_pressure
    assert plan_of(plates=(RING,)).steps == plan().steps


def test_more_air_never_stores_less():
    energies = [
        plan_of(water=Water(air=air)).hazard.stored.recoverable for air in (0.0, 0.002, 0.01)
    ]
    assert energies == sorted(energies) and energies[0] < energies[-1]


def test_the_danger_counts_from_the_high_side():
    danger = plan().hazard
    assert danger.pressure == plan().forming_pressure.high
    growth = plan().stations[0].growth_under_pressure.high
    thrust = np.pi * (0.321 * (1.0 + growth)) ** 2 * danger.pressure
    assert danger.end_thrust == pytest.approx(thrust, rel=1e-3)  # stations differ by the water
    assert danger.stored.gas_instead > 50.0 * danger.stored.recoverable
    # relief 2.75 MPa lies below the high forming pressure
    assert 0.0 < danger.energy_at_relief < danger.stored.recoverable
    silent = replace(jobs.PUMP, relief_pressure=None)
    assert plan_of(supply=silent).hazard.energy_at_relief is None


def test_water_and_mass_of_the_filled_tank():
    water = plan().water
    volume = size.volume(jobs.tank())
    assert water.volume_before == volume
    metal = 7900.0 * (2.0 * np.pi * 0.321 * 0.002 * 3.0 + size.head_metal(jobs.tank()))
    assert water.filled_mass == pytest.approx(998.2 * volume + metal, rel=1e-4)  # 20 °C
    assert 0.0 < water.air_limit <= 0.002 * volume


def test_the_wall_at_a_plate_travels_by_radius_times_growth():
    edge = [Station("edge", 0.025, "lower")]
    found = plan_of(stations=edge, plates=(RING,))
    high = found.stations[0].growth_under_pressure.high
    stop = found.steps[-1].stations[0].stop_above / found.stations[0].circumference_before - 1.0
    growth = max(high, stop / 1.1)  # room up to the stop value, a tenth of it as tolerance
    outer, inner = 0.322, 0.320
    moved = np.sqrt((outer * (1.0 + growth)) ** 2 - (outer**2 - inner**2)) - inner
    first, second, _ = found.plates
    # the plates take mid-wall for inside in places: half a wall of 160
    assert first.result.travel_under_pressure == pytest.approx(moved, rel=4e-3)
    assert first.result == second.result  # one course, one size
    assert [one.height for one in found.plates] == [0.5, 1.0, 1.7]
    assert [one.near_head for one in found.plates] == [False, False, False]


@pytest.mark.parametrize(
    ("height", "index"), [(0.0, 0), (0.025, 0), (1.524, 0), (1.526, 1), (3.02, 1), (3.05, 1)]
)
def test_a_plate_stands_in_the_course_at_its_height(height, index):
    assert places.course_at(jobs.job(), height) == index  # joint at 1.525 m, end at 3.025 m


def test_plates_in_courses_of_two_walls_are_sized_apart():
    pair = [jobs.course(), jobs.course("upper", wall=2.4e-3)]
    found = plan_of(courses=pair, plates=(RING,)).plates
    assert found[0].result == found[1].result  # one course
    assert found[2].result.travel_under_pressure < 0.5 * found[0].result.travel_under_pressure


@pytest.mark.parametrize(
    ("limit", "start", "growth", "words"),
    [(0.04, 0.0, 0.05, "curve ends at 4.0 %"), (0.5, 0.03, 0.02, "holds only above 3.0 %")],
)
def test_a_target_outside_the_curve_is_refused(limit, start, growth, words):
    curve = Hollomon(1275e6, 0.45, strain_start=start, strain_limit=limit)  # a handbook pair
    with pytest.raises(NoSolution, match=words):
        plan_of(courses=[course_with(curve)], target=jobs.growth(growth))


def test_the_same_curve_serves_a_target_within_it():
    curve = Hollomon(1275e6, 0.45, strain_start=0.03, strain_limit=0.5)
    assert plan_of(courses=[course_with(curve)]).no_answer == 0.0


def test_a_target_beyond_the_maximum_is_withheld_and_not_a_crash():
    """The curve goes on, the pressure does not: no draw has an answer."""
    soft = Hollomon(900e6, 0.12, strain_limit=0.5)  # maximum at a hoop strain of 0.06
    found = plan_of(
        courses=[course_with(soft)],
        target=jobs.growth(0.15),
        plates=(jobs.plate(heights=(0.7,)),),
    )
    assert found.no_answer == 1.0
    assert "target_beyond_maximum" in found.withheld_by
    assert found.share_of_pressure == 1.0
    assert found.forming_pressure == found.maximum_pressure
    assert np.isfinite(found.hazard.stored.recoverable)


def test_a_named_station_may_lie_in_the_stronger_course():
    stations = [Station("weak", 0.8, "lower"), Station("strong", 2.2, "upper")]
    pair = [jobs.course(), jobs.course("upper", wall=2.2e-3)]
    found = plan_of(courses=pair, stations=stations, target=jobs.growth(0.02, station="strong"))
    weak, strong = found.stations
    assert strong.growth_released.likely == pytest.approx(0.02, rel=1e-6)  # the target itself
    assert weak.growth_released.likely > 0.035
    chances = [step.chance_over_target for step in found.steps]
    # 95 % at the high pressure; the low maximum of the weak course ends the steps before
    assert 0.5 < chances[-1] <= 0.96


def test_without_spread_all_three_figures_are_one():
    found = plan_of(model=Model(spread=False))
    band = found.forming_pressure
    assert band.low == band.likely == band.high
    assert "no_spread" in {caution.code for caution in found.cautions}


def test_block_cautions_withhold_until_accepted():
    stable = load_steel("1.4404", jobs.COIL, "tests", jobs.JUDGED)  # no wider in cold water
    cold = {
        "water": Water(temperature=3.0, chloride=0.0),
        "courses": [jobs.course(steel=stable)],
    }
    assert plan_of(**cold).withheld_by == ("cold_water",)
    accepted = {"cold_water": "trial ring formed cold, foreman, 2025-01-01"}
    assert plan_of(**cold, accepted=accepted).withheld_by == ()

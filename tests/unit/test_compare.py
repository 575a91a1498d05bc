"""Tape readings beside the forecast."""

from dataclasses import replace
from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.errors import InputError
from stretchform.planning import compare, outcome
from stretchform.planning.compare import Reading
from stretchform.planning.job import Model, Tape, Water
from stretchform.planning.tank import HeadShape, Station

BARE = Tape(kind="diameter")  # its scale allows for the thickness
STATIONS = [Station("end", 0.2, "lower"), Station("middle", 0.8, "lower")]
JOB = jobs.job(tape=BARE, stations=[*STATIONS, Station("high", 2.0, "upper")])
NOMINAL = 2.0 * np.pi * 0.322


@cache
def planned():
    made = jobs.closed(JOB)
    return {one.name: one for one in outcome.stations(JOB, made)}


def reading(station="middle", before=NOMINAL, loaded=None, released=None, line=2):
    return Reading(station, before, loaded, released, line)


def rows(*readings, job=JOB, **more):
    return compared(*readings, job=job, **more).rows


def compared(*readings, job=JOB, **more):
    return compare.compare(job, jobs.JUDGED, readings, **{"quick": True, **more})


def test_a_tank_that_follows_the_forecast_differs_by_nothing():
    one = planned()["middle"]
    found = rows(
        reading(
            loaded=one.circumference_under_pressure.likely,
            released=one.circumference_released.likely,
        )
    )
    assert [row.quantity for row in found] == ["under pressure", "released"]
    for row in found:
        assert row.difference == pytest.approx(0.0, abs=1e-12)  # rounding of 2 m
        assert row.ratio == pytest.approx(0.0, abs=1e-6)  # over an uncertainty of 1e-4 and more
        assert row.measured_growth == pytest.approx(row.predicted_growth.likely, rel=1e-9)


def test_a_tank_that_does_not_is_told_by_how_many_uncertainties():
    likely = planned()["middle"].growth_released.likely
    row = rows(reading(released=NOMINAL * (1.0 + likely - 0.02)))[0]
    assert row.difference == pytest.approx(-0.02, rel=1e-9)  # rounding of 2 m
    band = row.predicted_growth
    spread = (band.high - band.low) / (2.0 * 1.6449)
    tape = compare.growth_uncertainty(JOB, NOMINAL, row.measured_growth)
    assert row.uncertainty == pytest.approx(np.hypot(spread, tape), rel=1e-12)
    assert row.ratio == pytest.approx(row.difference / row.uncertainty, rel=1e-12)


def test_at_a_stated_pressure_the_forecast_is_taken_there():
    low = 0.95 * outcome.forming_band(jobs.closed(JOB)).likely
    found = compared(reading(released=NOMINAL * 1.03), pressure=low)
    at_target = rows(reading(released=NOMINAL * 1.03))[0].predicted_growth.likely
    assert found.pressure == low
    assert found.rows[0].predicted_growth.likely < at_target - 0.005


def test_thickness_and_temperature_are_taken_off_by_hand():
    job = jobs.job(
        tape=Tape(thickness=0.25e-3, expansion=11.5e-6), water=Water(temperature=8.0)
    )
    course = job.tank.courses[0]
    tank_expansion = course.steel.thermal_expansion.value
    length = 2.1 * (1.0 - 12.0 * 11.5e-6) - np.pi * 0.25e-3
    by_hand = length / (1.0 - 12.0 * tank_expansion)
    assert compare.true_circumference(job, course, 2.1) == pytest.approx(by_hand, rel=1e-12)
    scaled = replace(job, tape=replace(job.tape, kind="diameter"))
    bare = 2.1 * (1.0 - 12.0 * 11.5e-6) / (1.0 - 12.0 * tank_expansion)
    assert compare.true_circumference(scaled, course, 2.1) == pytest.approx(bare, rel=1e-12)


def test_the_uncertainty_of_a_growth_by_hand():
    job = jobs.job(tape=Tape(resolution=1e-3))
    single = np.sqrt((1e-3) ** 2 / 3.0 + (0.06e-3) ** 2 + (2e-5 * 2.0) ** 2)
    by_hand = single * np.sqrt(1.0 + 1.05**2) / 2.0
    assert compare.growth_uncertainty(job, 2.0, 0.05) == pytest.approx(by_hand, rel=1e-12)


def test_a_station_near_a_head_is_shown_but_not_judged():
    found = compared(reading("end", released=NOMINAL * 1.02))
    assert found.near_head == ("end",)
    assert found.rows[0].ratio is None
    assert found.rows[0].difference < -0.02


def test_the_whole_tank_judges_a_station_near_a_head_too():
    """The heads hold the wall back there: less growth is forecast, and it is judged."""
    calm = replace(JOB, model=Model(spread=False))
    near = reading("end", released=NOMINAL * 1.03)
    whole = compared(near, job=calm, quick=False)
    alone = compared(near, job=calm).rows[0]
    assert whole.near_head == ()
    assert whole.rows[0].ratio is not None
    assert whole.rows[0].predicted_growth.likely < alone.predicted_growth.likely - 0.002


def test_stations_without_a_reading_are_listed():
    found = compared(reading(released=NOMINAL * 1.05))
    assert found.missing == ("end", "high")


def test_without_a_reading_before_the_nominal_size_counts():
    row = rows(reading(before=None, released=NOMINAL * 1.05))[0]
    assert row.before == pytest.approx(NOMINAL, rel=1e-12)
    assert row.measured_growth == pytest.approx(0.05, rel=1e-12)


def test_the_wall_left_keeps_its_volume():
    row = rows(reading(released=NOMINAL * 1.05))[0]
    outer, inner = 0.322, 0.320
    grown = outer * 1.05
    left = grown - np.sqrt(grown**2 - (outer**2 - inner**2))
    # the exact wall of a grown ring; the mid-wall formula is good to (t/r)², 4e-5
    assert row.wall == pytest.approx(left, rel=1e-4)


def test_the_wall_of_an_open_cylinder_thins_by_half():
    tied = jobs.head(HeadShape.TIED)
    job = jobs.job(tape=BARE, stations=STATIONS, bottom=tied, top=tied)
    row = rows(reading(released=NOMINAL * 1.05), job=job)[0]
    # wall strain is half the hoop strain; mid-wall for outside grows 0.15 % of the growth more
    assert row.wall == pytest.approx(2e-3 / np.sqrt(1.05), rel=2e-4)


def test_gained_yield_follows_the_growth_that_was_measured():
    small, large = (rows(reading(released=NOMINAL * (1 + g)))[0] for g in (0.02, 0.06))
    assert small.gained_yield.likely < large.gained_yield.likely
    target = planned()["middle"]
    same = rows(reading(released=target.circumference_released.likely))[0].gained_yield
    # there every draw is at its own target, here all at one growth: the same to a per cent
    assert same.likely == pytest.approx(target.gained_yield.likely, rel=0.01)


@pytest.mark.parametrize("growth", [-0.01, 0.0, 0.0005])
def test_a_tank_that_did_not_grow_is_shown_with_its_first_wall(growth):
    row = rows(reading(released=NOMINAL * (1.0 + growth)))[0]
    assert row.measured_growth == pytest.approx(growth, abs=1e-12)
    assert row.wall == pytest.approx(2e-3, rel=6e-4)  # a growth of 0.05 % thins that much
    assert row.gained_yield.likely > 100e6


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (reading("nowhere", released=2.1), "line 2.*no such station"),
        (reading(released=0.65), "cannot be"),  # a diameter
        (reading(before=0.644), "cannot be"),
        (reading(loaded=2.71), "cannot be"),  # one third too long
        (reading(released=float("nan")), "cannot be"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_with_its_line(wrong, words):
    with pytest.raises(InputError, match=words):
        rows(wrong)


def test_a_stated_pressure_tells_the_strength_without_any_curve():
    station = planned()["middle"]
    pressure = jobs.closed(JOB).pressures[20]
    loaded = station.circumference_under_pressure.likely
    (row,) = rows(reading(loaded=loaded), pressure=pressure)
    growth = loaded / NOMINAL - 1.0
    wall = 2e-3 * np.exp(-np.log1p(growth))  # no change of length, elastic part left out
    radius = loaded / (2.0 * np.pi) - 0.5 * wall
    head = 998.0 * 9.81 * (3.05 - 0.8)  # water above the station; with flanges of 25 mm
    hoop = (pressure + head) * radius / wall
    by_hand = hoop / jobs.JUDGED.criterion.high.value
    gained = row.gained_from_pressure
    # elastic thinning 0.1 %, walls of the draws lie evenly about the nominal one
    assert gained.high == pytest.approx(by_hand * jobs.JUDGED.gained.high.value, rel=3e-3)
    assert gained.low / gained.high == pytest.approx(0.88, rel=1e-6)  # judged factors


def test_no_pressure_no_strength_from_it_and_none_near_a_head():
    loaded = planned()["middle"].circumference_under_pressure.likely
    assert rows(reading(loaded=loaded))[0].gained_from_pressure is None
    (near,) = rows(reading("end", loaded=NOMINAL * 1.03), pressure=2e6)
    assert near.gained_from_pressure is None


def test_with_tied_ends_no_criterion_stands_between_hoop_stress_and_strength():
    job = jobs.job(
        tape=BARE,
        stations=STATIONS,
        bottom=jobs.head(HeadShape.TIED, flange=0.0),
        top=jobs.head(HeadShape.TIED, flange=0.0),
    )
    (tied,) = rows(reading(loaded=NOMINAL * 1.05), job=job, pressure=2e6)
    (closed,) = rows(reading(loaded=NOMINAL * 1.05), pressure=2e6)
    share = closed.gained_from_pressure.likely / tied.gained_from_pressure.likely
    # a closed tank thins more (no change of length) and C divides: both within 3 %
    thinning = np.exp(0.5 * np.log1p(0.05))
    assert share == pytest.approx(thinning / jobs.JUDGED.criterion.high.value, rel=0.03)

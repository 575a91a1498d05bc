"""A curve on its way to the wall: speed, water, martensite; and the draws of trial steels."""

from dataclasses import replace

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.files.steels import load_steel
from stretchform.planning import conditions, sample
from stretchform.planning.job import Model, Water
from stretchform.steel.grade import Basis, Certificate, TrialJoint
from stretchform.steel.properties import blackburn_304

LEAN = {"C": 0.02, "N": 0.03, "Si": 0.4, "Mn": 1.2, "Cr": 18.0, "Ni": 8.0}  # invented
PAPER = Certificate(295e6, 650e6, analysis=LEAN)
# invented: strength and C bound as one cylinder leaves them, their product known to 1.5 %
SPREADS, BOND = np.array([0.030, 0.08, 0.028]), -0.87
LIKENESS = np.array([[1.0, 0.0, BOND], [0.0, 1.0, 0.0], [BOND, 0.0, 1.0]])
JOINT = TrialJoint(0.90, 1.05, 1.10, np.outer(SPREADS, SPREADS) * LIKENESS)
LIKELY_RATE = jobs.JUDGED.rate.likely.value


def trial_steel(joint=JOINT):
    return replace(jobs.steel(), key="own", basis=Basis.TRIAL, joint=joint)


def draws(*steels, **fields):
    courses = [
        jobs.course(f"course {index}", steel=one, length=1.5)
        for index, one in enumerate(steels)
    ]
    return sample.draw(jobs.job(courses=courses, **fields), jobs.JUDGED)


@pytest.mark.parametrize(
    ("steel", "water", "expected"),
    [
        (jobs.steel(), 15.0, True),
        (jobs.steel(), 14.0, False),  # 304L without an analysis in cold water
        (load_steel("1.4307", PAPER, "tests", jobs.JUDGED), 20.0, False),  # Md30 is near
        (load_steel("1.4404", Certificate(295e6, 650e6), "tests", jobs.JUDGED), 8.0, True),
        (load_steel("1.4310", Certificate(295e6, 800e6), "tests", jobs.JUDGED), 20.0, False),
        (replace(trial_steel(), transforms=True), 20.0, True),  # it was formed in the water
    ],
)
def test_the_curve_of_a_warm_room_is_covered_or_widened(steel, water, expected):
    assert conditions.covered(steel, water) is expected
    wide = max(steel.strength_half_width, jobs.JUDGED.spread_typical.value)
    found = conditions.half_width(steel, water, jobs.JUDGED)
    assert found == (steel.strength_half_width if expected else wide)


@pytest.mark.parametrize("celsius", [8.0, 30.0, 3.0, 60.0])
def test_water_shifts_the_draws_by_the_temperature_law_and_widens_them(celsius):
    found = draws(jobs.steel(), water=Water(celsius, 20e-6)).warmth
    at = [np.clip(t, 5.0, 40.0) + 273.15 for t in (celsius, 20.0)]
    expected = blackburn_304(at[0]).stress(0.05) / blackburn_304(at[1]).stress(0.05)
    assert np.median(found) == pytest.approx(expected, rel=1e-4)  # 512 places
    assert bool(expected > 1.0) is (celsius < 20.0)
    off = jobs.JUDGED.softening.value * jobs.JUDGED.water_tolerance.value
    half = float(np.hypot(off, 0.02)) * expected
    # 512 places: one per cent of the half-width
    assert np.quantile(found, 0.95) - expected == pytest.approx(half, rel=0.02)


def test_an_uncovered_steel_is_drawn_as_widely_as_typical_values():
    wide = draws(load_steel("1.4307", PAPER, "tests", jobs.JUDGED)).strength
    expected = 1.0 + jobs.JUDGED.spread_typical.value
    assert np.quantile(wide[:, 0], 0.95) == pytest.approx(expected, rel=4e-3)  # 512 places


def test_draws_of_a_trial_keep_its_bond_and_hold_speed_and_water_already():
    found = draws(trial_steel(), water=Water(10.0, 20e-6))
    assert np.ptp(found.rate) == 0.0 and found.rate[0] == LIKELY_RATE
    assert np.median(found.warmth) == pytest.approx(1.0, rel=1e-6)
    bond = np.corrcoef(np.log(found.strength[:, 0]), found.criterion)[0, 1]
    assert bond == pytest.approx(BOND, abs=0.03)  # 512 places, C cut at 1.2
    # strength times C: 0.030² + (0.028/1.1)² + 2 (-0.87) 0.030 (0.028/1.1) = 0.0150²
    product = np.std(np.log(found.strength[:, 0] * found.criterion))
    assert product == pytest.approx(0.0150, rel=0.08)
    assert np.median(found.criterion) == pytest.approx(1.10, rel=2e-3)


def test_courses_of_two_trials_share_their_criterion():
    other = replace(trial_steel(replace(JOINT, criterion=1.12)), proof_02=280e6)
    found = draws(trial_steel(), other)
    for index in range(2):
        bond = np.corrcoef(np.log(found.strength[:, index]), found.criterion)[0, 1]
        assert bond == pytest.approx(BOND, abs=0.05)  # 512 places, C cut at 1.2


def test_in_a_mixed_tank_the_trial_course_is_free_of_judged_speed_and_water():
    found = draws(trial_steel(), jobs.steel(), water=Water(10.0, 20e-6))
    alone = draws(trial_steel(), water=Water(10.0, 20e-6))
    shift = conditions.tank_effect(jobs.job(water=Water(10.0, 20e-6))).likely
    mixed = found.strength[:, 0] * found.rate * shift
    assert np.ptp(found.rate) > 0.0
    held = alone.strength[:, 0] * LIKELY_RATE
    # another column of the lattice: its spread differs by some per cent
    assert np.std(np.log(mixed)) == pytest.approx(np.std(np.log(held)), rel=0.05)
    assert np.median(mixed) == pytest.approx(np.median(held), rel=3e-3)


def test_a_criterion_named_in_the_job_takes_the_strength_that_belongs_to_it():
    found = draws(trial_steel(), model=Model(criterion="mises"))
    free = draws(trial_steel())
    assert np.ptp(found.criterion) == 0.0
    # C of 1.1547 instead of 1.10, 1.95 of its standard deviations: strength falls with the bond
    fall = np.exp(BOND * 0.030 * (2.0 / 3.0**0.5 - 1.10) / 0.028)
    ratio = np.median(found.strength[:, 0]) / np.median(free.strength[:, 0])
    assert ratio == pytest.approx(fall, rel=2e-3)  # 512 places


def test_without_spread_a_trial_gives_its_most_probable_values():
    found = draws(trial_steel(), model=Model(spread=False))
    assert found.criterion[0] == pytest.approx(1.10, rel=1e-12)
    assert found.steepness[0, 0] == pytest.approx(1.0, rel=1e-12)


def test_each_effect_is_shown_with_what_it_does_to_the_flow_stress():
    job = jobs.job(courses=[jobs.course(length=3.0)], water=Water(16.0, 20e-6))
    (found,) = conditions.conditions(job, jobs.JUDGED, 0.05)
    assert [row.code for row in found.stresses] == ["curve", "rate", "temperature"]
    curve, rate, water = found.stresses
    assert curve.high / curve.likely == pytest.approx(1.0 + jobs.steel().strength_half_width)
    assert rate.likely / curve.likely == pytest.approx(LIKELY_RATE)
    shift = conditions.water_effect(jobs.steel(), 16.0)
    assert water.likely / rate.likely == pytest.approx(shift.likely)
    assert water.high / water.likely > rate.high / rate.likely > curve.high / curve.likely


def test_a_trial_leaves_no_spread_to_speed_and_water():
    job = jobs.job(courses=[jobs.course(steel=trial_steel())], water=Water(10.0, 20e-6))
    (found,) = conditions.conditions(job, jobs.JUDGED, 0.05)
    curve, _, water = found.stresses
    assert water.likely / curve.likely == pytest.approx(LIKELY_RATE)
    assert water.high / water.likely == pytest.approx(curve.high / curve.likely)
    assert conditions.tank_effect(job).likely == 1.0
    assert conditions.rate_effect(trial_steel(), jobs.JUDGED).low == LIKELY_RATE

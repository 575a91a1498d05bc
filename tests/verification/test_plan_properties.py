"""What must hold for any plan, whatever the tank: scale, units, cuts, mirrors, and order.

Tanks are invented, steels the shipped ones. The weight of the water knows the true size of a
tank, so properties of scale hold for the pressure at the point that is meant: gauge pressure and
the water above it together.
"""

from dataclasses import replace

import numpy as np
import planning_jobs as jobs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stretchform import units
from stretchform.planning import hazard, outcome, walls
from stretchform.planning.job import Model, Target, TargetKind, Water
from stretchform.planning.tank import Attitude, Station
from stretchform.steel.curve import Scaled
from stretchform.steel.grade import Certificate

MPA = 1e6
COURSE_LENGTHS = ("length", "radius", "wall", "wall_tolerance")
HEAD_LENGTHS = ("wall", "straight_flange", "crown_radius", "knuckle_radius")
ROUNDING = 1e-12  # closed formulas: some dozen roundings
SOLVED = 1e-9  # Newton stops at a relative step of 1e-12; the flat top of p(x) magnifies it

quick = settings(max_examples=15, deadline=None, derandomize=True)  # some 30 ms a case
factors = st.floats(0.05, 20.0)
radii = st.floats(0.1, 1.5)
slenderness = st.floats(20.0, 400.0)  # radius over wall, away from the thick-wall correction
growths = st.floats(0.01, 0.10)
steels = st.sampled_from(["1.4307", "1.4404", "1.4318"])
shrinks = st.floats(0.5, 0.999)


def tank_job(name, radius, slender, growth, under_pressure=False, **fields):
    """One course of six radii, as wide and thin as wanted, of a typical steel."""
    wall = radius / slender
    steel = jobs.steel(name, None)
    one = jobs.course("only", 6.0 * radius, radius, wall, 0.02 * wall, steel=steel)
    target = jobs.growth(growth, under_pressure)
    return jobs.job(**{"courses": [one], "target": target, **fields})


def made(job):
    return jobs.closed(job)


def scaled(thing, names, factor):
    sizes = {name: getattr(thing, name) for name in names}
    return replace(
        thing, **{name: factor(size) for name, size in sizes.items() if size is not None}
    )


def resized(job, factor):
    """The same job with every length passed through a function."""
    tank = job.tank
    return replace(
        job,
        tank=replace(
            tank,
            courses=tuple(scaled(one, COURSE_LENGTHS, factor) for one in tank.courses),
            bottom=scaled(tank.bottom, HEAD_LENGTHS, factor),
            top=scaled(tank.top, HEAD_LENGTHS, factor),
            stations=tuple(scaled(one, ("height",), factor) for one in tank.stations),
        ),
        tape=scaled(job.tape, ("resolution", "thickness", "skew"), factor),
    )


def pressure_at_lower_edge(found):
    return found.target_pressure + found.heads_of_water[-len(found.walls)]


@quick
@given(steels, radii, slenderness, growths, factors)
def test_all_lengths_times_a_factor_leave_pressure_and_growth_unchanged(
    name, radius, slender, growth, factor
):
    first = tank_job(name, radius, slender, growth)
    second = resized(first, lambda size: size * factor)
    small, large = made(first), made(second)
    local = pressure_at_lower_edge(small)
    assert pressure_at_lower_edge(large) == pytest.approx(local, rel=ROUNDING, nan_ok=True)
    grown = [
        walls.growth_at_pressure(found.walls[0], local[:, None])[0] for found in (small, large)
    ]
    assert grown[1] == pytest.approx(grown[0], rel=1e-6, nan_ok=True)  # SOLVED, near the top
    tops = [found.maximum_pressure + found.heads_of_water[-1] for found in (small, large)]
    assert tops[1] == pytest.approx(tops[0], rel=SOLVED)


@pytest.mark.parametrize("factor", [0.1, 3.0, 10.0])
def test_a_whole_lying_plan_scales_but_for_the_weight_of_its_water(factor):
    """Two courses: every point of a lying tank counts the same water, the whole diameter."""
    pair = [jobs.course(), jobs.course("upper", steel=jobs.steel(certificate=jobs.WEAK_COIL))]
    first = jobs.job(courses=pair, attitude=Attitude.LYING)
    plans = [jobs.plan(job) for job in (first, resized(first, lambda x: x * factor))]
    water = 9789.0 * 0.642  # 20 °C, the diameter
    for low, high in zip(
        _figures(plans[0].forming_pressure), _figures(plans[1].forming_pressure), strict=True
    ):
        # the water's density here is good to 1e-4 of its share of some 0.2 % times the factor
        assert high + factor * water == pytest.approx(low + water, rel=1e-5)
    for small, large in zip(plans[0].stations, plans[1].stations, strict=True):
        assert large.growth_released.likely == pytest.approx(
            small.growth_released.likely, rel=1e-6
        )
        assert large.circumference_before == pytest.approx(
            factor * small.circumference_before, rel=ROUNDING
        )


def _figures(band):
    return band.low, band.likely, band.high


def inches(size):
    """A length written in inches with 17 digits and read again."""
    return units.read(f"{units.convert(size, 'in'):.17g} in", "length")


def pounds(pressure):
    """A pressure written in psi with 17 digits and read again."""
    return units.read(f"{units.convert(pressure, 'psi'):.17g} psi", "pressure")


@quick
@given(radii, slenderness, growths, st.booleans())
def test_the_job_in_inches_and_psi_equals_the_job_in_si(radius, slender, growth, loaded):
    def with_coil(job, values):
        steel = jobs.steel("1.4307", Certificate(*values))
        courses = tuple(replace(one, steel=steel) for one in job.tank.courses)
        return replace(job, tank=replace(job.tank, courses=courses))

    strengths = (295 * MPA, 650 * MPA, 325 * MPA)
    metric = tank_job("1.4307", radius, slender, growth, loaded, model=Model(spread=False))
    imperial = with_coil(resized(metric, inches), [pounds(value) for value in strengths])
    metric = with_coil(metric, strengths)
    first, second = made(metric), made(imperial)
    assert second.target_pressure == pytest.approx(first.target_pressure, rel=1e-12)
    assert second.maximum_pressure == pytest.approx(first.maximum_pressure, rel=1e-12)
    sizes = [
        outcome.stations(job, found)[0] for job, found in ((metric, first), (imperial, second))
    ]
    assert sizes[1].circumference_released.likely == pytest.approx(
        sizes[0].circumference_released.likely, rel=1e-12
    )


def test_a_whole_plan_in_inches_and_psi_equals_the_one_in_si():
    metric = jobs.job()
    supply = scaled(metric.supply, ("maximum_pressure", "relief_pressure"), pounds)
    imperial = replace(resized(metric, inches), supply=supply)
    first, second = (jobs.plan(job) for job in (metric, imperial))
    assert _figures(second.forming_pressure) == pytest.approx(
        _figures(first.forming_pressure), rel=1e-12
    )
    assert len(second.steps) == len(first.steps)
    # steps are found by halving to 1e-9 of their span
    assert [step.pressure for step in second.steps] == pytest.approx(
        [step.pressure for step in first.steps], rel=1e-8
    )
    assert [one.code for one in second.cautions] == [one.code for one in first.cautions]


@quick
@given(radii, slenderness, growths, st.floats(0.1, 0.9))
def test_a_course_cut_in_two_changes_nothing(radius, slender, growth, share):
    whole = tank_job("1.4307", radius, slender, growth)
    course = whole.tank.courses[0]
    parts = (
        replace(course, name="below", length=share * course.length),
        replace(course, name="above", length=(1.0 - share) * course.length),
    )
    stations = (replace(whole.tank.stations[0], course="below" if share > 0.5 else "above"),)
    cut = replace(whole, tank=replace(whole.tank, courses=parts, stations=stations))
    first, second = made(whole), made(cut)
    for name in ("target_pressure", "maximum_pressure"):
        assert getattr(second, name) == pytest.approx(
            getattr(first, name), rel=ROUNDING, nan_ok=True
        )
    one, other = (
        outcome.stations(job, found)[0].growth_released
        for job, found in ((whole, first), (cut, second))
    )
    assert _figures(other) == pytest.approx(_figures(one), rel=1e-6)  # as above


def test_another_name_changes_nothing():
    plain = jobs.job()
    courses = tuple(
        replace(one, name=name)
        for one, name in zip(plain.tank.courses, ("zinnia", "aster"), strict=True)
    )
    stations = tuple(
        replace(one, course=name)
        for one, name in zip(plain.tank.stations, ("zinnia", "aster"), strict=True)
    )
    renamed = replace(
        plain, name="other", tank=replace(plain.tank, courses=courses, stations=stations)
    )
    first, second = (jobs.plan(job) for job in (plain, renamed))
    assert second.forming_pressure == first.forming_pressure
    assert [step.pressure for step in second.steps] == [step.pressure for step in first.steps]


def test_a_lying_tank_mirrored_changes_nothing():
    weak = jobs.steel(certificate=jobs.WEAK_COIL)
    stations = (Station("a", 0.9, "lower"), Station("b", 2.2, "upper"))
    pair = (jobs.course(), jobs.course("upper", steel=weak, wall=2.1e-3))
    plain = jobs.job(courses=pair, stations=stations, attitude=Attitude.LYING)
    length = float(plain.tank.length)
    mirrored = replace(
        plain,
        tank=replace(
            plain.tank,
            courses=pair[::-1],
            stations=tuple(replace(one, height=length - one.height) for one in stations),
            bottom=plain.tank.top,
            top=plain.tank.bottom,
        ),
    )
    first, second = (jobs.plan(job) for job in (plain, mirrored))
    assert second.forming_pressure == first.forming_pressure
    assert second.maximum_pressure == first.maximum_pressure
    for one, other in zip(first.stations, second.stations, strict=True):
        assert (other.name, other.growth_released) == (one.name, one.growth_released)
    # sums of volumes in another order
    assert second.hazard.stored.recoverable == pytest.approx(
        first.hazard.stored.recoverable, rel=ROUNDING
    )


def forming(job):
    return _figures(outcome.forming_band(made(job)))


@quick
@given(steels, radii, slenderness, growths, shrinks)
def test_a_thinner_wall_never_needs_more_pressure(name, radius, slender, growth, shrink):
    """Every draw keeps its place in the sample, so nothing is allowed for sampling."""
    thick = tank_job(name, radius, slender, growth)
    course = thick.tank.courses[0]
    thin = replace(course, wall=shrink * course.wall)
    other = replace(thick, tank=replace(thick.tank, courses=(thin,)))
    for less, more in zip(forming(other), forming(thick), strict=True):
        assert less < more


@quick
@given(steels, radii, slenderness, growths, shrinks)
def test_a_weaker_steel_never_needs_more_pressure(name, radius, slender, growth, shrink):
    strong = tank_job(name, radius, slender, growth)
    course = strong.tank.courses[0]
    weak = replace(course.steel, curve=Scaled(course.steel.curve, shrink))
    other = replace(strong, tank=replace(strong.tank, courses=(replace(course, steel=weak),)))
    for less, more in zip(forming(other), forming(strong), strict=True):
        assert less < more


@pytest.mark.parametrize("shrink", [0.7, 0.9, 0.99])
def test_one_thinner_or_weaker_course_of_two_never_needs_more_pressure(shrink):
    even = jobs.job()
    first = even.tank.courses[0]
    coil = jobs.COIL
    poor = Certificate(shrink * coil.proof_02, shrink * coil.tensile, shrink * coil.proof_10)
    for course in (
        replace(first, wall=shrink * first.wall),
        replace(first, steel=jobs.steel("1.4307", poor)),
    ):
        pair = (course, even.tank.courses[1])
        other = replace(even, tank=replace(even.tank, courses=pair))
        for less, more in zip(forming(other), forming(even), strict=True):
            # the coils are drawn apart now: the sample itself scatters by 0.4 %
            assert less < more * 1.004


@settings(max_examples=25, deadline=None, derandomize=True)
@given(st.floats(0.0, 0.02), st.floats(0.0, 0.02), st.floats(2.0, 40.0))
def test_more_air_never_stores_less_energy(air, more, temperature):
    job = jobs.job(model=Model(spread=False), water=Water(temperature, air=air))
    found = made(job)
    sizes, band = outcome.stations(job, found), outcome.forming_band(found)
    other = replace(job, water=Water(temperature, air=air + more))
    dangers = [hazard.hazard(one, found, band, sizes) for one in (job, other)]
    stored = [one.stored.recoverable for one in dangers]
    assert stored[0] <= stored[1]
    counted = dangers[1].air_share - dangers[0].air_share
    # as much as the first strokes may let pass is counted in any case; 1e-9 is lost in rounding
    assert counted < 1e-9 or stored[0] < stored[1]
    assert dangers[1].air_share >= air + more


@quick
@given(steels, slenderness, growths, shrinks)
def test_a_tighter_spread_never_widens_the_band(name, slender, growth, shrink):
    wide = tank_job(name, 0.4, slender, growth)
    course = wide.tank.courses[0]
    steel = replace(
        course.steel,
        strength_half_width=shrink * course.steel.strength_half_width,
        steepness_half_width=shrink * course.steel.steepness_half_width,
    )
    tight = replace(course, steel=steel, wall_tolerance=shrink * course.wall_tolerance)
    other = replace(wide, tank=replace(wide.tank, courses=(tight,)))
    (low, likely, high), (less, _, more) = forming(wide), forming(other)
    # the draws only move towards their medians; which of 512 stands at the 5 or 95 % place
    # may change, worth 0.1 % of the pressure
    assert more - less <= high - low + 1e-3 * likely


def test_half_the_spread_makes_the_band_clearly_narrower():
    wide = tank_job("1.4307", 0.4, 160.0, 0.05)
    course = wide.tank.courses[0]
    steel = replace(course.steel, strength_half_width=0.5 * course.steel.strength_half_width)
    other = replace(wide, tank=replace(wide.tank, courses=(replace(course, steel=steel),)))
    (low, _, high), (less, _, more) = forming(wide), forming(other)
    assert more - less < 0.75 * (high - low)


@quick
@given(steels, radii, slenderness, growths)
def test_a_target_under_pressure_is_the_released_one_and_its_springback(
    name, radius, slender, growth
):
    calm = Model(spread=False)
    released = tank_job(name, radius, slender, growth, model=calm)
    found = made(released)
    loaded = walls.growth_at_pressure(found.walls[0], pressure_at_lower_edge(found)[:, None])[0]
    under = replace(
        released,
        target=replace(released.target, value=float(loaded[0, 0]), under_pressure=True),
    )
    assert loaded[0, 0] > growth + 5e-4
    assert made(under).target_pressure == pytest.approx(found.target_pressure, rel=SOLVED)
    assert (
        made(replace(under, target=replace(under.target, value=growth))).target_pressure[0]
        < found.target_pressure[0]
    )


@quick
@given(steels, radii, slenderness, growths)
def test_the_judged_pressure_lies_between_tresca_and_mises(name, radius, slender, growth):
    likely = {}
    for criterion in ("tresca", None, "mises"):
        job = tank_job(name, radius, slender, growth, model=Model(criterion=criterion))
        likely[criterion] = forming(job)
    tresca, judged, mises = likely["tresca"], likely[None], likely["mises"]
    assert tresca[0] <= judged[0] and tresca[1] <= judged[1] and tresca[2] <= judged[2]
    # the highest judged C, 1.17, lies a little above 1.155 of Mises: so only low and likely
    assert judged[0] <= mises[0] and judged[1] <= mises[1]


def test_a_diameter_target_is_the_growth_target():
    """The same end, asked in three ways, through the whole plan."""
    growth = jobs.plan(jobs.job(target=jobs.growth(0.04)))
    for kind, value in (
        (TargetKind.OUTSIDE_DIAMETER, 2.0 * 0.322 * 1.04),
        (TargetKind.OUTSIDE_CIRCUMFERENCE, 2.0 * np.pi * 0.322 * 1.04),
    ):
        other = jobs.plan(jobs.job(target=Target(kind, value, False, "largest")))
        # a size as target counts the spread of the diameter too, 0.05 %: it widens the band by
        # some 1e-3 of the pressure and moves its middle by less
        assert _figures(other.forming_pressure) == pytest.approx(
            _figures(growth.forming_pressure), rel=2e-3
        )

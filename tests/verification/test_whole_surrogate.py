"""The forecast of the whole tank for every draw against draws that are solved directly.

The forecast takes each draw from a handful of solved shells; here some draws are solved one by
one with the fine mesh and laid beside it. Tanks and coils are invented.
"""

from dataclasses import fields, replace

import numpy as np
import planning_jobs as jobs
import pytest
from laws import campaign_size

from stretchform.forming import shell
from stretchform.planning import course, design, forecast, whole
from stretchform.planning.sample import Draws

POINTS = 100.0
SHORT = jobs.job(tank=jobs.tank(courses=(jobs.course("shell", length=0.62),)))
LONG = jobs.job(tank=jobs.tank(courses=(jobs.course("shell", length=2.6),)))
TWO_COILS = jobs.job(
    tank=jobs.tank(
        courses=(
            jobs.course("lower", length=1.2),
            jobs.course("upper", length=1.2, steel=jobs.steel(certificate=jobs.WEAK_COIL)),
        )
    )
)


def directly(job, made, chosen, growth):
    """Fine shells of chosen draws; the springback factor of the medians, as in the forecast."""
    draws = design.with_rate(made.draws)
    picked = {
        item.name: np.asarray(getattr(draws, item.name))[chosen] for item in fields(Draws)
    }
    picked["springback"] = np.full(len(chosen), np.median(draws.springback))
    heights = np.array([float(point.height) for point in made.points])
    return whole._solve(job, Draws(**picked), heights, growth, shell.PLAN)


def growth_beside(job, made, chosen):
    """Growth at each draw's own target pressure: the forecast's and the direct one, (n, P)."""
    trace = directly(job, made, chosen, 1.5 * job.target.value)
    ours = forecast.growth_at(made, made.target_pressure[:, None])[0][chosen, 0]
    theirs = [
        shell.at_pressure(trace, np.asarray(trace.growth), made.target_pressure[draw])[row, 0]
        for row, draw in enumerate(chosen)
    ]
    return ours, np.stack(theirs)


# Points of growth in single draws. The project allows 0.1 at the quantiles, held by the campaign
# below; single far draws lose a little more, those of two independent coils three times that.
CASES = [(SHORT, 0.15), (LONG, 0.15), (TWO_COILS, 0.3)]


@pytest.mark.parametrize(("job", "allowed"), CASES, ids=["short", "long", "two coils"])
def test_the_forecast_of_a_draw_equals_its_own_shell(job, allowed):
    made = forecast.forecast(job, jobs.JUDGED)
    ours, theirs = growth_beside(job, made, np.array([3, 150, 290, 470]))
    assert np.max(np.abs(ours - theirs)) * POINTS < allowed


@pytest.mark.campaign
@pytest.mark.parametrize("job", [SHORT, TWO_COILS], ids=["short", "two coils"])
def test_quantiles_of_growth_equal_those_of_directly_solved_draws(job):
    made = forecast.forecast(job, jobs.JUDGED)
    count = max(campaign_size(250), 25)
    chosen = np.linspace(0, made.draws.count - 1, count).astype(int)
    low = float(np.quantile(made.target_pressure, 0.05))
    trace = directly(job, made, chosen, 0.12)
    theirs = shell.at_pressure(trace, np.asarray(trace.growth), low)[:, 0]
    ours = forecast.growth_at(made, np.array([low]))[0][chosen, 0]
    for share in (0.05, 0.5, 0.95):
        difference = np.quantile(ours, share, axis=0) - np.quantile(theirs, share, axis=0)
        assert np.max(np.abs(difference)) * POINTS < 0.1  # what the project allows


def test_a_short_tank_grows_less_than_the_closed_form_says():
    closed = forecast.forecast(SHORT, jobs.JUDGED, quick=True)
    made = forecast.forecast(SHORT, jobs.JUDGED)
    ratio = np.median(made.target_pressure) / np.median(closed.target_pressure)
    # half its diameter plus flanges long: a few per cent more pressure, far from a tenth
    assert 1.005 < ratio < 1.2


def test_the_largest_growth_of_a_long_tank_is_far_from_its_heads():
    place = whole.largest_heights(LONG, forecast.forecast(LONG, jobs.JUDGED).draws, 0.05)[0]
    length = float(LONG.tank.length)
    radius = float(LONG.tank.courses[0].radius)
    assert radius < place < length - radius


def test_pressure_of_a_growth_is_the_inverse_of_growth_at_a_pressure():
    made = forecast.forecast(SHORT, jobs.JUDGED)
    station = next(index for index, point in enumerate(made.points) if point.station)
    pressure = course.pressure_at(made.whole, 0.03, station, under_pressure=False)
    released = course.growth_at(made.whole, pressure[:, None])[1][:, 0, station]
    assert released == pytest.approx(np.full(len(released), 0.03), abs=1e-9)  # the same lines


def test_a_pressure_above_the_maximum_has_no_growth():
    made = forecast.forecast(SHORT, jobs.JUDGED)
    above = np.array([1.01 * float(np.max(made.maximum_pressure))])
    loaded, released = course.growth_at(made.whole, above)
    assert np.all(np.isnan(loaded)) and np.all(np.isnan(released))
    assert np.all(np.isnan(course.gain_at(made.whole, above)))


def test_lying_and_standing_differ_by_the_weight_of_the_water_only():
    tank = SHORT.tank
    lying = replace(SHORT, tank=replace(tank, attitude=jobs.Attitude.LYING))
    standing = forecast.forecast(SHORT, jobs.JUDGED)
    other = forecast.forecast(lying, jobs.JUDGED)
    gap = np.median(standing.target_pressure) - np.median(other.target_pressure)
    # 0.64 m of water on the bottom line against some 0.4 m above mid-height: 1 to 5 kPa apart,
    # the sampling is the same
    assert 0.0 < gap < 6e3

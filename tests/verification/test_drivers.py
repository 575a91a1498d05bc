"""Shares of variance against an independent pick-and-freeze estimate on our own closed form.

The estimate draws its inputs with a generator of its own, evaluates a scalar closed form of one
course, p = C s(C e) t/r exp(−2 e) with everything written out here, and takes first-order
shares as mean((f(A) − mean)·(f(B with column i of A) − f(B)))/variance.
"""

from dataclasses import replace
from functools import cache
from statistics import NormalDist

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import drivers, forecast, outcome
from stretchform.planning.job import Gauge

GAUGE = Gauge(6e6, 1.6, 1.0)
JOB = jobs.one_course(gauge=GAUGE)
COUNT = 10_000  # first-order shares then scatter by 0.02 at most
Z95 = NormalDist().inv_cdf(0.95)
NAMES = (drivers.RULE, drivers.RATE, drivers.CURVE, drivers.SLOPE, drivers.WALL, drivers.GAUGE)


@cache
def ours():
    made = forecast.forecast(JOB, jobs.JUDGED, quick=True)
    forming = outcome.forming_band(made)
    found = drivers.drivers(JOB, made, forming)
    return found, forming, made


def inputs(random):
    """Columns in the order of NAMES, from the declared spreads."""
    judged, course = jobs.JUDGED, JOB.tank.courses[0]
    low, mode, high = (
        getattr(judged.criterion, name).value for name in ("low", "likely", "high")
    )
    first, middle, last = (
        getattr(judged.rate, name).value for name in ("low", "likely", "high")
    )
    z = random.normal(size=(5, COUNT)) / Z95
    rate = middle + np.where(z[0] < 0.0, (middle - first) * z[0], (last - middle) * z[0])
    limit = 0.016 * GAUGE.range
    return np.column_stack(
        [
            random.triangular(low, mode, high, COUNT),
            rate,
            np.exp(np.log1p(course.steel.strength_half_width) * z[1]),
            np.exp(np.log1p(course.steel.steepness_half_width) * z[2]),
            course.wall + course.wall_tolerance * z[3],
            random.uniform(-limit, limit, COUNT),
        ]
    )


def pressure(values):
    """Gauge reading at 5 % of released growth; elastic parts left out."""
    factor, rate, strength, steepness, wall, gauge = values.T
    radius = JOB.tank.courses[0].radius
    outer = radius + 0.5 * wall
    mid = np.sqrt((1.05 * outer) ** 2 - (outer**2 - radius**2)) / radius  # section is kept
    hoop = np.log(mid)
    flow = strength * steeper(factor * hoop, steepness)
    return rate * factor * flow * wall / radius * np.exp(-2.0 * hoop) + gauge


def steeper(strain, steepness):
    """The coil's curve with its logarithmic slope scaled about 5 % of strain."""
    curve = JOB.tank.courses[0].steel.curve
    pivot = curve.stress(np.float64(0.05))
    return pivot * (curve.stress(strain) / pivot) ** steepness


def first_order(model, random):
    a, b = inputs(random), inputs(random)
    of_a, of_b = model(a), model(b)
    of_a = of_a - np.mean(of_a)  # a mean left in would only add scatter
    whole = 0.5 * (np.var(of_a) + np.var(of_b))
    shares = []
    for column in range(a.shape[1]):
        mixed = b.copy()
        mixed[:, column] = a[:, column]
        shares.append(float(np.mean(of_a * (model(mixed) - of_b)) / whole))
    return shares


def test_shares_of_the_target_pressure_agree_with_pick_and_freeze():
    shares = dict(zip(NAMES, first_order(pressure, np.random.default_rng(11)), strict=True))
    for item in ours()[0]:
        if item.unknown in shares:
            assert item.of_pressure == pytest.approx(shares[item.unknown], abs=0.05)


def test_shares_of_the_growth_at_the_likely_pressure_agree_with_pick_and_freeze():
    forming = ours()[1]
    grid = np.linspace(0.001, 0.28, 300)

    def growth(values):
        factor, rate, strength, steepness, wall, gauge = (part[:, None] for part in values.T)
        radius = JOB.tank.courses[0].radius
        flow = rate * strength * steeper(factor * grid, steepness)
        rising = factor * flow * wall / radius * np.exp(-2.0 * grid)
        rising = np.maximum.accumulate(rising, axis=1)  # flat past the maximum
        place = np.sum(rising < forming.likely - gauge, axis=1)
        place = np.clip(place, 1, np.argmax(rising, axis=1))
        row = np.arange(len(values))
        below, above = rising[row, place - 1], rising[row, place]
        part = (forming.likely - gauge[:, 0] - below) / (above - below)
        step = grid[1] - grid[0]
        return np.expm1(grid[place - 1] + np.clip(part, 0.0, 1.0) * step)

    shares = dict(zip(NAMES, first_order(growth, np.random.default_rng(12)), strict=True))
    for item in ours()[0]:
        if item.unknown in shares:
            assert item.of_growth == pytest.approx(shares[item.unknown], abs=0.05)


def test_information_agrees_with_a_forecast_that_has_the_smaller_spread():
    found, forming, made = ours()
    bought = {
        item.measurement: item.pressure
        for item in drivers.information(JOB, jobs.JUDGED, made, forming, found)
    }
    course = JOB.tank.courses[0]
    sharper = replace(course.steel, strength_half_width=jobs.JUDGED.spread_coupon.value)
    job = jobs.job(courses=[replace(course, steel=sharper)], gauge=GAUGE)
    band = outcome.forming_band(forecast.forecast(job, jobs.JUDGED, quick=True))
    half = 0.5 * (band.high - band.low) / band.likely
    # quantiles of a sum that is not quite normal, and 512 draws
    assert bought[drivers.COUPON] == pytest.approx(half, rel=0.07)

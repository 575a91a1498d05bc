"""From a job to its plan: forecast, bands, steps, plates, stored energy and cautions together."""

import hashlib
import json
from dataclasses import asdict

import numpy as np

from stretchform.forming import membrane
from stretchform.planning import (
    basis,
    cautions,
    drivers,
    ends,
    facts,
    filling,
    forecast,
    hazard,
    holdpoints,
    holds,
    instruments,
    outcome,
    plating,
    schedule,
    sloshing,
    stepping,
    stopping,
    target,
    walls,
)
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.plan import (
    MODEL,
    Band,
    GrowthCurve,
    Plan,
    Stops,
    WaterPlan,
)
from stretchform.si import Array, Growth, Ratio


def build(job: Job, judged: Judged, quick: bool = False) -> Plan:
    """The whole plan of a job.

    Source: own-derivation, the steps of this module.
    Checked: tests/unit/test_build.py (metamorphic properties of whole plans).
    Raises NoSolution where the curve does not reach the target.
    """
    made = forecast.forecast(job, judged, quick)
    _require_range(job, judged, made)
    forming, maximum = outcome.forming_band(made), outcome.band(made.maximum_pressure)
    wanted = _target_growth(job, made, judged)
    springback = _springback(made, forming)
    released = wanted - springback if job.target.under_pressure else wanted
    limit = _growth_limit(job, judged, released)
    stations = outcome.stations(job, made)
    rows = plating.plates(job, made, forming, limit + springback)
    plates, liquid = sloshing.with_rings(job, rows, released)
    danger = hazard.hazard(job, made, forming, stations)
    found_heads = ends.head_plans(job, made, forming)
    found_openings = ends.opening_plans(job, forming)
    rests = basis.basis(job, judged, made, forming)
    known = facts.facts(job, judged, made, forming, rests, stations, plates, found_heads, limit)
    sensitivity = _sensitivity(made, forming)
    water = filling.water_plan(job, judged, made, forming, stations)
    ending = stopping.stops(job, judged, made, wanted, limit, springback)
    tools = instruments.instruments(job, made, forming, sensitivity)
    known = facts.with_means(known, job, judged, forming, water, ending, tools)
    found = cautions.judge(job, known)
    spread = drivers.drivers(job, made, forming)
    head = instruments.gauge_head(job, job.gauge)
    chosen = schedule.pressures(job, made, forming, released, judged.step_growth.value)
    return Plan(
        job=job,
        fingerprint=fingerprint(job),
        basis=rests,
        target_growth=wanted,
        forming_pressure=forming,
        maximum_pressure=maximum,
        maximum_within_curve=known.maximum_within_curve,
        share_of_pressure=known.share_of_pressure,
        share_of_growth=known.share_of_growth,
        points_per_per_cent=sensitivity,
        no_answer=known.no_answer,
        stations=stations,
        steps=stepping.steps(job, judged, made, chosen, wanted, limit, springback, head),
        plates=plates,
        slosh=liquid,
        heads=found_heads,
        openings=found_openings,
        profile=ends.profile(job, made),
        whole=made.whole is not None,
        hazard=danger,
        water=water,
        growth=_growth_curve(made),
        holds=holds.hold_plan(judged),
        stops=ending,
        drivers=spread,
        information=drivers.information(job, judged, made, forming, spread),
        instruments=tools,
        hold_points=_hold_points(job, judged, made, forming, water, ending),
        cautions=found,
        withheld_by=cautions.withheld_by(job, found),
    )


def fingerprint(job: Job) -> str:
    """Short hash of the job, its steels and the model number: the same plan has the same.

    Source: own-derivation, SHA-256 of the job's numbers.
    Checked: tests/unit/test_build.py (changes with a number, not with the run).
    """
    text = json.dumps({"job": asdict(job), "model": MODEL}, sort_keys=True, default=_plain)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


def _plain(value: object) -> object:
    return value.tolist() if isinstance(value, np.ndarray | np.generic) else str(value)


def _require_range(job: Job, judged: Judged, made: Forecast) -> None:
    """Each curve must hold at the target, above its start and below its end.

    Where most draws have no answer, it is asked whether the curve ends before the target; if
    not, the target lies beyond the maximum, and a caution says so.
    """
    wanted = target.growths(job, made.walls, judged.gained.likely.value)
    lost = bool(np.mean(np.isnan(made.target_pressure)) > 0.5)
    heads = made.heads_of_water[-len(job.tank.courses) :]
    for course, wall, head, growth in zip(
        job.tank.courses, made.walls, heads, wanted, strict=True
    ):
        if lost:
            strain = walls.strain_at_outside(wall, growth, job.target.under_pressure)
        else:
            strain = walls.strain_at_pressure(wall, made.target_pressure[:, None] + head)
        flowing = strain[strain > 0.0]  # NaN, a course or draw without an answer, is left out
        if flowing.size:
            where = f'course "{course.name}"'
            membrane.require_in_range(float(np.median(flowing)), course.steel.curve, where)


def _target_growth(job: Job, made: Forecast, judged: Judged) -> Growth:
    return float(np.nanmin(target.growths(job, made.walls, judged.gained.likely.value)))


def _growth_limit(job: Job, judged: Judged, released: Growth) -> Growth:
    if job.limits.growth is not None:
        return job.limits.growth
    return released + judged.growth_allowance.value


def _springback(made: Forecast, forming: Band) -> Growth:
    """Likely difference between growth under pressure and released, at the largest point."""
    at = np.array([forming.likely])
    loaded, released = (outcome.largest(part) for part in forecast.growth_at(made, at))
    lost = (loaded - released)[~np.isnan(loaded)]
    return float(np.median(lost)) if lost.size else 0.0


def _sensitivity(made: Forecast, forming: Band) -> Ratio:
    """Growth for one per cent of pressure, at the likely pressure."""
    around = forming.likely * np.array([0.9975, 1.0025])
    growth = outcome.largest(forecast.growth_at(made, around)[1])
    likely = [outcome.band(growth[:, index]).likely for index in range(2)]
    return (likely[1] - likely[0]) / 0.005


def _hold_points(
    job: Job, judged: Judged, made: Forecast, forming: Band, water: WaterPlan, ending: Stops
) -> tuple[holdpoints.HoldPoint, ...]:
    return holdpoints.hold_points(
        holdpoints.Facts(
            first_yield=outcome.band(schedule.first_yield(made)).low,
            forming=forming.high,
            relief=job.supply.relief_pressure,
            air_limit=water.air_limit,
            compliance=ending.compliance,
            compliance_off=ending.compliance_off,
            drum=ending.drum,
            water_stop=ending.water,
            step_growth=judged.step_growth.value,
            stations_apart=ending.stations_apart,
            shortest_hold=holds.TARGET,
            rate_limit=holds.RATE_LIMIT,
            returned=water.returned.likely,
        )
    )


def _growth_curve(made: Forecast) -> GrowthCurve:
    growth: Array = outcome.largest(made.growth_released)
    bands = [outcome.band(growth[:, index]) for index in range(growth.shape[1])]
    return GrowthCurve(
        pressure=made.pressures,
        released_low=np.array([item.low for item in bands]),
        released_likely=np.array([item.likely for item in bands]),
        released_high=np.array([item.high for item in bands]),
    )

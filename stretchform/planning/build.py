"""From a job to its plan: forecast, bands, steps, plates, stored energy and cautions together."""

import hashlib
import json
from dataclasses import asdict

import numpy as np

from stretchform.forming import membrane
from stretchform.planning import (
    basis,
    cautions,
    ends,
    facts,
    forecast,
    hazard,
    outcome,
    plating,
    schedule,
    size,
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
    WaterPlan,
)
from stretchform.planning.tank import Attitude
from stretchform.si import STANDARD_GRAVITY, Array, Growth, Pascal, Ratio
from stretchform.water import energy, properties


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
    plates = plating.plates(job, made, forming)
    danger = hazard.hazard(job, made, forming, stations)
    found_heads = ends.head_plans(job, made, forming)
    found_openings = ends.opening_plans(job, forming)
    rests = basis.basis(job, judged, made, forming)
    known = facts.facts(job, judged, made, forming, rests, stations, plates, found_heads, limit)
    found = cautions.judge(job, known)
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
        points_per_per_cent=_sensitivity(made, forming),
        no_answer=known.no_answer,
        stations=stations,
        steps=schedule.steps(job, made, chosen, wanted, limit, springback, _gauge_head(job)),
        plates=plates,
        heads=found_heads,
        openings=found_openings,
        profile=ends.profile(job, made),
        whole=made.whole is not None,
        hazard=danger,
        water=_water(job, forming),
        growth=_growth_curve(made),
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
    loaded, released = (outcome.largest(part) for part in outcome.growths_at(made, at))
    lost = (loaded - released)[~np.isnan(loaded)]
    return float(np.median(lost)) if lost.size else 0.0


def _sensitivity(made: Forecast, forming: Band) -> Ratio:
    """Growth for one per cent of pressure, at the likely pressure."""
    around = forming.likely * np.array([0.9975, 1.0025])
    growth = outcome.largest(outcome.growths_at(made, around)[1])
    likely = [outcome.band(growth[:, index]).likely for index in range(2)]
    return (likely[1] - likely[0]) / 0.005


def _gauge_head(job: Job) -> Pascal:
    """Water between the top of the tank and the gauge; a lying tank's gauge counts as on top."""
    if job.gauge is None or job.tank.attitude is Attitude.LYING:
        return 0.0
    weight = properties.density(job.water.temperature, 0.0) * STANDARD_GRAVITY
    return float(weight * (size.top_height(job.tank) - job.gauge.height))


def _water(job: Job, forming: Band) -> WaterPlan:
    volume = size.volume(job.tank)
    metal = sum(
        float(course.steel.density.value)
        * 2.0
        * np.pi
        * course.radius
        * course.wall
        * course.length
        for course in job.tank.courses
    ) + float(job.tank.bottom.steel.density.value) * size.head_metal(job.tank)
    density = float(properties.density(job.water.temperature, 0.0))
    share = float(energy.air_limit(job.water.temperature, forming.high))
    return WaterPlan(
        temperature=job.water.temperature,
        volume_before=volume,
        air_limit=share * volume,
        filled_mass=float(volume * density + metal),
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

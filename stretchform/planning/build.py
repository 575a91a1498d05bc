"""From a job to its plan: forecast, bands, steps, plates, stored energy and cautions together."""

import hashlib
import json
from dataclasses import asdict

import numpy as np

from stretchform.forming import criterion, membrane
from stretchform.planning import (
    cautions,
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
    LikelyBasis,
    Plan,
    PlatePlan,
    StationPlan,
    WaterPlan,
)
from stretchform.si import STANDARD_GRAVITY, Array, Growth, Pascal, Ratio
from stretchform.water import energy, properties

_RELIEF_OVERSHOOT = 1.1  # a relief valve lets the pressure rise by about a tenth


def build(job: Job, judged: Judged) -> Plan:
    """The whole plan of a job.

    Source: own-derivation, the steps of this module.
    Checked: tests/unit/test_build.py (metamorphic properties of whole plans).
    Raises NoSolution where the curve does not reach the target.
    """
    made = forecast.forecast(job, judged)
    _require_range(job, made)
    forming, maximum = outcome.forming_band(made), outcome.band(made.maximum_pressure)
    wanted = _target_growth(job, made, judged)
    springback = _springback(made, forming)
    released = wanted - springback if job.target.under_pressure else wanted
    limit = _growth_limit(job, judged, released)
    stations = outcome.stations(job, made, made.draws.gained)
    plates = plating.plates(job, made, forming)
    danger = hazard.hazard(job, made, forming)
    facts = _facts(job, made, forming, maximum, stations, plates, limit)
    found = cautions.judge(job, facts)
    chosen = schedule.pressures(made, forming, released, judged.step_growth.value)
    return Plan(
        job=job,
        fingerprint=fingerprint(job),
        basis=_basis(job, made, forming),
        target_growth=wanted,
        forming_pressure=forming,
        maximum_pressure=maximum,
        maximum_within_curve=facts.maximum_within_curve,
        share_of_pressure=facts.share_of_pressure,
        share_of_growth=facts.share_of_growth,
        points_per_per_cent=_sensitivity(made, forming),
        no_answer=facts.no_answer,
        stations=stations,
        steps=schedule.steps(
            job, made, chosen, wanted, limit, springback, _gauge_head(job, made)
        ),
        plates=plates,
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


def _require_range(job: Job, made: Forecast) -> None:
    """The curve must hold at the target, above its start and below its end."""
    for index, (course, wall) in enumerate(zip(job.tank.courses, made.walls, strict=True)):
        head = max(
            float(value)
            for point, value in zip(made.points, made.heads_of_water, strict=True)
            if point.course == index and not point.station
        )
        local = made.target_pressure[:, None] + head
        strain = walls.strain_at_pressure(wall, local)
        if np.any(strain > 0.0):
            middle = float(np.nanmedian(strain))
            membrane.require_in_range(middle, course.steel.curve, f'course "{course.name}"')


def _target_growth(job: Job, made: Forecast, judged: Judged) -> Growth:
    growths = target.growths(job, made.walls, judged.gained.likely.value)
    chosen = target.course_of(job)
    return float(np.min(growths) if chosen is None else growths[chosen])


def _growth_limit(job: Job, judged: Judged, released: Growth) -> Growth:
    if job.limits.growth is not None:
        return job.limits.growth
    return released + judged.growth_allowance.value


def _basis(job: Job, made: Forecast, forming: Band) -> LikelyBasis:
    mises = _plain_pressure(job, made, criterion.mises(walls.shape_of(job)))
    draws = made.draws
    factor = float(np.median(draws.criterion))
    shape = walls.shape_of(job)
    state = criterion.general(shape, factor)
    if job.model.criterion:
        state = criterion.named(job.model.criterion, shape) or state
    tresca = _tresca_maximum(job, made)
    return LikelyBasis(
        criterion=job.model.criterion or "judged",
        criterion_factor=_plain_pressure(job, made, state) / mises,
        rate_factor=float(np.median(draws.rate)),
        springback_factor=float(np.median(draws.springback)),
        mises_at_test_rate=mises,
        tresca_maximum=tresca,
        survives_tresca=bool(tresca > forming.likely),
        curves=tuple(course.steel.basis.value for course in job.tank.courses),
    )


def _plain_pressure(job: Job, made: Forecast, state: criterion.State) -> Pascal:
    """Target pressure of the unsampled tank at the test's rate under one criterion."""
    found = []
    wanted = target.growths(job, made.walls, 0.95)
    chosen = target.course_of(job)
    edges = made.heads_of_water[-len(job.tank.courses) :]
    for index, course in enumerate(job.tank.courses):
        if chosen not in (None, index):
            continue
        elastic = membrane.Elastic(
            course.steel.youngs_modulus.value, course.steel.poisson_ratio.value
        )
        one = walls.Wall(
            walls.shape_of(job),
            course.radius,
            np.full((1, 1), course.wall),
            course.steel.curve,
            course.steel.curve,
            state,
            elastic,
            membrane.maximum(course.radius, course.wall, course.steel.curve, state, elastic),
        )
        local = walls.pressure_at_outside(one, wanted[index], job.target.under_pressure)
        found.append(float(local[0, 0]) - float(edges[index]))
    return min(found)


def _tresca_maximum(job: Job, made: Forecast) -> Pascal:
    """Maximum pressure of the likely curve under Tresca at the hold's rate, weakest course."""
    state = criterion.tresca(walls.shape_of(job))
    rate = float(np.median(made.draws.rate))
    tops = []
    for course in job.tank.courses:
        elastic = membrane.Elastic(
            course.steel.youngs_modulus.value, course.steel.poisson_ratio.value
        )
        top = membrane.maximum(course.radius, course.wall, course.steel.curve, state, elastic)
        tops.append(rate * float(top.pressure))
    return min(tops)


def _springback(made: Forecast, forming: Band) -> Growth:
    """Likely difference between growth under pressure and released, at the largest point."""
    at = np.array([forming.likely])
    loaded = outcome.largest(outcome.growth_at(made, at, under_pressure=True))
    released = outcome.largest(outcome.growth_at(made, at, under_pressure=False))
    return float(np.nanmedian(loaded - released))


def _sensitivity(made: Forecast, forming: Band) -> Ratio:
    """Growth for one per cent of pressure, at the likely pressure."""
    around = forming.likely * np.array([0.9975, 1.0025])
    growth = outcome.largest(outcome.growth_at(made, around, under_pressure=False))
    likely = [outcome.band(growth[:, index]).likely for index in range(2)]
    return (likely[1] - likely[0]) / 0.005


def _gauge_head(job: Job, made: Forecast) -> Pascal:
    if job.gauge is None:
        return 0.0
    weight = properties.density(job.water.temperature, 0.0) * STANDARD_GRAVITY
    return float(weight * (size.top_height(job.tank) - job.gauge.height))


def _facts(
    job: Job,
    made: Forecast,
    forming: Band,
    maximum: Band,
    stations: tuple[StationPlan, ...],
    plates: tuple[PlatePlan, ...],
    limit: Growth,
) -> cautions.Facts:
    share = np.nan_to_num(made.target_pressure / made.maximum_pressure, nan=1.0)
    growth = outcome.largest(
        outcome.growth_at(made, np.array([forming.likely]), under_pressure=False)
    )[:, 0]
    reached = np.nan_to_num(growth, nan=np.inf) / made.growth_at_maximum
    basis = _basis(job, made, forming)
    widest = max(float(course.radius) for course in job.tank.courses)
    shell = sum(float(course.length) for course in job.tank.courses)
    return cautions.Facts(
        forming_high=forming.high,
        forming_likely=forming.likely,
        maximum_low=maximum.low,
        share_of_pressure=float(np.median(share)),
        share_of_growth=float(min(np.median(reached), 1.0)),
        no_answer=float(np.mean(np.isnan(made.target_pressure))),
        maximum_within_curve=bool(np.median(made.maximum_reached) > 0.5),
        survives_tresca=basis.survives_tresca,
        growth_limit=limit,
        growth_over_relief=_growth_over_relief(job, made),
        stress_over_flow=_stress_over_flow(job, made, forming),
        short=shell < 4.0 * widest,
        near_head=tuple(item.name for item in stations if item.near_head),
        plates_near_head=_names(item for item in plates if item.near_head),
        plates_failing=_names(item for item in plates if not item.result.passes),
        thinnest=min(float(c.radius) / float(c.wall) for c in job.tank.courses),
    )


def _names(plates: object) -> tuple[str, ...]:
    return tuple(dict.fromkeys(plate.name for plate in plates))  # type: ignore[attr-defined]


def _growth_over_relief(job: Job, made: Forecast) -> Growth:
    """Likely growth at 1.1 times the relief pressure; infinite beyond the maximum."""
    relief = job.supply.relief_pressure
    if relief is None:
        return 0.0
    at = np.array([_RELIEF_OVERSHOOT * float(relief)])
    growth = outcome.largest(outcome.growth_at(made, at, under_pressure=False))
    return outcome.band(growth[:, 0]).likely


def _stress_over_flow(job: Job, made: Forecast, forming: Band) -> dict[str, Ratio]:
    """Hoop stress over flow stress at the target, for the plan and each stated pressure.

    The nominal hoop stress of the formed wall under a stated pressure must be near the flow
    stress: a pressure read in another unit is off by a factor of 10 or more.
    """
    station = outcome.stations(job, made, made.draws.gained)[0]
    course = next(item for item in job.tank.courses if item.name == station.course)
    radius = float(course.radius) * (1.0 + station.growth_released.likely)
    flow = station.gained_yield.likely / 0.95
    stated = {"forming pressure": forming.likely}
    if job.supply.relief_pressure is not None:
        stated["relief pressure"] = float(job.supply.relief_pressure)
    factor = made.walls[0].state.pressure_factor
    nominal = radius / float(station.wall_released) / float(np.median(np.asarray(factor)))
    return {name: pressure * nominal / flow for name, pressure in stated.items()}


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

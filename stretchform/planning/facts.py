"""What the cautions need to know of a forecast, gathered once."""

from collections.abc import Iterable
from dataclasses import replace
from math import inf

import numpy as np

from stretchform.planning import outcome, plating, target
from stretchform.planning.caution import Facts, Means
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.places import Kind
from stretchform.planning.plan import (
    Band,
    HeadPlan,
    Instruments,
    LikelyBasis,
    PlatePlan,
    StationPlan,
    Stops,
    WaterPlan,
)
from stretchform.si import Growth, Ratio
from stretchform.water import energy

_RELIEF_OVERSHOOT = 1.1  # a relief valve lets the pressure rise by about a tenth
_AHEAD = 0.01  # growth; a course that far ahead takes the stretch of the others
_SHORT = 4.0  # a shell below this many radii is held back by its ends over its whole length


def facts(
    job: Job,
    judged: Judged,
    made: Forecast,
    forming: Band,
    basis: LikelyBasis,
    stations: tuple[StationPlan, ...],
    plates: tuple[PlatePlan, ...],
    heads: tuple[HeadPlan, ...],
    limit: Growth,
) -> Facts:
    """Everything the rules of `cautions` ask for.

    `limit` is the released growth at which to stop.

    Source: own-derivation, medians over the draws at the likely forming pressure.
    Checked: tests/unit/test_facts.py (shares, relief and stated pressures by hand).
    """
    courses = job.tank.courses
    share = np.nan_to_num(made.target_pressure / made.maximum_pressure, nan=1.0)
    widest = max(float(course.radius) for course in courses)
    shell = sum(float(course.length) for course in courses)
    return Facts(
        forming_high=forming.high,
        forming_likely=forming.likely,
        maximum_low=outcome.band(made.maximum_pressure).low,
        share_of_pressure=float(np.median(share)),
        share_of_growth=_share_of_growth(made, forming),
        no_answer=float(np.mean(np.isnan(made.target_pressure))),
        maximum_within_curve=bool(np.median(made.maximum_reached) > 0.5),
        survives_tresca=basis.survives_tresca,
        growth_limit=limit,
        growth_over_relief=_growth_over_relief(job, made),
        stress_over_flow=_stress_over_flow(job, judged, made, forming, stations),
        whole=made.whole is not None,
        short=shell < _SHORT * widest,
        wrinkling={
            head.name: head.wrinkling.forming_over_limit for head in heads if head.wrinkling
        },
        ahead=_ahead(job, made),
        near_head=tuple(item.name for item in stations if item.near_head),
        plates_near_head=_names(item for item in plates if item.near_head),
        plates_failing=plating.failing(plates),
        thinnest=min(float(course.radius) / float(course.wall) for course in courses),
        target_growth=float(
            np.nanmax(target.growths(job, made.walls, judged.gained.likely.value))
        ),
        criterion=float(np.median(made.draws.criterion)),
    )


def with_means(
    known: Facts,
    job: Job,
    judged: Judged,
    forming: Band,
    water: WaterPlan,
    ending: Stops,
    tools: Instruments,
) -> Facts:
    """The facts with what the rules on pump, valve, gauge and water ask for.

    Source: own-derivation, gathered from the parts of the plan.
    Checked: tests/unit/test_unsafe_setups.py (with_means through whole plans).
    """
    before = float(water.volume_before)
    as_water = float(energy.air_as_water(job.water.temperature, forming.high))
    means = Means(
        air_limit=float(water.air_limit) / before,
        air_as_water=as_water,
        air_under_plates=float(water.air_under_plates) / before,
        gauge_growth=max((float(one.growth) for one in tools.gauges), default=0.0),
        relief_share=tools.relief_share,
        reaction_growth=tools.reaction_growth or 0.0,
        reaction_allowed=judged.reaction_growth.value,
        water_ceiling=float(ending.water),
        collapse=inf if water.collapse is None else water.collapse,
    )
    return replace(known, means=means)


def _ahead(job: Job, made: Forecast) -> dict[str, Growth]:
    """Likely released growth of courses that lie a point and more ahead of the slowest one."""
    released = growth_at(made, made.target_pressure[:, None])[1][:, 0]
    likely = {
        job.tank.courses[point.course].name: outcome.band_of_answers(released[:, index]).likely
        for index, point in enumerate(made.points)
        if point.kind is Kind.LARGEST
    }
    slowest = min(likely.values())
    return {name: growth for name, growth in likely.items() if growth - slowest > _AHEAD}


def _names(plates: Iterable[PlatePlan]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(plate.name for plate in plates))


def _share_of_growth(made: Forecast, forming: Band) -> Ratio:
    """Released growth at the likely forming pressure over that at the maximum; at most 1."""
    at = np.array([forming.likely])
    growth = outcome.largest(growth_at(made, at)[1])[:, 0]
    reached = np.nan_to_num(growth, nan=np.inf) / made.growth_at_maximum
    return float(min(np.median(reached), 1.0))


def _growth_over_relief(job: Job, made: Forecast) -> Growth:
    """Likely growth at 1.1 times the relief pressure; infinite beyond the maximum."""
    relief = job.supply.relief_pressure
    if relief is None:
        return 0.0
    at = np.array([_RELIEF_OVERSHOOT * float(relief)])
    growth = outcome.largest(growth_at(made, at)[1])
    return outcome.band(growth[:, 0]).likely


def _stress_over_flow(
    job: Job,
    judged: Judged,
    made: Forecast,
    forming: Band,
    stations: tuple[StationPlan, ...],
) -> dict[str, Ratio]:
    """Hoop stress over flow stress at the target, for the plan and each stated pressure.

    The nominal hoop stress of the formed wall under a stated pressure must be near the flow
    stress: a pressure read in another unit is off by a factor of 10 or more. Nothing is said
    where no draw reaches the target.
    """
    station = stations[0]
    index = [course.name for course in job.tank.courses].index(station.course)
    radius = float(job.tank.courses[index].radius) * (1.0 + station.growth_released.likely)
    flow = station.gained_yield.likely / judged.gained.likely.value
    if not np.isfinite(flow):
        return {}
    stated = {"forming pressure": forming.likely}
    if job.supply.relief_pressure is not None:
        stated["relief pressure"] = float(job.supply.relief_pressure)
    factor = float(np.median(np.asarray(made.walls[index].state.pressure_factor)))
    nominal = radius / float(station.wall_released) / factor
    return {name: pressure * nominal / flow for name, pressure in stated.items()}

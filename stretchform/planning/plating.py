"""The internal plates of the job: travel at their height, arms, slots and checks."""

import numpy as np

from stretchform.planning import outcome
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.places import Kind, Point, course_at
from stretchform.planning.plan import Band, PlatePlan
from stretchform.planning.tank import Plate
from stretchform.plates import design
from stretchform.plates.case import PlateCase, PlateResult
from stretchform.si import Array, Metre


def plates(job: Job, made: Forecast, forming: Band) -> tuple[PlatePlan, ...]:
    """Each plate at each of its heights, for the high growth under pressure there.

    In the quick closed form the growth is the largest of the course. Where no draw reaches the
    target, it is that at the maximum pressure.

    Source: own-derivation, plates.design at the forecast growth.
    Checked: tests/unit/test_build.py (travel equals radius times growth).
    """
    loaded, released = growth_at(made, made.target_pressure[:, None])
    found = []
    for plate in job.tank.plates:
        results: dict[int, PlateResult] = {}
        for height in plate.heights:
            index = _point(job, made, height)
            if index not in results:
                growth = loaded[:, 0, index], released[:, 0, index]
                results[index] = _sized(job, made, plate, made.points[index], growth, forming)
            course = job.tank.courses[course_at(job, height)]
            near = made.whole is None and outcome.near_head(job, height, course)
            found.append(PlatePlan(plate.name, height, near, results[index]))
    return tuple(found)


def _point(job: Job, made: Forecast, height: Metre) -> int:
    """Index of the point that speaks for a plate: its own, or where its course grows most."""
    for index, point in enumerate(made.points):
        if point.kind is Kind.PLATE and point.height == height:
            return index
    course = course_at(job, height)
    return next(
        index
        for index, point in enumerate(made.points)
        if point.kind is Kind.LARGEST and point.course == course
    )


def _sized(
    job: Job,
    made: Forecast,
    plate: Plate,
    point: Point,
    growth_there: tuple[Array, Array],
    forming: Band,
) -> PlateResult:
    course, (loaded, released) = job.tank.courses[point.course], growth_there
    good = ~np.isnan(loaded)
    growth, springback = outcome.band(made.growth_at_maximum).high, 0.0
    if np.any(good):
        growth = max(outcome.band(loaded[good]).high, 0.0)
        springback = float(np.median((loaded - released)[good]))
    arm, steel = plate.arm, plate.steel or course.steel
    return design.size(
        PlateCase(
            kind=arm.kind.value if arm else "none",
            radius=course.radius,
            wall=course.wall,
            growth_under_pressure=growth,
            springback=min(max(springback, 0.0), growth),
            pressure=forming.likely,
            thickness=plate.thickness,
            depth=arm.depth if arm else 4.0 * plate.thickness,
            length=arm.length if arm else None,
            tabs=plate.tabs,
            clearance=plate.tab_clearance,
            tab_length=plate.tab_length,
            curve=steel.curve,
            straight=arm.straight if arm else True,
            limbs=arm.limbs if arm else 1,
            ring_width=plate.ring_width,
            youngs_modulus=steel.youngs_modulus.value,
        )
    )

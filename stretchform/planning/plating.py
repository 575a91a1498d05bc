"""The internal plates of the job: travel at their height, arms, slots and checks."""

import numpy as np

from stretchform.planning import outcome, walls
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job
from stretchform.planning.plan import Band, PlatePlan
from stretchform.planning.tank import Plate
from stretchform.plates import design
from stretchform.plates.case import PlateCase, PlateResult
from stretchform.si import Metre


def plates(job: Job, made: Forecast, forming: Band) -> tuple[PlatePlan, ...]:
    """Each plate at each of its heights, for the high growth under pressure there.

    The growth is that of the closed form: near a head the wall moves less. Where no draw
    reaches the target, it is that at the maximum pressure.

    Source: own-derivation, plates.design at the forecast growth.
    Checked: tests/unit/test_build.py (travel equals radius times growth).
    """
    found = []
    for plate in job.tank.plates:
        results: dict[int, PlateResult] = {}
        for height in plate.heights:
            index = course_at(job, height)
            if index not in results:
                results[index] = _sized(job, made, plate, index, forming)
            near = outcome.near_head(job, height, job.tank.courses[index])
            found.append(PlatePlan(plate.name, height, near, results[index]))
    return tuple(found)


def course_at(job: Job, height: Metre) -> int:
    """Index of the course at a height; the nearest one beside a straight flange.

    Source: own-derivation, edges of the courses.
    Checked: tests/unit/test_build.py (heights on both sides of a joint).
    """
    edges = np.array(job.tank.edges)
    place = int(np.searchsorted(edges, height, side="right")) - 1
    return int(np.clip(place, 0, len(job.tank.courses) - 1))


def _sized(job: Job, made: Forecast, plate: Plate, index: int, forming: Band) -> PlateResult:
    course = job.tank.courses[index]
    edge = len(made.points) - len(job.tank.courses) + index
    local = made.target_pressure[:, None] + float(made.heads_of_water[edge])
    loaded, released = walls.growth_at_pressure(made.walls[index], local)
    good = ~np.isnan(loaded)
    growth, springback = outcome.band(made.growth_at_maximum).high, 0.0
    if np.any(good):
        growth = outcome.band(loaded[good]).high
        springback = float(np.median((loaded - released)[good]))
    arm, steel = plate.arm, plate.steel or course.steel
    return design.size(
        PlateCase(
            kind=arm.kind.value if arm else "none",
            radius=course.radius,
            wall=course.wall,
            growth_under_pressure=growth,
            springback=min(springback, growth),
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

"""The water of the job: filling, air that stays, drift when shut, and draining the formed tank."""

import numpy as np

from stretchform.errors import InputError
from stretchform.forming.criterion import Shape
from stretchform.planning import outcome, pumping, size, walls
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.plan import Band, StationPlan, WaterPlan
from stretchform.planning.tank import Attitude
from stretchform.si import CubicMetre, Growth, Kilogram, Pascal
from stretchform.water import collapse, drift, energy, volumes
from stretchform.water.carrying import Wall as Carrying


def water_plan(
    job: Job,
    judged: Judged,
    made: Forecast,
    forming: Band,
    stations: tuple[StationPlan, ...],
) -> WaterPlan:
    """Volumes before and after, water pumped and returned, air, drift and collapse.

    Source: own-derivation, water.volumes, drift and collapse on formed sizes.
    Checked: tests/unit/test_filling.py (volumes, drift and collapse by hand).
    """
    volume = size.volume(job.tank)
    temperature = job.water.temperature
    at = made.target_pressure[:, None]
    released = growth_at(made, at)[1]
    after = pumping.volume_now(job, made, at, released)
    pumped = pumping.water_in(job, judged, made, at, released)
    back = pumping.coming_back(job, judged, made, after, at)
    share = float(energy.air_limit(temperature, forming.high))
    expansion = job.tank.courses[0].steel.thermal_expansion.value
    return WaterPlan(
        temperature=temperature,
        volume_before=volume,
        air_limit=share * volume,
        filled_mass=float(volumes.filled_mass(volume, _metal(job), temperature)),
        volume_after=outcome.band_of_answers(after),
        in_total=outcome.band_of_answers(pumped),
        returned=outcome.band_of_answers(back),
        upper_bound=pumping.upper_bound(made),
        air_under_plates=air_under_plates(job),
        drift=float(
            drift.per_kelvin(
                temperature, forming.likely, _formed_swelling(job, stations), expansion
            )
        ),
        drift_growth=float(drift.strain_per_kelvin(temperature, forming.likely, expansion)),
        collapse=collapse_pressure(job, _formed_growth(stations)),
    )


def air_under_plates(job: Job) -> CubicMetre:
    """Air that stays under the internal plates on filling, at one atmosphere; no notches known.

    Source: own-derivation, volumes.air_under_plates for the tank's attitude.
    Checked: tests/unit/test_filling.py (standing and lying).
    """
    level = job.tank.attitude is not Attitude.LYING
    total = 0.0
    for plate in job.tank.plates:
        for height in plate.heights:
            course = job.tank.courses[_course_at(job, float(height))]
            bore = float(course.radius) - 0.5 * float(course.wall)
            outer = bore - float(plate.tab_clearance)
            inner = 0.0 if plate.ring_width is None else max(outer - plate.ring_width, 0.0)
            area = np.array([np.pi * (outer**2 - inner**2)])
            found = volumes.air_under_plates(area, level, bore, 0.0, False)
            total += float(np.sum(found))
    if job.tank.plates and not level:  # the crest of the bore, once over the whole shell
        course = job.tank.courses[0]
        bore = float(course.radius) - 0.5 * float(course.wall)
        total += float(
            volumes.air_under_plates(np.zeros(1), False, bore, job.tank.length, False)
        )
    return total


def _course_at(job: Job, height: float) -> int:
    place = int(np.searchsorted(np.array(job.tank.edges), height, side="right")) - 1
    return int(np.clip(place, 0, len(job.tank.courses) - 1))


def collapse_pressure(job: Job, growth: Growth) -> Pascal | None:
    """Outside pressure that crushes the formed shell; None: too short for the formula.

    Source: own-derivation, collapse.collapse_pressure of the course that is thinnest for its
    radius, over the whole shell.
    Checked: tests/unit/test_filling.py (by hand).
    """
    weakest = max(job.tank.courses, key=lambda course: course.radius / course.wall)
    length = sum(float(course.length) for course in job.tank.courses)
    try:
        return float(
            collapse.collapse_pressure(
                2.0 * weakest.radius * (1.0 + growth),
                weakest.wall / (1.0 + growth),
                length,
                weakest.steel.youngs_modulus.value,
                weakest.steel.poisson_ratio.value,
            )
        )
    except InputError:
        return None


def _formed_growth(stations: tuple[StationPlan, ...]) -> Growth:
    known = [item.growth_released.likely for item in stations]
    return max([one for one in known if np.isfinite(one)], default=0.0)


def _formed_swelling(job: Job, stations: tuple[StationPlan, ...]) -> float:
    grown = 1.0 + _formed_growth(stations)
    weakest = max(job.tank.courses, key=lambda course: course.radius / course.wall)
    tied = walls.shape_of(job) is Shape.OPEN
    return float(
        volumes.swelling(
            weakest.radius * grown,
            weakest.wall / grown,
            weakest.steel.youngs_modulus.value,
            weakest.steel.poisson_ratio.value,
            Carrying.TIED if tied else Carrying.CLOSED,
        )
    )


def _metal(job: Job) -> Kilogram:
    """Mass of shell and heads; internals, ports and what hangs on them apart."""
    shell = sum(
        float(course.steel.density.value)
        * 2.0
        * np.pi
        * float(course.radius * course.wall * course.length)
        for course in job.tank.courses
    )
    return shell + float(job.tank.bottom.steel.density.value) * size.head_metal(job.tank)

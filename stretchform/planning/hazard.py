"""What the full tank can do to a person: stored energy, end thrust and jets, from the high side."""

import numpy as np

from stretchform.forming.criterion import Shape
from stretchform.planning import outcome, size, walls
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job
from stretchform.planning.plan import Band, Hazard, StationPlan
from stretchform.si import CubicMetre, Growth, Joule, Pascal, Ratio
from stretchform.water import ejection, energy
from stretchform.water.energy import StoredEnergy


def hazard(
    job: Job, made: Forecast, forming: Band, stations: tuple[StationPlan, ...]
) -> Hazard:
    """Stored energy, end thrust and jet speed at the high forming pressure, formed sizes.

    The volume counts as if the heads grew like the shell: it errs upwards. Where no draw
    reaches the target, the growth is that at the maximum pressure. Trapped air counts as
    stated, or as much as the first strokes may let pass where that is more.

    Source: own-derivation, water.energy on the formed tank.
    Checked: tests/unit/test_build.py (more air never stores less).
    """
    growth = _growth(made, stations)
    likely = max(item.growth_under_pressure.likely for item in stations)
    likely = likely if np.isfinite(likely) else float(growth)
    accepted = float(energy.air_limit(job.water.temperature, forming.high))
    air = max(float(job.water.air), accepted)
    relief = job.supply.relief_pressure
    at_relief: Joule | None = None
    if relief is not None:
        at_relief = float(_stored(job, made, float(relief), growth, air).recoverable)
    widest = max(float(course.radius) for course in job.tank.courses) * (1.0 + growth)
    return Hazard(
        pressure=forming.high,
        stored=_stored(job, made, forming.high, growth, air),
        stored_likely=_stored(job, made, forming.likely, likely, air),
        energy_at_relief=at_relief,
        end_thrust=float(ejection.end_thrust(forming.high, widest)),
        air_share=air,
        jet_speed=float(ejection.jet_speed(job.water.temperature, forming.high)),
    )


def _growth(made: Forecast, stations: tuple[StationPlan, ...]) -> Growth:
    highest = max(item.growth_under_pressure.high for item in stations)
    return highest if np.isfinite(highest) else outcome.band(made.growth_at_maximum).high


def _stored(
    job: Job, made: Forecast, pressure: Pascal, growth: Growth, air: Ratio
) -> StoredEnergy:
    thinnest = max(job.tank.courses, key=lambda course: course.radius / course.wall)
    volume: CubicMetre = size.volume(job.tank)
    closed = walls.shape_of(job) is Shape.CLOSED
    return energy.stored(
        pressure=pressure,
        volume=volume * (1.0 + growth) ** 2,
        temperature=job.water.temperature,
        radius=thinnest.radius * (1.0 + growth),
        wall=thinnest.wall / (1.0 + growth),
        shell_metal=size.shell_metal(job.tank),
        head_metal=size.head_metal(job.tank),
        youngs_modulus=thinnest.steel.youngs_modulus.value,
        poisson_ratio=thinnest.steel.poisson_ratio.value,
        air_volume=air * volume,
        plastic_work=_plastic_work(job, growth),
        carried=energy.Wall.CLOSED if closed else energy.Wall.TIED,
    )


def _plastic_work(job: Job, growth: Growth) -> Joule:
    curve = job.tank.courses[0].steel.curve
    strain = min(float(2.0 / np.sqrt(3.0) * np.log1p(growth)), curve.strain_limit)
    return float(energy.plastic_work(size.shell_metal(job.tank), curve, strain))

"""Water that the pump delivers from the full tank on, for every draw at any pressures.

It goes into the growth of the shell, into squeezing the water, stretching the wall, squeezing
air and swelling the hose. Where the forecast does not know the whole tank's gain, every course
counts as if it grew everywhere as at its lower edge: an upper bound, for ends grow less.
"""

import numpy as np

from stretchform.forming.criterion import Shape
from stretchform.planning import course, size, walls
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job, Supply
from stretchform.planning.likely import Judged
from stretchform.planning.places import Kind
from stretchform.si import Array, CubicMetre, CubicMetrePerPascal, Pascal, PerPascal
from stretchform.water import supply, volumes
from stretchform.water.carrying import Wall as Carrying


def upper_bound(made: Forecast) -> bool:
    """Whether the gain is that of courses without ends."""
    return made.whole is None


def volume_now(job: Job, made: Forecast, pressures: Array, released: Array) -> Array:
    """Inside volume if released from each pressure, (N, M); NaN in a burst draw.

    `released`: growths at these pressures, (N, M, P).

        V = V0 + sum over courses of V_c [(1 + bore growth)² (1 + axial growth) − 1]

    Source: own-derivation, constant section of the wall.
    Checked: tests/unit/test_pumping.py (one course by hand; more growth, more water).
    """
    before: CubicMetre = size.volume(job.tank)
    if made.whole is not None:
        back = elastic_swelling(job, made) * pressures
        return np.asarray(before * (1.0 + course.gain_at(made.whole, pressures) - back))
    gain = np.zeros(released.shape[:2])
    for index, point in enumerate(made.points):
        if point.kind is Kind.LARGEST:
            gain = gain + _course_gain(job, made, point.course, released[..., index])
    return np.asarray(before + gain)


def _course_gain(job: Job, made: Forecast, number: int, growth: Array) -> Array:
    one, wall = job.tank.courses[number], made.walls[number]
    inner, outer = one.radius - 0.5 * one.wall, one.radius + 0.5 * one.wall
    state = wall.state
    slimming = np.asarray(state.axial_strain) / np.asarray(state.hoop_strain)
    axial = np.exp(slimming * np.log1p(growth)) - 1.0
    bore = np.sqrt((outer * (1.0 + growth)) ** 2 - (outer**2 - inner**2) / (1.0 + axial))
    before = np.pi * inner**2 * one.length
    return np.asarray(volumes.course_gain(before, bore / inner - 1.0, axial))


def elastic_swelling(job: Job, made: Forecast) -> PerPascal:
    """Relative gain of the volume per pascal while nothing yields; heads count as shell.

    Source: own-derivation, volumes.swelling of every course weighted by its volume.
    Checked: tests/unit/test_pumping.py (one course by hand).
    """
    tied = walls.shape_of(job) is Shape.OPEN
    carried = Carrying.TIED if tied else Carrying.CLOSED
    parts, weights = [], []
    for one, wall in zip(job.tank.courses, made.walls, strict=True):
        modulus = float(np.median(np.asarray(wall.elastic.youngs_modulus)))
        ratio = wall.elastic.poisson_ratio
        parts.append(float(volumes.swelling(one.radius, one.wall, modulus, ratio, carried)))
        weights.append(float(one.radius**2 * one.length))
    return float(np.average(parts, weights=weights))


def hose_give(job: Job, judged: Judged) -> CubicMetrePerPascal:
    """Water that the hose takes per pascal; none where the job states no hose."""
    line: Supply = job.supply
    if line.hose_length is None or line.hose_bore is None:
        return 0.0
    swelling = judged.hose_swelling.value
    temperature = job.water.temperature
    return float(
        supply.hose_compliance(line.hose_length, line.hose_bore, swelling, temperature)
    )


def compliance(job: Job, judged: Judged, made: Forecast) -> CubicMetrePerPascal:
    """Water for each pascal while nothing yields, hose included, air apart."""
    swelling = elastic_swelling(job, made)
    volume = size.volume(job.tank)
    hose = hose_give(job, judged)
    return float(volumes.compliance(volume, job.water.temperature, 0.0, swelling, hose))


def coming_back(job: Job, judged: Judged, made: Forecast, volume: Array, at: Pascal) -> Array:
    """Water that comes back on release: squeezed water, wall, air and hose, formed sizes."""
    growth = np.sqrt(volume / size.volume(job.tank))  # radius up, wall down: twice the growth
    swelling = elastic_swelling(job, made) * growth**2
    squeezed = volumes.squeezed_in(volume, job.water.temperature, at)
    air = volumes.air_give(job.water.air * size.volume(job.tank), at)
    return np.asarray(
        volume * swelling * at + squeezed + air + hose_give(job, judged) * np.asarray(at)
    )


def water_in(
    job: Job, judged: Judged, made: Forecast, pressures: Array, released: Array
) -> Array:
    """Water pumped from full to each pressure, (N, M); NaN in a burst draw.

        V released − V before + what comes back on release

    Source: own-derivation, sum of what takes water.
    Checked: tests/unit/test_pumping.py (elastic line by hand; rises with pressure).
    """
    volume = volume_now(job, made, pressures, released)
    back = coming_back(job, judged, made, volume, pressures)
    return np.asarray(volume - size.volume(job.tank) + back)

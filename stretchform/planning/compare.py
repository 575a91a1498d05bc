"""Measured circumferences beside the forecast: difference, and how many uncertainties it is.

The tape's thickness and the warmth of tape and tank are taken off first. A station near a head is
shown but not judged: the closed form does not know that the ends hold the wall back.
"""

from dataclasses import dataclass, replace

import numpy as np

from stretchform.errors import InputError
from stretchform.forming import membrane
from stretchform.forming.criterion import Shape
from stretchform.planning import forecast, outcome, walls
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.plan import Band, StationPlan
from stretchform.planning.tank import Course
from stretchform.si import Celsius, Growth, Metre, Pascal, Ratio
from stretchform.steel import gained
from stretchform.water import tape

LOADED, RELEASED = "under pressure", "released"
_REFERENCE: Celsius = 20.0  # temperature at which lengths are stated
_Z90 = 2.0 * 1.6449  # 5 to 95 % of a normal spread, in standard deviations


@dataclass(frozen=True, slots=True)
class Reading:
    """Tape readings of one station as read off the tape; None where not read."""

    station: str
    before: Metre | None
    under_pressure: Metre | None
    released: Metre | None
    line: int = 0  # in the file, for messages


@dataclass(frozen=True, slots=True)
class Compared:
    """One growth of one station; ratio None where it is not judged."""

    station: str
    quantity: str  # LOADED | RELEASED
    before: Metre  # corrected
    measured: Metre  # corrected
    predicted_growth: Band
    measured_growth: Growth
    difference: Growth  # measured less likely
    uncertainty: Growth  # standard, of prediction and measurement together
    ratio: Ratio | None  # difference over uncertainty
    wall: Metre  # from the measured growth
    gained_yield: Band
    gained_from_pressure: Band | None = None  # the cautious way; None: no pressure was stated


@dataclass(frozen=True, slots=True)
class Comparison:
    job: Job
    pressure: Pascal | None  # where the forecast was taken; None: at the target
    rows: tuple[Compared, ...]
    missing: tuple[str, ...]  # stations of the job without a reading
    near_head: tuple[str, ...]


def compare(
    job: Job,
    judged: Judged,
    readings: tuple[Reading, ...],
    pressure: Pascal | None = None,
    quick: bool = False,
) -> Comparison:
    """Hold readings against the forecast, at the target or at a stated forming pressure.

    quick: against the closed form, which cannot judge a station near a head.

    Source: own-derivation, differences with their combined standard uncertainty.
    Checked: tests/unit/test_compare.py (a tank that follows the forecast; one that does not).
    Raises InputError for a station that the job does not know or a reading that cannot be.
    """
    made = forecast.forecast(job, judged, quick)
    planned = {item.name: item for item in outcome.stations(job, made, pressure)}
    rows: list[Compared] = []
    for reading in readings:
        if reading.station not in planned:
            raise InputError(
                f'readings, line {reading.line}, station "{reading.station}"',
                "the job has no such station",
                f"one of: {', '.join(planned)}",
            )
        found = _rows(job, made, planned[reading.station], reading)
        if pressure is not None:
            found = [_with_pressure(job, made, judged, row, pressure) for row in found]
        rows += found
    seen = {reading.station for reading in readings}
    return Comparison(
        job=job,
        pressure=pressure,
        rows=tuple(rows),
        missing=tuple(name for name in planned if name not in seen),
        near_head=tuple(item.name for item in planned.values() if item.near_head),
    )


def true_circumference(job: Job, course: Course, reading: Metre) -> Metre:
    """Circumference of the wall at 20 °C from a tape reading.

        C = (reading (1 + a_tape dT) − pi t_tape) / (1 + a_tank dT), dT = water − 20 °C

    A diameter tape allows for its own thickness, so t_tape counts as zero there.

    Source: own-derivation, mid-plane of the tape half its thickness outside the wall.
    Checked: tests/unit/test_compare.py (thickness and temperature by hand).
    """
    warmth = job.water.temperature - _REFERENCE
    thickness = job.tape.thickness if job.tape.kind == "plain" else 0.0
    expansion = course.steel.thermal_expansion.value
    length = reading * (1.0 + job.tape.expansion * warmth) - np.pi * thickness
    return length / (1.0 + expansion * warmth)


def growth_uncertainty(job: Job, before: Metre, growth: Growth) -> Growth:
    """Standard uncertainty of a growth from two tape readings of the same station.

        u² = (u1² + (1 + g)² u0²)/C0²,  u0, u1: resolution/sqrt(3), skew and pull of the tape

    Source: gum, law of propagation (from memory).
    Checked: tests/unit/test_compare.py (by hand).
    """
    single = job.tape.resolution**2 / 3.0 + job.tape.skew**2 + (tape.PULL * before) ** 2
    return float(np.sqrt(single * (1.0 + (1.0 + growth) ** 2)) / before)


def _rows(job: Job, made: Forecast, station: StationPlan, reading: Reading) -> list[Compared]:
    nominal = station.circumference_before
    index = [course.name for course in job.tank.courses].index(station.course)
    course = job.tank.courses[index]
    before = nominal
    if reading.before is not None:
        before = true_circumference(job, course, reading.before)
        _sensible(reading, "before", before, nominal)
    found = []
    for quantity, value in ((LOADED, reading.under_pressure), (RELEASED, reading.released)):
        if value is None:
            continue
        measured = true_circumference(job, course, value)
        _sensible(reading, quantity, measured, nominal)
        found.append(_row(job, made, index, station, quantity, before, measured))
    return found


def _row(
    job: Job,
    made: Forecast,
    index: int,
    station: StationPlan,
    quantity: str,
    before: Metre,
    measured: Metre,
) -> Compared:
    loaded = quantity == LOADED
    predicted = station.growth_under_pressure if loaded else station.growth_released
    growth = float(measured / before - 1.0)
    difference = growth - predicted.likely
    own = growth_uncertainty(job, before, growth)
    uncertainty = float(np.hypot(own, (predicted.high - predicted.low) / _Z90))
    wall, strength = _as_formed(made, index, growth, loaded)
    return Compared(
        station=station.name,
        quantity=quantity,
        before=before,
        measured=measured,
        predicted_growth=predicted,
        measured_growth=growth,
        difference=difference,
        uncertainty=uncertainty,
        ratio=None if station.near_head else difference / uncertainty,
        wall=wall,
        gained_yield=strength,
    )


def _as_formed(made: Forecast, index: int, growth: Growth, loaded: bool) -> tuple[Metre, Band]:
    """Wall and gained yield strength that belong to a measured growth, over all draws."""
    wall = made.walls[index]
    strain = walls.strain_at_outside(wall, max(float(growth), 0.0), under_pressure=loaded)
    grown = membrane.grown(wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic)
    left = grown.wall_under_pressure if loaded else grown.wall_released
    flow = np.asarray(wall.test_rate_curve.stress(strain)) * made.draws.gained[:, None]
    return float(np.median(left)), outcome.band(np.ravel(flow))


def _with_pressure(
    job: Job, made: Forecast, judged: Judged, row: Compared, pressure: Pascal
) -> Compared:
    """The row with the proof strength that the pressure tells: highest C, away from heads."""
    index = next(i for i, point in enumerate(made.points) if point.name == row.station)
    point = made.points[index]
    wall = made.walls[point.course]
    if outcome.near_head(job, point.height, job.tank.courses[point.course]):
        return row  # the ends carry a part of the pressure there
    grown = max(float(row.measured_growth), 0.0)
    strain = walls.strain_at_outside(wall, grown, row.quantity == LOADED)
    loaded = walls.outside_growth(wall, strain, under_pressure=True)
    state = membrane.grown(wall.radius, wall.wall, strain, wall.curve, wall.state, wall.elastic)
    thickness = np.asarray(state.wall_under_pressure)
    outside = (np.asarray(wall.radius) + 0.5 * wall.wall) * (1.0 + np.asarray(loaded))
    factors = judged.gained
    found = gained.gained_from_pressure(
        pressure + float(made.heads_of_water[index]),
        outside - 0.5 * thickness,
        thickness,
        judged.criterion.high.value if wall.shape is Shape.CLOSED else 1.0,
        (factors.low.value, factors.likely.value, factors.high.value),
    )
    low, likely, high = (
        float(np.median(np.asarray(value))) for value in (found.low, found.likely, found.high)
    )
    return replace(row, gained_from_pressure=Band(low, likely, high))


def _sensible(reading: Reading, quantity: str, value: Metre, nominal: Metre) -> None:
    if not 0.95 * nominal <= value <= 1.3 * nominal:
        raise InputError(
            f'readings, line {reading.line}, station "{reading.station}", {quantity}',
            f"a circumference of {1e3 * value:.1f} mm cannot be: the job starts at "
            f"{1e3 * nominal:.1f} mm",
            f"a circumference (not a diameter) near {1e3 * nominal:.1f} mm, with its unit",
        )

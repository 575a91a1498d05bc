"""The places on the shell where growth is forecast, and the water that stands above them."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from stretchform.planning import size
from stretchform.planning.job import Job
from stretchform.planning.tank import Attitude
from stretchform.si import STANDARD_GRAVITY, Array, Metre
from stretchform.water import properties

_PROFILE = 25  # heights of the profile


class Kind(StrEnum):
    """What a place is forecast for."""

    STATION = "station"  # the circumference is measured there
    LARGEST = "largest"  # where its course grows most
    PLATE = "plate"  # an internal plate stands there
    PROFILE = "profile"  # for the picture of growth along the shell


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the shell where growth is forecast."""

    name: str
    height: Metre  # above the lower tangent line
    course: int
    kind: Kind

    @property
    def station(self) -> bool:
        return self.kind is Kind.STATION


def points_of(job: Job, largest: Sequence[Metre] | None = None) -> tuple[Point, ...]:
    """All stations, every height with a plate, then for each course where it grows most.

    `largest`: one height a course; without it the lower edges, where in the closed form the
    water's weight makes a course grow most, and no plates.

    Source: own-derivation, definitions.
    Checked: tests/unit/test_forecast.py (order and heights).
    """
    names = [course.name for course in job.tank.courses]
    stations = [
        Point(station.name, station.height, names.index(station.course), Kind.STATION)
        for station in job.tank.stations
    ]
    heights = sorted({height for plate in job.tank.plates for height in plate.heights})
    heights = [] if largest is None else heights  # the closed form knows no profile
    plates = [
        Point(f"plate at {height:.4f}", height, course_at(job, height), Kind.PLATE)
        for height in heights
    ]
    most = job.tank.edges if largest is None else largest
    edges = [
        Point(name, height, index, Kind.LARGEST)
        for index, (name, height) in enumerate(zip(names, most, strict=False))
    ]
    return (*stations, *plates, *_profile(job, largest), *edges)


def _profile(job: Job, largest: Sequence[Metre] | None) -> list[Point]:
    if largest is None:
        return []
    heights = np.linspace(0.0, float(job.tank.length), _PROFILE)
    return [
        Point(f"at {height:.4f}", float(height), course_at(job, float(height)), Kind.PROFILE)
        for height in heights
    ]


def course_at(job: Job, height: Metre) -> int:
    """Index of the course at a height; the nearest one beside a straight flange.

    Source: own-derivation, edges of the courses.
    Checked: tests/unit/test_build.py (heights on both sides of a joint).
    """
    edges = np.array(job.tank.edges)
    place = int(np.searchsorted(edges, height, side="right")) - 1
    return int(np.clip(place, 0, len(job.tank.courses) - 1))


def water_above(job: Job, points: tuple[Point, ...]) -> Array:
    """Pressure of the water between the top of the tank and each point, (points,).

        rho g (top − height); a lying tank counts its whole diameter everywhere

    Source: own-derivation, hydrostatics.
    Checked: tests/unit/test_forecast.py (9.79 kPa a metre at 20 °C).
    """
    heights = np.array([float(point.height) for point in points])
    weight = properties.density(job.water.temperature, 0.0) * STANDARD_GRAVITY
    if job.tank.attitude is Attitude.LYING:
        depth = 2.0 * max(float(course.radius) for course in job.tank.courses)
        return np.full(len(points), depth * weight)
    return np.asarray((size.top_height(job.tank) - heights) * weight)


def target_points(job: Job, points: tuple[Point, ...]) -> list[int]:
    """Places that the target speaks of: the lower edges of all courses, or the named station.

    Source: own-derivation, the target's own definition.
    Checked: tests/unit/test_forecast.py (largest and named).
    """
    if job.target.station == "largest":
        return [index for index, point in enumerate(points) if point.kind is Kind.LARGEST]
    names = [point.name if point.station else "" for point in points]
    return [names.index(job.target.station)]

"""The target, whatever the user fixed, as a growth of the outside circumference."""

import numpy as np

from stretchform.errors import NoSolution
from stretchform.forming import surface
from stretchform.planning.job import Job, TargetKind
from stretchform.planning.sample import Draws
from stretchform.planning.tank import Course
from stretchform.planning.walls import Wall, shape_of
from stretchform.si import Array, Growth, Metre, Pascal, Ratio, Strain
from stretchform.steel.curve import Curve

_LARGEST = 0.20  # growth: beyond it no steel of the library is known


def course_of(job: Job) -> int | None:
    """Index of the course whose growth is the target; None for the largest of all."""
    if job.target.station == "largest":
        return None
    station = next(item for item in job.tank.stations if item.name == job.target.station)
    return [course.name for course in job.tank.courses].index(station.course)


def growth(job: Job, course: Course, wall: Wall, gained: Ratio) -> Growth:
    """Growth of one course's outside circumference that fulfils the target.

        growth = D / D0 − 1; an inside diameter through the constant area of the wall's section;
        a gained strength Y through the curve: gained · s(x) = Y

    `gained` is the likely share of gained proof strength over flow stress.

    Source: own-derivation, definitions and constant volume of the wall.
    Checked: tests/unit/test_target.py (each kind against the others).
    Raises NoSolution for a target that is smaller than the start or out of reach.
    """
    outside = course.radius + 0.5 * course.wall
    kind, value = job.target.kind, job.target.value
    if kind is TargetKind.GROWTH:
        result: Growth = value
    elif kind is TargetKind.OUTSIDE_DIAMETER:
        result = value / (2.0 * outside) - 1.0
    elif kind is TargetKind.OUTSIDE_CIRCUMFERENCE:
        result = value / (2.0 * np.pi * outside) - 1.0
    elif kind is TargetKind.INSIDE_DIAMETER:
        result = _from_inside(course, value)
    else:
        result = _from_strength(job, course, wall, value / gained)
    if not 0.0 < float(result) <= _LARGEST:
        raise NoSolution(
            f'[target] {kind.value}, course "{course.name}"',
            f"it asks for {100.0 * float(result):.2f} % of growth; 0 to 20 % can be planned",
            "a target above the starting size and within 20 % of it",
        )
    return result


def true_growth(job: Job, draws: Draws, course: int, wanted: Growth) -> Array:
    """Growth that each draw has in truth when the tape shows the target, (N, 1).

        growth − tape error; for a size as target also − (1 + growth)·(diameter/nominal − 1)

    Source: own-derivation, definitions of the two errors.
    Checked: tests/unit/test_target.py (true_growth of a growth and of a size).
    """
    true = wanted - draws.tape
    if job.target.kind not in (TargetKind.GROWTH, TargetKind.GAINED_YIELD_STRENGTH):
        true = true - (1.0 + wanted) * (draws.diameter_of(course) - 1.0)
    return np.asarray(true)[:, None]


def _from_inside(course: Course, diameter: Metre) -> Growth:
    inner, outer = course.radius - 0.5 * course.wall, course.radius + 0.5 * course.wall
    grown = np.sqrt((0.5 * diameter) ** 2 + outer**2 - inner**2)
    return float(grown / outer - 1.0)


def _from_strength(job: Job, course: Course, wall: Wall, stress: Pascal) -> Growth:
    strain = strain_at_stress(course.steel.curve, stress)
    hoop = float(np.median(np.asarray(wall.state.hoop_strain))) * strain
    axial = float(np.median(np.asarray(wall.state.axial_strain))) * strain
    mid = float(np.expm1(hoop))
    shape = shape_of(job)
    return surface.outside_from_mid(shape, course.radius, course.wall, mid, axial)


def strain_at_stress(curve: Curve, stress: Pascal) -> Strain:
    """Equivalent plastic strain at which the flow stress reaches a value, by bisection.

    Source: own-derivation, inverse of a rising curve.
    Checked: tests/unit/test_target.py (round trip).
    Raises NoSolution where the curve never reaches it.
    """
    low, high = curve.strain_start, curve.strain_limit
    first, last = float(curve.stress(np.float64(low))), float(curve.stress(np.float64(high)))
    if not first < float(stress) < last:
        raise NoSolution(
            "[target] gained_yield_strength",
            f"it needs a flow stress of {float(stress) / 1e6:.0f} MPa, but the curve runs from "
            f"{first / 1e6:.0f} to {last / 1e6:.0f} MPa",
            "a strength between these, or a growth as target",
        )
    for _ in range(60):
        middle = 0.5 * (low + high)
        if float(curve.stress(np.float64(middle))) < float(stress):
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def growths(job: Job, walls: tuple[Wall, ...], gained: Ratio) -> Array:
    """The target growth of every course, (courses,); NaN for those that a named station omits.

    Source: own-derivation, `growth` for each course.
    Checked: tests/unit/test_target.py (each kind against the others).
    """
    chosen = course_of(job)
    found = np.full(len(walls), np.nan)
    for index, (course, wall) in enumerate(zip(job.tank.courses, walls, strict=True)):
        if chosen in (None, index):
            found[index] = float(growth(job, course, wall, gained))
    return found

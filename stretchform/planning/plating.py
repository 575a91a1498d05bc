"""The internal plates of the job: travel at their height, arms, slots, notches and checks.

All plates of a row are cut alike: the arm is sized where the wall travels most, and every other
plate of the row is checked with the same arm at its own height.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import isfinite, pi, sqrt

import numpy as np

from stretchform.errors import InputError
from stretchform.planning import outcome
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.places import Kind, Point, course_at
from stretchform.planning.plan import Band, NotchPlan, PlatePlan
from stretchform.planning.tank import Hand, Plate
from stretchform.plates import design, drainage, geometry, notching, strength
from stretchform.plates.case import PlateCase, PlateResult
from stretchform.si import Array, Growth, Metre, Ratio, SquareMetre

_FULL_TURN = 2.0 * pi - 1e-9


def plates(job: Job, made: Forecast, forming: Band, stop: Growth) -> tuple[PlatePlan, ...]:
    """Each plate at each of its heights, for the high growth under pressure there.

    `stop`: largest growth under pressure at which the work stops for good; an arm must still
    have room there, its own tolerance counted.

    In the quick closed form the growth is the largest of the course. Where no draw reaches the
    target, it is that at the maximum pressure. The hardest plate of each row is solved by the
    beam as well.

    Source: own-derivation, plates.design at the forecast growth.
    Checked: tests/unit/test_build.py (travel equals radius times growth).
    """
    loaded, released = growth_at(made, made.target_pressure[:, None])
    beyond = _beyond(loaded, stop)
    found: list[PlatePlan] = []
    for plate in job.tank.plates:
        cases = []
        for height in plate.heights:
            index = _point(job, made, height)
            growth = loaded[:, 0, index], released[:, 0, index]
            cases.append(_case(job, made, plate, made.points[index], growth, forming, beyond))
        found += _row(job, made, plate, cases)
    return tuple(found)


def _beyond(loaded: Array, stop: Growth) -> Ratio:
    """Growth at which the work stops over the likely largest growth at the target."""
    largest = outcome.band_of_answers(outcome.largest(loaded)[:, 0]).likely
    return float(stop) / largest if isfinite(largest) and largest > 0.0 else 1.0


def hardest(row: Sequence[PlatePlan]) -> PlatePlan:
    """The plate with the worst result by the closed formulas, and of those the longest travel.

    Source: own-derivation, order of the results.
    Checked: tests/unit/planning/test_plating.py (hardest of a row).
    """
    rank = {"ok": 0, "care": 1, "fails": 2}

    def weight(plate: PlatePlan) -> tuple[bool, int, float]:
        worst = max((rank[check.result] for check in plate.result.checks), default=0)
        return bool(plate.result.refused), worst, float(plate.result.travel)

    return max(row, key=weight)


def judged(row: Sequence[PlatePlan]) -> PlateResult:
    """The result that decides for a row: that of its hardest plate, by the beam.

    Source: own-derivation, all plates of a row are cut alike.
    Checked: tests/unit/planning/test_plating.py (judged by the beam).
    """
    worst = hardest(row)
    return worst.result if worst.exact is None else worst.exact


def failing(found: Sequence[PlatePlan]) -> tuple[str, ...]:
    """Names of the rows that must not be built as they are.

    Source: own-derivation, `judged` of each row.
    Checked: tests/unit/planning/test_plating.py (failing and passing rows).
    """
    rows: dict[str, list[PlatePlan]] = {}
    for plate in found:
        rows.setdefault(plate.name, []).append(plate)
    return tuple(name for name, row in rows.items() if not judged(row).passes)


def _row(job: Job, made: Forecast, plate: Plate, cases: list[PlateCase]) -> list[PlatePlan]:
    """All plates of a row with the one arm that is sized for the longest travel."""
    most = max(cases, key=lambda case: float(design.travels(case).arm))
    arm = _arm_length(most)
    if plate.arm is not None and arm > 0.0:
        cases = [replace(case, length=arm) for case in cases]
    row = []
    for height, case in zip(plate.heights, cases, strict=True):
        result, area = design.size(case), _area(plate, case)
        course = job.tank.courses[course_at(job, height)]
        near = made.whole is None and outcome.near_head(job, height, course)
        notches = _notches(job, plate, case, result, area)
        row.append(PlatePlan(plate.name, height, near, result, case, area, notches))
    worst = hardest(row)
    solved = replace(worst, exact=design.size(worst.case, exact=True))
    return [solved if one is worst else one for one in row]


def _arm_length(case: PlateCase) -> float:
    """Length of the arm; where none will do, the least steep one, to tell its strain and force.

    A bowed bridge is least steep at sqrt(2 travel radius), as far as the rim has room for it.
    """
    found = float(design.size(case).arm_length)
    if isfinite(found):
        return found
    rim = float(case.span) * float(case.radius) / case.tabs
    room = 0.45 * rim - float(case.tab_length) / 2.0
    least = sqrt(2.0 * float(design.travels(case).arm) * float(case.radius))
    return max(min(least, room), 1e-3)


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


def _case(
    job: Job,
    made: Forecast,
    plate: Plate,
    point: Point,
    growth_there: tuple[Array, Array],
    forming: Band,
    beyond: Ratio,
) -> PlateCase:
    course, (loaded, released) = job.tank.courses[point.course], growth_there
    good = ~np.isnan(loaded)
    growth, springback = outcome.band(made.growth_at_maximum).high, 0.0
    if np.any(good):
        there = outcome.band(loaded[good])
        room = float(beyond * there.likely) / geometry.TRAVEL_TOLERANCE
        growth = max(there.high, room, 0.0)
        springback = float(np.median((loaded - released)[good]))
    arm, steel = plate.arm, plate.steel or course.steel
    return PlateCase(
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
        relieved=plate.relieved,
        same_hand=arm.hand is not Hand.MIXED if arm else True,
        annealed=plate.annealed,
        youngs_modulus=steel.youngs_modulus.value,
        wall_curve=course.steel.curve,
        density=steel.density.value,
        span=plate.span,
    )


def _area(plate: Plate, case: PlateCase) -> SquareMetre:
    inside = float(case.radius) - float(case.wall) / 2.0
    whole = strength.plate_area(inside, case.clearance, case.ring_width)
    return float(whole) * float(plate.span) / (2.0 * pi)


def _notches(
    job: Job, plate: Plate, case: PlateCase, result: PlateResult, area: SquareMetre
) -> NotchPlan | None:
    """Vent and drain notch, where they find room beside the arms."""
    if not plate.notches or plate.span < _FULL_TURN or not isfinite(float(result.arm_length)):
        return None
    wanted = drainage.notches(job.tank.attitude.value, area)
    try:
        places = notching.place(case, result, wanted.radius, hand_of(plate))
    except InputError:  # the arm cannot be drawn: its checks say why
        places = None
    vent, drain = places or (None, None)
    return NotchPlan(wanted.radius, vent, drain, wanted.level, wanted.film)


def hand_of(plate: Plate) -> int:
    """1: arms point clockwise from their tabs, -1: the other way.

    Source: own-derivation, definition.
    Checked: tests/unit/planning/test_plating.py (hand_of both).
    """
    return -1 if plate.arm is not None and plate.arm.hand is Hand.ANTICLOCKWISE else 1

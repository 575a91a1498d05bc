"""What the heads do while the shell is formed, and where openings hold the wall back.

Head figures come from the fine whole-tank shell of the medians. Wrinkles around a knuckle are
not seen by that model: where the hoop stress turns compressive, handbook pressures say how
closely to look. Nothing is computed at openings: their places are flagged.
"""

import numpy as np

from stretchform.forming import heads
from stretchform.forming.heads import Torisphere
from stretchform.planning import outcome
from stretchform.planning.forecast import Forecast, growth_at
from stretchform.planning.job import Job
from stretchform.planning.places import Kind
from stretchform.planning.plan import Band, HeadPlan, OpeningPlan, Profile, Wrinkling
from stretchform.planning.tank import Course, Head, HeadShape, Opening
from stretchform.si import Metre, Pascal
from stretchform.water import ejection

KEEP_OUT = 0.5  # radii beyond the edge of an opening within which growth is not claimed; judged
_TEST_OVER_ALLOWABLE = 1.5


def head_plans(job: Job, made: Forecast, forming: Band) -> tuple[HeadPlan, ...]:
    """Both heads at about the likely forming pressure; empty for the quick closed form.

    Source: own-derivation, the whole-tank shell; handbook pressures as named in forming.heads.
    Checked: tests/unit/test_ends.py (a thin torisphere is flagged, a hemisphere is not).
    """
    if made.whole is None:
        return ()
    tank, central = job.tank, made.whole.central
    ends = (
        ("head.bottom", tank.bottom, tank.courses[0], central.heads[0]),
        ("head.top", tank.top, tank.courses[-1], central.heads[1]),
    )
    found = []
    for name, head, course, seen in ends:
        if head.shape is HeadShape.TIED:
            continue
        lowest = _first(seen.lowest_hoop)
        found.append(
            HeadPlan(
                name=name,
                shape=head.shape.value,
                first_yield_pressure=_first(seen.first_yield),
                depth_change=_first(seen.depth_change),
                depth_change_released=_first(seen.depth_change_released),
                lowest_hoop_stress=lowest,
                lowest_hoop_at=_first(seen.lowest_hoop_at),
                largest_strain=_first(seen.largest_strain),
                wrinkling=_wrinkling(head, course, lowest, forming.likely),
            )
        )
    return tuple(found)


def _first(values: Pascal) -> float:
    return float(np.ravel(np.asarray(values))[0])


def _wrinkling(head: Head, course: Course, lowest: Pascal, forming: Pascal) -> Wrinkling | None:
    """Handbook pressures beside the forming pressure, where the head asks for a look."""
    inside = 2.0 * float(course.radius) - float(course.wall)
    if not heads.wrinkling_asks_for_a_look(inside, head.wall, lowest):
        return None
    dish = equivalent(head, inside)
    if dish is None:
        return None
    proof = float(head.steel.proof_02)
    allowable = heads.allowable(dish, proof, proof / _TEST_OVER_ALLOWABLE)
    modulus = head.steel.youngs_modulus.value
    return Wrinkling(
        forming_over_limit=float(forming)
        / (_TEST_OVER_ALLOWABLE * _first(allowable.knuckle_buckling)),
        allowable_en=_first(allowable.knuckle_buckling),
        in_range_en=bool(np.ravel(allowable.in_range)[0]),
        allowable_galletly=_first(heads.buckling_estimate(dish, proof, of_collapse=False)),
        collapse_galletly=_first(heads.buckling_estimate(dish, proof, of_collapse=True)),
        allowable_asme=_first(heads.knuckle_buckling(dish, proof, modulus).allowable),
    )


def equivalent(head: Head, inside: Metre) -> Torisphere | None:
    """Torisphere by which a head is judged for wrinkles; None for a hemisphere or a flat end.

    Source: en-13445-3, 7.5.4 for the ellipsoid (from memory).
    Checked: tests/unit/test_ends.py (each kind).
    """
    if head.shape is HeadShape.ELLIPSOID:
        return heads.equivalent_torisphere(inside, head.wall)
    if head.shape is HeadShape.TORISPHERE:
        crown = inside if head.crown_radius is None else head.crown_radius
        knuckle = 0.1 * inside if head.knuckle_radius is None else head.knuckle_radius
        return Torisphere(inside, crown, knuckle, head.wall)
    return None


def opening_plans(job: Job, forming: Band) -> tuple[OpeningPlan, ...]:
    """Each opening: thrust on its cover, and the stations and plates within its keep-out.

    Source: own-derivation, keep-out judged as half a radius beyond the edge.
    Checked: tests/unit/test_ends.py (stations on both sides of the keep-out).
    """
    return tuple(_opening(job, opening, forming.high) for opening in job.tank.openings)


def _opening(job: Job, opening: Opening, pressure: Pascal) -> OpeningPlan:
    courses = {course.name: course for course in job.tank.courses}
    thrust = float(ejection.end_thrust(pressure, 0.5 * opening.bore))
    if opening.place not in courses or opening.height is None:
        return OpeningPlan(opening.name, opening.place, thrust, 0.0, (), ())
    reach = 0.5 * float(opening.bore) + KEEP_OUT * float(courses[opening.place].radius)
    centre = float(opening.height)

    def inside(height: Metre) -> bool:
        return bool(np.abs(height - centre) < reach)

    stations = tuple(item.name for item in job.tank.stations if inside(item.height))
    plates = tuple(
        plate.name
        for plate in job.tank.plates
        if any(inside(height) for height in plate.heights)
    )
    return OpeningPlan(opening.name, opening.place, thrust, reach, stations, plates)


def profile(job: Job, made: Forecast) -> Profile | None:
    """Growth along the shell at the target with its band, and the tank's outline; for pictures.

    Source: own-derivation, the whole-tank forecast at every draw's own target pressure.
    Checked: tests/unit/test_ends.py (largest where the station says so).
    """
    if made.whole is None:
        return None
    loaded, released = growth_at(made, made.target_pressure[:, None])
    chosen = [index for index, point in enumerate(made.points) if point.kind is Kind.PROFILE]
    bands = [outcome.band_of_answers(released[:, 0, index]) for index in chosen]
    under = [outcome.band_of_answers(loaded[:, 0, index]).likely for index in chosen]
    outline = made.whole.central.outline
    return Profile(
        heights=np.array([float(made.points[index].height) for index in chosen]),
        released_low=np.array([item.low for item in bands]),
        released_likely=np.array([item.likely for item in bands]),
        released_high=np.array([item.high for item in bands]),
        under_pressure=np.array(under),
        radius_before=np.asarray(outline.radius),
        height_before=np.asarray(outline.height),
        radius_released=np.asarray(outline.radius_released)[0],
        height_released=np.asarray(outline.height_released)[0],
    )

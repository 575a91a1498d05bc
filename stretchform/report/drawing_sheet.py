"""One plate ready to be drawn: its contours, the numbers of the plan, and the words beside it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees, pi

from stretchform.errors import InputError
from stretchform.planning import plating
from stretchform.planning.plan import Plan, PlatePlan
from stretchform.planning.tank import Plate
from stretchform.plates import contour, offset, outline
from stretchform.plates.case import PlateCase, PlateResult
from stretchform.plates.contour import Contour
from stretchform.plates.outline import Drawing, Hole, Notch
from stretchform.plates.tab_path import TabShape
from stretchform.report import words_plates
from stretchform.si import Metre
from stretchform.units import write

_SAME_SIZE = 0.05e-3  # m: plates that differ by less are cut alike


@dataclass(frozen=True, slots=True)
class Sheet:
    """What is drawn of one row of plates; `cut` is the path of the cut, `drawing` the plate."""

    name: str
    title: str
    example: bool  # demo data: says so on every drawing
    case: PlateCase
    result: PlateResult
    shape: TabShape
    drawing: Drawing
    cut: tuple[Contour, ...]
    kerf: Metre
    hand: int
    notches: tuple[Notch, ...]
    holes: tuple[Hole, ...]
    facts: tuple[tuple[str, str], ...]  # what, size: as in the plan


def sheet(plan: Plan, name: str, kerf: Metre = 0.0) -> Sheet:
    """The drawing of a row of plates with the numbers that its plan holds.

    Raises InputError where the plates of the row are no single size or cannot be drawn,
    NoSolution where no arm was found.
    """
    row = [plate for plate in plan.plates if plate.name == name]
    built = next(plate for plate in plan.job.tank.plates if plate.name == name)
    _refuse_two_sizes(row)
    worst, result = plating.hardest(row), plating.judged(row)
    hand = plating.hand_of(built)
    notches, holes = _notches(worst), _holes(built)
    drawing = outline.draw(worst.case, result, notches=notches, holes=holes, hand=hand)
    half = float(kerf) / 2.0
    cut = tuple(offset.beside(each, half) for each in drawing.contours)
    return Sheet(
        name=name,
        title=f'{plan.job.name}: plate "{name}"',
        example=plan.job.example,
        case=worst.case,
        result=result,
        shape=outline.tab_shape(worst.case, result),
        drawing=drawing,
        cut=cut,
        kerf=float(kerf),
        hand=hand,
        notches=notches,
        holes=holes,
        facts=_facts(plan, row, worst, result, drawing),
    )


def _refuse_two_sizes(row: Sequence[PlatePlan]) -> None:
    """One drawing serves a row only if all its plates have the same rim."""
    rims = [float(one.case.radius) - float(one.case.wall) / 2.0 for one in row]
    if max(rims) - min(rims) > _SAME_SIZE:
        problem = "its plates stand in courses of different inside diameters"
        fix = 'a row for each course: [[plate]] name = "ring lower" ... like = "ring"'
        raise InputError(f'plate "{row[0].name}"', problem, fix)


def _notches(plate: PlatePlan) -> tuple[Notch, ...]:
    found = plate.notches
    if found is None or found.vent is None or found.drain is None:
        return ()
    return Notch(found.vent, found.radius), Notch(found.drain, found.radius)


def _holes(plate: Plate) -> tuple[Hole, ...]:
    """Places of the holes in the plane of the plate, y to the first tab."""
    import numpy as np

    return tuple(
        Hole(
            float(hole.from_centre) * float(np.sin(hole.angle)),
            float(hole.from_centre) * float(np.cos(hole.angle)),
            hole.diameter,
        )
        for hole in plate.holes
    )


def size(value: Metre) -> str:
    """A size on a drawing: millimetres, two places."""
    return write(float(value), "mm", 2)


def _facts(
    plan: Plan,
    row: Sequence[PlatePlan],
    worst: PlatePlan,
    result: PlateResult,
    drawing: Drawing,
) -> tuple[tuple[str, str], ...]:
    """Every size of the plate, then what is drawn for reference."""
    case, shape = worst.case, outline.tab_shape(worst.case, result)
    built = next(plate for plate in plan.job.tank.plates if plate.name == worst.name)
    steel = built.steel or plan.job.tank.courses[0].steel
    inner = float(shape.rim) - float(case.ring_width or shape.rim)
    around = "full turn" if case.span >= 2.0 * pi - 1e-9 else f"{degrees(case.span):.1f}°"
    found = [
        ("pieces", f"{len(row)}, sheet {size(case.thickness)}, {steel.key}"),
        ("rim diameter", size(2.0 * float(shape.rim))),
        ("opening diameter", size(2.0 * inner) if inner > 0.0 else "none: full plate"),
        ("around", around),
        ("tabs", f"{case.tabs}, each {size(case.tab_length)} along the wall"),
        *_arm_facts(case, result, shape),
        *_notch_facts(worst),
        ("holes", f"{len(built.holes)}"),
        ("wall inside, before", size(2.0 * float(drawing.wall_before))),
        ("wall inside, formed", size(2.0 * float(drawing.wall_after))),
        ("tab clearance before", size(result.clearance_before)),
        ("tab clearance after", size(result.clearance_after)),
        ("area", f"{1e4 * area(drawing.contours):.2f} cm²"),
        ("length of all contours", size(length(drawing.contours))),
    ]
    return tuple(found)


def _arm_facts(case: PlateCase, result: PlateResult, shape: TabShape) -> list[tuple[str, str]]:
    if case.kind == "sliding":
        return [
            ("arm", "sliding tab on a pin"),
            ("pin", size(case.depth)),
            ("slot width", size(result.slot_width)),
            ("slot length", size(result.slot_length)),
        ]
    if not shape.limbs:
        return [("arm", "none")]
    way = "straight" if case.straight else "concentric"
    limbs = f", {case.limbs} limbs" if case.kind == "folded" else ""
    return [
        ("arm", f"{case.kind}, {way}{limbs}"),
        ("arm clear length", size(result.arm_length)),
        ("arm depth", size(result.arm_depth)),
        ("wall to arm at the tab", size(result.stalk)),
        ("slot width", size(result.slot_width)),
        ("slot end radius", size(result.slot_end_radius)),
        ("foot of the tab", f"{size(shape.foot)} high, neck {size(shape.neck)}"),
    ]


def _notch_facts(plate: PlatePlan) -> list[tuple[str, str]]:
    found = plate.notches
    if found is None:
        return []
    if found.vent is None or found.drain is None:
        return [("notches", words_plates.NO_ROOM)]
    places = f"vent at {degrees(found.vent):.1f}°, drain at {degrees(found.drain):.1f}°"
    return [("notches", f"R {size(found.radius)}, {places}")]


def area(contours: Sequence[Contour]) -> float:
    """Area of the plate, openings taken off."""
    return sum(float(contour.signed_area(each)) for each in contours)


def length(contours: Sequence[Contour]) -> float:
    """Length of all contours together."""
    return sum(float(contour.length(each)) for each in contours)

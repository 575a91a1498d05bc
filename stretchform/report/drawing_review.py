"""Is a drawing fit to be cut? Validity, crossing and duplicate contours, least web and hole.

A web is the narrowest piece of plate: between two contours, or across an arm. Both it and the
narrowest opening must be as wide as the sheet is thick (common practice, no source); and no web
may be narrower than the arms, or the plate would yield there and not where it was computed.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Any

from stretchform.errors import InputError
from stretchform.plates import contour
from stretchform.plates.contour import Contour
from stretchform.report.drawing_sheet import size
from stretchform.si import Metre

if TYPE_CHECKING:
    from shapely.geometry import Polygon

_SAG = 2e-6  # m: polygons leave their arcs by no more
_SAME = 1e-8  # m²: contours that differ by less are duplicates
_HALVINGS = 12
_ARM_KEPT = 0.97  # judged: of the arm's depth, for the width of the cut
_CORNER = 1.5  # a corner of 20° or more leaves less, in squares of the web
_NARROWEST, _WIDEST_WEB = 2e-4, 0.02  # m: narrower or wider ones are of no interest
_STEP = 1.15


@dataclass(frozen=True, slots=True)
class Review:
    """What was found; `faults` is empty where the drawing may be cut."""

    web: Metre  # narrowest piece of plate, at most 20 mm
    hole: Metre | None  # narrowest opening; None: no opening
    faults: tuple[str, ...]


def review(contours: Sequence[Contour], thickness: Metre, arm: Metre = 0.0) -> Review:
    """Look at the contours of one plate; `arm`: depth of its arms, 0 without arms."""
    polygons = [_polygon(each) for each in contours]
    faults = [*_invalid(polygons), *_together(contours, polygons)]
    if faults:
        return Review(0.0, None, tuple(faults))
    web, holes = _web(contours, polygons), _holes(contours, polygons)
    hole = min(holes, default=None)
    if web < float(thickness):
        faults.append(f"a web of {size(web)} is narrower than the sheet is thick")
    elif web < _ARM_KEPT * float(arm):
        faults.append(
            f"a web of {size(web)}, next to the end of a slot, is narrower than the arms, which "
            f"are {size(arm)} deep: the plate would yield there"
        )
    if hole is not None and hole < float(thickness):
        faults.append(f"an opening of {size(hole)} is narrower than the sheet is thick")
    return Review(web, hole, tuple(faults))


def web(found: Review) -> str:
    """The narrowest web in words."""
    more = " or more" if found.web >= _WIDEST_WEB else ""
    return size(found.web) + more


def refuse(found: Review, name: str) -> None:
    """Raise InputError with everything that keeps a drawing from being cut."""
    if found.faults:
        fix = "wider ring_width, shorter arms, fewer tabs or holes elsewhere"
        raise InputError(f'plate "{name}"', "; ".join(found.faults), fix)


def _polygon(each: Contour) -> "Polygon":
    from shapely.geometry import Polygon

    return Polygon(contour.points(each, _SAG))


def _invalid(polygons: Sequence["Polygon"]) -> list[str]:
    from shapely.validation import explain_validity

    return [
        f"contour {index + 1} crosses itself: {explain_validity(each)}"
        for index, each in enumerate(polygons)
        if not each.is_valid or each.area <= 0.0
    ]


def _together(contours: Sequence[Contour], polygons: Sequence["Polygon"]) -> list[str]:
    """Duplicate contours, openings across the rim or across each other."""
    found = []
    if sum(not each.opening for each in contours) != 1:
        found.append("not exactly one outline")
    for one, two in combinations(range(len(contours)), 2):
        first, second = polygons[one], polygons[two]
        if not (first.is_valid and second.is_valid):
            continue
        if first.symmetric_difference(second).area < _SAME:
            found.append(f"contours {one + 1} and {two + 1} are the same")
        elif contours[one].opening == contours[two].opening:
            if first.intersects(second):
                found.append(f"contours {one + 1} and {two + 1} cross")
        else:
            outer, hole = (second, first) if contours[one].opening else (first, second)
            if not outer.contains(hole) or outer.exterior.intersects(hole):
                found.append(f"contours {one + 1} and {two + 1} cross")
    return found


def _web(contours: Sequence[Contour], polygons: Sequence["Polygon"]) -> float:
    """Least distance between contours, or least width of the plate, whichever is less."""
    apart = min(
        (one.exterior.distance(two.exterior) for one, two in combinations(polygons, 2)),
        default=_WIDEST_WEB,
    )
    body: Any = next(
        each for each, of in zip(polygons, contours, strict=True) if not of.opening
    )
    for each, of in zip(polygons, contours, strict=True):
        body = body.difference(each) if of.opening else body
    low, high, widest = 0.0, _NARROWEST, min(apart, _WIDEST_WEB)
    while not _narrower(body, high):
        if high >= widest:
            return widest
        low, high = high, min(_STEP * high, widest)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if _narrower(body, middle) else (middle, high)
    return low


def _narrower(body: Any, width: float) -> bool:
    """Whether some piece of plate, corners apart, is narrower than a width."""
    half = 0.5 * width
    opened = body.buffer(-half, quad_segs=16).buffer(1.002 * half, quad_segs=16)
    lost = body.difference(opened)
    parts = getattr(lost, "geoms", [lost])
    return any(part.area > _CORNER * width**2 for part in parts)


def _holes(contours: Sequence[Contour], polygons: Sequence["Polygon"]) -> list[float]:
    """Width of the widest circle inside each opening."""
    from shapely import maximum_inscribed_circle

    return [
        2.0 * float(maximum_inscribed_circle(each, tolerance=1e-6).length)
        for each, of in zip(polygons, contours, strict=True)
        if of.opening
    ]

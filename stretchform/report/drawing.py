"""The drawing of a plate as exchange files: closed contours of lines and arcs, 1:1 in mm.

What is cut lies on the layer `contour`; walls, centre and words lie on the layer `reference`,
which is off. Both have colour 7, and no colour means anything. Every file is read back, audited
and compared with the contours before it leaves this module.
"""

from collections.abc import Iterator
from io import StringIO
from math import isclose
from threading import RLock
from typing import TYPE_CHECKING, Any, Literal

from stretchform.plates import contour
from stretchform.plates.contour import Contour, Vertex
from stretchform.report import drawing_review
from stretchform.report.drawing_sheet import Sheet, length, size

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

Release = Literal["R2010", "R12"]
RELEASES: tuple[Release, ...] = ("R2010", "R12")
CONTOUR, REFERENCE = "contour", "reference"
INVENTED = "INVENTED EXAMPLE: cut nothing from this drawing"
_COLOUR = 7
_UNITS = 4  # millimetres; the older release knows no units
_MILLIMETRES = 1e3
_TEXT_HEIGHT = 5.0  # mm
_LOCK = RLock()  # the fixed dates are a setting of the whole library


def dxf(sheet: Sheet, release: Release = "R2010") -> bytes:
    """A DXF file of the cut; raises InputError for a plate that cannot be cut as drawn."""
    drawing_review.refuse(looked_at(sheet), sheet.name)
    content = _written(sheet, release)
    _require_same(read_back(content), sheet.cut)
    return content


def looked_at(sheet: Sheet) -> drawing_review.Review:
    """The review of the plate itself, without the width of the cut."""
    arm = sheet.case.depth if sheet.shape.limbs else 0.0
    return drawing_review.review(sheet.drawing.contours, sheet.case.thickness, arm)


def read_back(content: bytes) -> tuple[Contour, ...]:
    """Contours of a file in metres; an opening is one that turns right.

    Raises RuntimeError where the audit finds anything wrong.
    """
    document = _read(content)
    auditor = document.audit()
    if auditor.has_errors or auditor.has_fixes:
        raise RuntimeError(f"the drawing is damaged: {auditor.errors or auditor.fixes}")
    found = []
    for vertices in _closed_lines(document):
        each = Contour(vertices)
        opening = float(contour.signed_area(each)) < 0.0
        found.append(Contour(vertices, opening))
    return tuple(found)


def _read(content: bytes) -> "Document":
    import ezdxf

    encoding = "utf-8" if b"AC1024" in content[:2000] else "cp1252"
    return ezdxf.read(StringIO(content.decode(encoding)))  # type: ignore[attr-defined]


def _closed_lines(document: "Document") -> Iterator[tuple[Vertex, ...]]:
    """Closed lines of the layer `contour`, both kinds."""
    for entity in document.modelspace().query(f'*[layer=="{CONTOUR}"]'):
        any_entity: Any = entity
        if any_entity.dxftype() == "LWPOLYLINE":
            rows, closed = any_entity.get_points("xyb"), any_entity.closed
        elif any_entity.dxftype() != "POLYLINE":
            raise RuntimeError("the drawing holds something else than contours")
        else:
            places = [(v.dxf.location, v.dxf.bulge) for v in any_entity.vertices]
            rows, closed = [(p.x, p.y, bulge) for p, bulge in places], any_entity.is_closed
        if not closed:
            raise RuntimeError("the drawing has an open contour")
        yield tuple(Vertex(x / _MILLIMETRES, y / _MILLIMETRES, bulge) for x, y, bulge in rows)


def _written(sheet: Sheet, release: Release) -> bytes:
    """The file as bytes, the same every time."""
    import ezdxf
    from ezdxf.document import Drawing as Document

    with _LOCK:
        options: Any = ezdxf.options  # type: ignore[attr-defined]
        kept = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            document = Document.new(release)
            document.header["$MEASUREMENT"] = 1  # metric
            if release != "R12":
                document.header["$INSUNITS"] = _UNITS
            _fill(document, sheet, release)
            out = StringIO()
            document.write(out)
            return bytes(document.encode(out.getvalue()))
        finally:
            options.write_fixed_meta_data_for_testing = kept


def _fill(document: "Document", sheet: Sheet, release: Release) -> None:
    document.layers.add(CONTOUR, color=_COLOUR)
    document.layers.add(REFERENCE, color=_COLOUR).off()
    space: Any = document.modelspace()
    for each in sheet.cut:
        rows = [(_MILLIMETRES * v.x, _MILLIMETRES * v.y, v.bulge) for v in each.vertices]
        add = space.add_polyline2d if release == "R12" else space.add_lwpolyline
        add(rows, format="xyb", close=True, dxfattribs={"layer": CONTOUR})
    _reference(space, sheet)


def _reference(space: Any, sheet: Sheet) -> None:
    """Wall before and after, centre and words, on the layer that is off."""
    on = {"layer": REFERENCE}
    for wall in (sheet.drawing.wall_before, sheet.drawing.wall_after):
        space.add_circle((0.0, 0.0), _MILLIMETRES * float(wall), dxfattribs=on)
    for along in ((10.0, 0.0), (0.0, 10.0)):
        space.add_line((-along[0], -along[1]), along, dxfattribs=on)
    place = _MILLIMETRES * float(sheet.drawing.wall_after) + 20.0
    for index, words in enumerate(notes(sheet)):
        style = on | {"height": _TEXT_HEIGHT}
        text = space.add_text(words, dxfattribs=style)
        text.dxf.insert = (place, place - 2.0 * _TEXT_HEIGHT * index)


def notes(sheet: Sheet) -> tuple[str, ...]:
    """Words of a drawing: what it is, whether it is invented, what the contour stands for."""
    invented = (INVENTED,) if sheet.example else ()
    facts = tuple(f"{what}: {value}" for what, value in sheet.facts)
    return (sheet.title, *invented, "scale 1:1, millimetres", width_of_cut(sheet), *facts)


def width_of_cut(sheet: Sheet) -> str:
    """What the contour stands for: the plate itself, or the middle of the cut."""
    if sheet.kerf:
        return f"contour: middle of a cut {size(sheet.kerf)} wide"
    return "contour: edge of the plate; the width of the cut is not in it"


def _require_same(found: tuple[Contour, ...], drawn: tuple[Contour, ...]) -> None:
    """The file must hold the contours that were drawn: a fault of ours otherwise."""
    if len(found) != len(drawn):
        raise RuntimeError("the drawing lost a contour")
    for one, two in zip(found, drawn, strict=True):
        areas = float(contour.signed_area(one)), float(contour.signed_area(two))
        if not isclose(*areas, rel_tol=1e-9, abs_tol=1e-12):
            raise RuntimeError("the drawing does not hold the contour's area")
        if not isclose(length([one]), length([two]), rel_tol=1e-9):
            raise RuntimeError("the drawing does not hold the contour's length")

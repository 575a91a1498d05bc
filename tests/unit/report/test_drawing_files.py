"""Exchange files of a plate: read back by two readers, layers, colours, units, webs."""

import io
from dataclasses import replace
from math import pi

import ezdxf
import planning_jobs as jobs
import pytest
import trimesh
from ezdxf import bbox

from stretchform.errors import InputError
from stretchform.planning import plating
from stretchform.planning.tank import Arm, ArmKind, Hand, PlateHole
from stretchform.plates import contour
from stretchform.plates.contour import Contour, Vertex, circle
from stretchform.report import drawing, drawing_review, drawing_sheet
from stretchform.report.drawing_review import review

MM = 1e-3
CLOSE = 1e-5  # 0.01 mm, or 0.01 mm times a metre of contour as an area
ROWS = {
    "ring": jobs.plate(heights=(1.0,)),
    "concentric": jobs.plate(heights=(1.0,), arm=Arm(ArmKind.SINGLE, 6 * MM, None, 1, False)),
    "other hand": jobs.plate(
        heights=(1.0,), arm=Arm(ArmKind.FOLDED, 5 * MM, None, 2, True, Hand.ANTICLOCKWISE)
    ),
    "segment": jobs.plate(heights=(1.0,), tabs=2, span=2.6),
    "full": jobs.plate(
        heights=(1.0,), ring_width=None, holes=(PlateHole(30 * MM, 0.1, 0.7),), tabs=4
    ),
    "sliding": jobs.plate(heights=(1.0,), arm=Arm(ArmKind.SLIDING, 8 * MM, None)),
}
_PLANS = {}


def plan_of(name):
    if name not in _PLANS:
        _PLANS[name] = jobs.plan(jobs.job(plates=(replace(ROWS[name], name=name),)))
    return _PLANS[name]


def sheet_of(name, kerf=0.0):
    return drawing_sheet.sheet(plan_of(name), name, kerf)


def opened(content):
    encoding = "utf-8" if b"AC1024" in content[:999] else "cp1252"
    return ezdxf.read(io.StringIO(content.decode(encoding)))


@pytest.mark.parametrize("release", drawing.RELEASES)
@pytest.mark.parametrize("name", list(ROWS))
def test_a_file_read_back_holds_every_contour(name, release):
    sheet = sheet_of(name)
    found = drawing.read_back(drawing.dxf(sheet, release))
    assert [one.opening for one in found] == [one.opening for one in sheet.cut]
    assert drawing_sheet.area(found) == pytest.approx(
        drawing_sheet.area(sheet.cut), abs=CLOSE**2
    )
    ours, theirs = drawing_sheet.length(sheet.cut), drawing_sheet.length(found)
    assert theirs == pytest.approx(ours, abs=CLOSE)


@pytest.mark.parametrize("release", drawing.RELEASES)
@pytest.mark.parametrize("name", list(ROWS))
def test_a_second_reader_finds_the_same_areas_and_lengths(name, release):
    """A reader that shares no code with the first one; it names layers in capitals or not."""
    sheet = sheet_of(name)
    content = drawing.dxf(sheet, release).decode("cp1252")
    read = trimesh.load_path(io.StringIO(content), file_type="dxf")
    layers = ["" if layer is None else str(layer) for layer in read.layers]
    read.entities = [
        one
        for one, layer in zip(read.entities, layers, strict=True)
        if layer != "REFERENCE" and not isinstance(one, trimesh.path.entities.Text)
    ]
    length = sum(float(one.length(read.vertices)) for one in read.entities) * MM
    assert length == pytest.approx(drawing_sheet.length(sheet.cut), abs=CLOSE)
    assert read.is_closed
    areas = sorted(polygon.area * MM**2 for polygon in read.polygons_closed)
    ours = sorted(abs(float(contour.signed_area(one))) for one in sheet.cut)
    # it cuts arcs into chords for areas, shorter than its circle by less than 1e-3
    assert areas == pytest.approx(ours, rel=2e-3)


@pytest.mark.parametrize("release", drawing.RELEASES)
def test_layers_colours_and_units(release):
    document = opened(drawing.dxf(sheet_of("ring"), release))
    layers = {layer.dxf.name: layer for layer in document.layers}
    assert layers["contour"].color == layers["reference"].color == 7
    assert layers["contour"].is_on()
    assert layers["reference"].is_off()
    space = list(document.modelspace())
    assert {entity.dxf.layer for entity in space} == {"contour", "reference"}
    assert all(entity.dxf.get("color", 256) == 256 for entity in space)  # as its layer
    kinds = {entity.dxftype() for entity in space if entity.dxf.layer == "contour"}
    assert kinds == {"POLYLINE" if release == "R12" else "LWPOLYLINE"}
    if release == "R2010":
        assert document.units == 4


def test_a_drawing_is_in_millimetres_one_to_one():
    document = opened(drawing.dxf(sheet_of("ring")))
    cut = document.modelspace().query('*[layer=="contour"]')
    tank = 2 * 320.0  # the tabs reach the wall, of which three stand at 120°
    assert bbox.extents(cut).size.y == pytest.approx(320.0 + 319.0, abs=0.5)
    assert bbox.extents(cut).size.x < tank


def test_the_drawn_arm_is_as_long_as_the_checked_one():
    sheet = sheet_of("ring")
    result = plating.judged(plan_of("ring").plates)
    assert result.method == "beam"
    assert sheet.drawing.arm_length == result.arm_length == sheet.shape.length
    assert dict(sheet.facts)["arm clear length"] == f"{1e3 * result.arm_length:.2f} mm"


def test_an_invented_plate_says_so_on_the_layer_that_is_off():
    document = opened(drawing.dxf(sheet_of("ring")))
    texts = [text.dxf.text for text in document.modelspace().query("TEXT")]
    assert drawing.INVENTED in texts
    real = replace(sheet_of("ring"), example=False)
    texts = [text.dxf.text for text in opened(drawing.dxf(real)).modelspace().query("TEXT")]
    assert drawing.INVENTED not in texts


def test_the_same_plate_gives_the_same_bytes():
    assert drawing.dxf(sheet_of("ring")) == drawing.dxf(sheet_of("ring"))


def test_half_the_cut_lies_outside_the_plate():
    plain, wide = sheet_of("full"), sheet_of("full", 0.2 * MM)
    grown = drawing_sheet.area(wide.cut) - drawing_sheet.area(plain.cut)
    # 0.1 mm along every contour; corners make up for less than 1e-3 of it
    assert grown == pytest.approx(0.1 * MM * drawing_sheet.length(plain.cut), rel=1e-3)
    assert "middle of a cut 0.20 mm wide" in drawing.width_of_cut(wide)
    drawing.dxf(wide)


def test_a_damaged_file_is_a_fault_of_ours():
    content = drawing.dxf(sheet_of("ring"), "R12")
    lost = content.replace(b"\nPOLYLINE\n", b"\nPOINT\n", 1)
    with pytest.raises(RuntimeError, match="something else than contours"):
        drawing.read_back(lost)


def test_plates_of_two_sizes_are_not_drawn_as_one():
    pair = [jobs.course(), jobs.course("upper", radius=0.325)]
    plan = jobs.plan(jobs.job(plates=(jobs.plate(),), courses=pair))
    with pytest.raises(InputError, match="different inside diameters"):
        drawing_sheet.sheet(plan, "ring")


OUTLINE = circle(0.0, 0.0, 0.1, opening=False)


@pytest.mark.parametrize(
    ("contours", "words"),
    [
        ([OUTLINE, circle(0.0, 0.0, 0.02), circle(0.0, 0.0, 0.02)], "are the same"),
        ([OUTLINE, circle(0.0, 0.0, 0.02), circle(0.03, 0.0, 0.02)], "cross"),
        ([OUTLINE, circle(0.09, 0.0, 0.02)], "cross"),
        ([OUTLINE, circle(0.3, 0.0, 0.02)], "cross"),
        ([circle(0.0, 0.0, 0.02)], "not exactly one outline"),
        ([OUTLINE, circle(0.0, 0.0, 0.5 * MM)], "opening of 1.00 mm"),
        ([OUTLINE, circle(0.0, 0.0, 0.02), circle(0.041, 0.0, 0.02)], "web of 1.00 mm"),
        ([OUTLINE, circle(0.0795, 0.0, 0.02)], "web of 0.50 mm"),
        (
            [Contour((Vertex(0, 0), Vertex(0.1, 0.1), Vertex(0.1, 0), Vertex(0, 0.1)))],
            "crosses itself",
        ),
        (
            [
                Contour(
                    (
                        *(Vertex(0, 0), Vertex(0.1, 0), Vertex(0.1, 0.05), Vertex(0.06, 0.05)),
                        *(Vertex(0.06, 1 * MM), Vertex(0.04, 1 * MM), Vertex(0.04, 0.05)),
                        Vertex(0, 0.05),
                    )
                )
            ],
            "web of 1.00 mm",
        ),
    ],
)
def test_what_cannot_be_cut_is_found(contours, words):
    found = review(contours, 1.5 * MM)
    assert any(words in fault for fault in found.faults), found
    with pytest.raises(InputError, match=words):
        drawing_review.refuse(found, "ring")


@pytest.mark.parametrize("name", ["ring", "other hand", "concentric"])
def test_the_narrowest_web_of_a_sound_plate_is_its_arm(name):
    sheet = sheet_of(name)
    found = drawing.looked_at(sheet)
    assert found.faults == ()
    assert found.web == pytest.approx(sheet.case.depth, rel=1e-3)


def test_a_web_narrower_than_the_arms_is_found():
    found = review([OUTLINE, circle(0.0, 0.0, 0.095)], 1.5 * MM, arm=6 * MM)
    assert "the plate would yield there" in found.faults[0]


def test_a_sound_disc_has_no_fault():
    found = review([OUTLINE], 1.5 * MM)
    assert found.faults == ()
    assert found.hole is None
    assert contour.signed_area(OUTLINE) == pytest.approx(pi * 0.01)

"""The tables of a job file and their keys, as pydantic models; the JSON Schema comes from here.

A model holds SI numbers: each key reads its own text. What two keys must be to each other is
looked at later, where the tank and the job are built.
"""

from math import pi
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from stretchform.files.job_fields import (
    Kind,
    choice,
    count,
    quantity,
    words,
    yes_or_no,
)
from stretchform.files.job_kinds import named_criterion, pump
from stretchform.planning.job import TargetKind
from stretchform.planning.tank import ArmKind, Attitude, Hand, HeadShape
from stretchform.steel.certificate import PROOF_RANGE, TENSILE_RANGE
from stretchform.water import properties

_ELEMENTS = (
    "C",
    "Si",
    "Mn",
    "P",
    "S",
    "Cr",
    "Ni",
    "Mo",
    "N",
    "Cu",
    "Co",
    "Nb",
    "Ti",
    "Al",
    "V",
)


def _name(says: str, sample: str) -> Kind:
    return words(60, sample, says)


def _size(sample: str, says: str) -> Kind:
    return quantity("length", sample, "40 mm", "10 m", says)


def _around(sample: str, says: str) -> Kind:
    return quantity("length", sample, "125 mm", "32 m", says)


def _pressure(sample: str, says: str) -> Kind:
    return quantity("pressure", sample, "0.1 bar", "2500 bar", says)


def _strength(sample: str, allowed: tuple[float, float], says: str) -> Kind:
    lowest, highest = (f"{limit / 1e6:g} MPa" for limit in allowed)
    return quantity("pressure", sample, lowest, highest, says)


def _share(sample: str, says: str) -> Kind:
    return quantity("ratio", sample, "5 %", "100 %", says)


def _angle(sample: str, lowest: str, says: str) -> Kind:
    return quantity("angle", sample, lowest, "360 deg", says)


def _height(sample: str, says: str) -> Kind:
    return quantity("length", sample, "0 mm", "500 m", says)


class Table(BaseModel):
    """A table of which every key is known."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class JobTable(Table):
    name: Annotated[str, words(120, "Deck tank, survey boat", "what the tank is for")]
    note: Annotated[str, words(600, "invented example", "anything to remember")] = ""
    example: Annotated[bool, yes_or_no("true marks an invented job")] = False


class TargetTable(Table):
    growth: Annotated[
        float | None, quantity("growth", "5 %", "0.2 %", "20 %", "of diameter")
    ] = None
    outside_diameter: Annotated[float | None, _size("680 mm", "after forming")] = None
    inside_diameter: Annotated[float | None, _size("676 mm", "after forming")] = None
    outside_circumference: Annotated[float | None, _around("2136 mm", "after forming")] = None
    gained_yield_strength: Annotated[
        float | None, quantity("pressure", "400 MPa", "150 MPa", "1200 MPa", "hoop")
    ] = None
    under_pressure: Annotated[bool, yes_or_no("false: after release")] = False
    at: Annotated[str, _name('"largest" or the name of a station', "largest")] = "largest"


class CertificateTable(Table):
    proof_02: Annotated[float, _strength("295 MPa", PROOF_RANGE, "0.2 % proof strength")]
    tensile: Annotated[float, _strength("650 MPa", TENSILE_RANGE, "tensile strength")]
    proof_10: Annotated[
        float | None,
        quantity("pressure", "325 MPa", "150 MPa", "1000 MPa", "1 % proof strength"),
    ] = None
    elongation: Annotated[
        float | None, quantity("ratio", "52 %", "5 %", "90 %", "elongation at break")
    ] = None
    minimum_only: Annotated[bool, yes_or_no("true: the standard's minima, not this coil")] = (
        False
    )
    analysis: dict[
        Annotated[str, choice(_ELEMENTS, "element")],
        Annotated[float, quantity("ratio", "0.02 per cent", "0 %", "60 %", "by mass")],
    ] = {}


class WeldTable(Table):
    filler: Annotated[str, _name("filler of the seam", "308L")]
    elongation: Annotated[
        float | None, quantity("ratio", "35 %", "2 %", "90 %", "elongation at break")
    ] = None
    undercut: Annotated[
        float | None, quantity("length", "0.1 mm", "0 mm", "3 mm", "deepest, beside the seam")
    ] = None
    thickness: Annotated[
        float | None, quantity("length", "1.9 mm", "0.2 mm", "20 mm", "of the seam, thinnest")
    ] = None


_WALL = quantity("length", "2.0 mm", "0.3 mm", "12 mm", "measured mean wall before forming")
_STEEL = _name("EN number, other name, or a steel file", "1.4307")


class CourseTable(Table):
    name: Annotated[str, _name("of this length of shell", "lower")]
    length: Annotated[
        float, quantity("length", "900 mm", "10 mm", "100 m", "between its seams, as built")
    ]
    inside_diameter: Annotated[float | None, _size("640 mm", "as built")] = None
    outside_diameter: Annotated[float | None, _size("644 mm", "as built")] = None
    outside_circumference: Annotated[float | None, _around("2023 mm", "as built")] = None
    wall: Annotated[float, _WALL]
    wall_tolerance: Annotated[
        float, quantity("length", "0.05 mm", "0 mm", "2 mm", "half the spread of the readings")
    ]
    steel: Annotated[str, _STEEL]
    certificate: CertificateTable | None = None
    weld: WeldTable | None = None


class HeadTable(Table):
    shape: Annotated[str, choice([shape.value for shape in HeadShape], "shape of the head")]
    wall: Annotated[float | None, _WALL] = None
    straight_flange: Annotated[
        float, quantity("length", "25 mm", "0 mm", "500 mm", "cylindrical edge of the head")
    ] = 0.0
    crown_radius: Annotated[
        float | None, quantity("length", "640 mm", "20 mm", "15 m", "inside")
    ] = None
    knuckle_radius: Annotated[
        float | None, quantity("length", "64 mm", "1 mm", "5 m", "inside")
    ] = None
    steel: Annotated[str | None, _STEEL] = None
    certificate: CertificateTable | None = None


class HeadsTable(Table):
    bottom: HeadTable
    top: HeadTable


class ArmTable(Table):
    kind: Annotated[str, choice([kind.value for kind in ArmKind], "kind of arm")]
    depth: Annotated[
        float, quantity("length", "7 mm", "1 mm", "100 mm", "in the plane of the plate")
    ]
    length: Annotated[
        float | None, quantity("length", "90 mm", "5 mm", "2 m", "clear length")
    ] = None
    limbs: Annotated[int | None, count(2, 12, 2, "of a folded arm")] = None
    straight: Annotated[bool, yes_or_no("false: concentric with the rim")] = True
    hand: Annotated[
        str, choice([hand.value for hand in Hand], "the way all arms point, seen from above")
    ] = Hand.CLOCKWISE.value


class HoleTable(Table):
    diameter: Annotated[float, quantity("length", "20 mm", "1 mm", "3 m", "of a round hole")]
    from_centre: Annotated[float, quantity("length", "150 mm", "0 mm", "10 m", "of the plate")]
    angle: Annotated[
        float,
        _angle("30 deg", "0 deg", "clockwise from the first tab, of a segment from its middle"),
    ] = 0.0


class PlateTable(Table):
    name: Annotated[str, _name("of this row of plates", "ring")]
    count: Annotated[int, count(1, 500, 14, "plates in the row")]
    first: Annotated[float, _height("120 mm", "height above the lower tangent line")]
    pitch: Annotated[
        float | None, quantity("length", "125 mm", "2 mm", "50 m", "from plate to plate")
    ] = None
    thickness: Annotated[float, quantity("length", "1.5 mm", "0.3 mm", "25 mm", "of the plate")]
    ring_width: Annotated[
        float | None, quantity("length", "60 mm", "5 mm", "5 m", "left out: a full plate")
    ] = None
    tabs: Annotated[int, count(1, 48, 3, "welded tabs of a plate")]
    tab_clearance: Annotated[
        float, quantity("length", "3 mm", "0 mm", "200 mm", "plate edge to wall, as built")
    ]
    tab_length: Annotated[
        float, quantity("length", "20 mm", "3 mm", "500 mm", "of the tab's weld on the wall")
    ]
    arm: ArmTable | None = None
    span: Annotated[float, _angle("120 deg", "10 deg", "of a segment; left out: all round")] = (
        2.0 * pi
    )
    relieved: Annotated[int | None, count(1, 48, 1, "tabs with an arm; left out: all")] = None
    annealed: Annotated[bool, yes_or_no("false: cold-worked sheet")] = True
    notches: Annotated[bool, yes_or_no("false: no vent and drain notch")] = True
    hole: list[HoleTable] = Field(default=[], description="round holes for pipes, sensors")
    steel: Annotated[str | None, _STEEL] = None
    certificate: CertificateTable | None = None


class StationTable(Table):
    name: Annotated[str, _name("of the place of the tape", "middle")]
    height: Annotated[float, _height("450 mm", "above the lower tangent line")]


class OpeningTable(Table):
    name: Annotated[str, _name("of the opening", "fill port")]
    place: Annotated[str, _name('a course, "head.bottom" or "head.top"', "head.top")] = Field(
        alias="in"
    )
    bore: Annotated[float, quantity("length", "38 mm", "1 mm", "3 m", "clear width")]
    height: Annotated[float | None, _height("450 mm", "above the lower tangent line")] = None


class TankTable(Table):
    attitude: Annotated[str, choice([a.value for a in Attitude], "while it is formed")]


class ContentsTable(Table):
    liquid_density: Annotated[
        float, quantity("density", "1000 kg/m3", "50 kg/m3", "3000 kg/m3", "in use")
    ]
    level: Annotated[float, _height("1.2 m", "above the lower tangent line, in use")]
    acceleration: Annotated[
        float, quantity("acceleration", "1 g", "0.01 g", "20 g", "along the tank's axis")
    ]


_WATER_TEMPERATURE = quantity(
    "temperature",
    "15 °C",
    f"{properties.LOWEST:g} °C",
    f"{properties.HIGHEST:g} °C",
    "while forming",
)


class WaterTable(Table):
    temperature: Annotated[float | None, _WATER_TEMPERATURE] = None
    chloride: Annotated[
        float | None,
        quantity("concentration", "50 mg/l", "0 mg/l", "40000 mg/l", "of the water"),
    ] = None
    air: Annotated[
        float | None, quantity("ratio", "0.2 %", "0 %", "20 %", "left in, of the volume")
    ] = None


class SupplyTable(Table):
    kind: Annotated[str | None, pump()] = None
    stroke: Annotated[
        float | None, quantity("volume", "13 ml", "0.01 ml", "100 l", "of a hand pump")
    ] = None
    flow: Annotated[
        float | None, quantity("flow", "2 l/min", "0.001 l/min", "2000 l/min", "of the pump")
    ] = None
    maximum_pressure: Annotated[float | None, _pressure("60 bar", "the pump reaches")] = None
    relief_pressure: Annotated[float | None, _pressure("30 bar", "the relief is set to")] = None
    metered_volume: Annotated[
        float | None, quantity("volume", "40 l", "0.01 l", "100000 l", "that can flow in")
    ] = None
    vent: Annotated[bool, yes_or_no("false: no vent at the highest point")] = True
    relief_flow: Annotated[
        float | None,
        quantity("flow", "10 l/min", "0.001 l/min", "20000 l/min", "the relief can pass"),
    ] = None
    hose_length: Annotated[
        float | None, quantity("length", "5 m", "0.1 m", "200 m", "from pump to tank")
    ] = None
    hose_bore: Annotated[
        float | None, quantity("length", "6 mm", "1 mm", "100 mm", "inside the hose")
    ] = None
    low_level_stop: Annotated[
        bool | None, yes_or_no("true: the pump stops before its drum is empty")
    ] = None
    remote_bleed: Annotated[
        bool | None, yes_or_no("true: stop, bleed and vent are worked from outside")
    ] = None
    brittle_fittings: Annotated[
        bool, yes_or_no("true: cast iron or other brittle parts under pressure")
    ] = False


class PlainGaugeTable(Table):
    range: Annotated[float, _pressure("40 bar", "end of the scale")]
    accuracy: Annotated[
        float, quantity("ratio", "1.0 %", "0.01 %", "5 %", "class, in per cent of the range")
    ] = Field(alias="class")
    height: Annotated[
        float, quantity("length", "1.2 m", "-50 m", "100 m", "above the lower tangent line")
    ]


class GaugeTable(PlainGaugeTable):
    second: PlainGaugeTable | None = None


class TapeTable(Table):
    kind: Annotated[str, choice(("plain", "diameter"), "diameter: its scale allows for it")]
    resolution: Annotated[
        float, quantity("length", "0.5 mm", "0.001 mm", "10 mm", "smallest step read")
    ]
    thickness: Annotated[
        float, quantity("length", "0.2 mm", "0 mm", "3 mm", "of the tape itself")
    ]
    expansion: Annotated[
        float | None,
        quantity("expansion", "11.5 µm/m/K", "0 µm/m/K", "100 µm/m/K", "of the tape"),
    ] = None


class LimitsTable(Table):
    growth: Annotated[
        float | None, quantity("growth", "6 %", "0.2 %", "25 %", "highest anywhere")
    ] = None
    share_of_pressure: Annotated[float | None, _share("85 %", "of the maximum pressure")] = None
    share_of_growth_care: Annotated[
        float | None, _share("35 %", "of the growth at the maximum: care")
    ] = None
    share_of_growth_block: Annotated[
        float | None, _share("50 %", "of the growth at the maximum: block")
    ] = None


class ModelTable(Table):
    criterion: Annotated[str | None, named_criterion()] = None
    spread: Annotated[str | None, choice(("none",), "none: one line, no band")] = None
    seed: Annotated[int, count(0, 2**31 - 1, 1, "of the sample")] = 1


class JobFile(Table):
    """A forming job: one tank, its target, the water and the means."""

    job: JobTable
    target: TargetTable
    tank: TankTable
    course: list[CourseTable]
    head: HeadsTable
    plate: list[PlateTable] = []
    station: list[StationTable] = []
    opening: list[OpeningTable] = []
    contents: ContentsTable | None = None
    water: WaterTable | None = None
    supply: SupplyTable | None = None
    gauge: GaugeTable | None = None
    tape: TapeTable | None = None
    limits: LimitsTable | None = None
    accepted: dict[str, str] = {}
    model: ModelTable | None = None


TARGETS = tuple(kind.value for kind in TargetKind)

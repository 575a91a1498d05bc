"""The tank and what stands in it, as built, before forming: plain data in SI units."""

from dataclasses import dataclass
from enum import StrEnum
from math import pi

from stretchform.si import Metre, Radian, Ratio
from stretchform.steel.grade import Steel


class Attitude(StrEnum):
    """How the tank stands while it is formed."""

    STANDING = "standing"
    HANGING = "hanging"
    LYING = "lying"


class HeadShape(StrEnum):
    HEMISPHERE = "hemisphere"
    ELLIPSOID = "ellipsoid 2:1"
    TORISPHERE = "torisphere"
    TIED = "tied"  # a flat end held from outside: it carries no end force into the wall


class ArmKind(StrEnum):
    SINGLE = "single"
    BRIDGE = "bridge"
    FOLDED = "folded"
    SLIDING = "sliding"


class Hand(StrEnum):
    """Which way the arms of a plate point from their tabs, seen from above."""

    CLOCKWISE = "clockwise"
    ANTICLOCKWISE = "anticlockwise"
    MIXED = "mixed"


@dataclass(frozen=True, slots=True)
class Weld:
    filler: str
    elongation: Ratio | None
    undercut: Metre | None = None  # depth beside the seam
    thickness: Metre | None = None  # of the seam at its thinnest place


@dataclass(frozen=True, slots=True)
class Course:
    """A length of shell from one sheet."""

    name: str
    length: Metre
    radius: Metre  # mid-wall
    wall: Metre
    wall_tolerance: Metre  # half-width, 5 to 95 %
    steel: Steel
    weld: Weld | None = None

    @property
    def circumference(self) -> Metre:
        """Outside circumference before forming, which the tape measures."""
        return 2.0 * pi * (float(self.radius) + 0.5 * float(self.wall))


@dataclass(frozen=True, slots=True)
class Head:
    shape: HeadShape
    wall: Metre
    straight_flange: Metre
    steel: Steel
    crown_radius: Metre | None = None  # inside
    knuckle_radius: Metre | None = None  # inside

    @property
    def flange(self) -> Metre:
        """Cylinder between the tangent line and the course; a tied end has none."""
        return 0.0 if self.shape is HeadShape.TIED else self.straight_flange


@dataclass(frozen=True, slots=True)
class Arm:
    """The strip behind a tab that flexes."""

    kind: ArmKind
    depth: Metre  # in the plane of the plate
    length: Metre | None  # clear length of one limb; computed where None
    limbs: int = 1  # of a folded arm
    straight: bool = True  # False: concentric with the rim
    hand: Hand = Hand.CLOCKWISE


@dataclass(frozen=True, slots=True)
class PlateHole:
    """A round hole in a plate, for a pipe or a sensor."""

    diameter: Metre
    from_centre: Metre
    angle: Radian  # clockwise from the first tab, of a segment from its middle


@dataclass(frozen=True, slots=True)
class Plate:
    """A row of equal internal plates."""

    name: str
    heights: tuple[float, ...]  # above the lower tangent line
    thickness: Metre
    ring_width: Metre | None  # None: a full plate
    tabs: int
    tab_clearance: Metre  # before forming
    tab_length: Metre
    arm: Arm | None
    steel: Steel | None
    span: Radian = 2.0 * pi  # of a segment: less than a full turn
    relieved: int | None = None  # tabs with an arm; None: all
    annealed: bool = True
    notches: bool = True  # vent and drain notch in the rim
    holes: tuple[PlateHole, ...] = ()


@dataclass(frozen=True, slots=True)
class Station:
    """A height above the lower tangent line where the circumference is measured."""

    name: str
    height: Metre
    course: str


@dataclass(frozen=True, slots=True)
class Opening:
    name: str
    place: str  # name of a course, "head.bottom" or "head.top"
    bore: Metre
    height: Metre | None


@dataclass(frozen=True, slots=True)
class Tank:
    attitude: Attitude
    courses: tuple[Course, ...]  # bottom to top
    bottom: Head
    top: Head
    stations: tuple[Station, ...]
    plates: tuple[Plate, ...] = ()
    openings: tuple[Opening, ...] = ()

    @property
    def edges(self) -> tuple[float, ...]:
        """Heights of the courses' lower edges above the lower tangent line, then the last upper.

        A straight flange lies between the tangent line and the first course.
        """
        heights = [float(self.bottom.flange)]
        for course in self.courses:
            heights.append(heights[-1] + float(course.length))
        return tuple(heights)

    @property
    def length(self) -> Metre:
        """Length between the two tangent lines, straight flanges included."""
        return self.edges[-1] + self.top.flange

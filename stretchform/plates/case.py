"""What is asked about one plate and what is answered: plain SI numbers."""

from dataclasses import dataclass
from math import pi
from typing import Literal, TypeAlias

from stretchform.plates.checks import Check
from stretchform.si import (
    Growth,
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecond,
    Newton,
    NewtonMetre,
    Pascal,
    Radian,
    Ratio,
    Strain,
)
from stretchform.steel.curve import Curve

SOURCES = ("own-derivation",)

Method: TypeAlias = Literal["formula", "beam"]

NOT_RELIEVED = "unrelieved-tabs"
MIXED_HAND = "arms-of-mixed-hand"
CONCENTRIC_BRIDGE = "concentric-bridge"
COLD_WORKED_BRIDGE = "bridge-in-cold-worked-plate"
NECKS = "arm-necks"
UNCHECKED = (
    "arm-fatigue",
    "weld-quality",
    "crevices",
    "oxygen-compatibility",
    "martensite-contraction",
)


@dataclass(frozen=True, slots=True)
class PlateCase:
    """One plate with its wall and growth, before forming.

    `kind` is "single", "bridge", "folded", "sliding" or "none" (tabs of the plate itself).
    `growth_under_pressure` is that of the outside circumference at the plate's height, and
    `springback` what of it is lost on release, both as fractions. `length` None: sized here.
    """

    kind: str
    radius: Metre  # mid-wall
    wall: Metre
    growth_under_pressure: Growth
    springback: Growth
    pressure: Pascal
    thickness: Metre
    depth: Metre  # of the arm in the plane of the plate; of a sliding tab: the pin
    length: Metre | None  # clear length of an arm or limb, half span of a bridge
    tabs: int
    clearance: Metre
    tab_length: Metre
    curve: Curve  # of the plate
    straight: bool = True
    limbs: int = 1
    ring_width: Metre | None = None  # None: a full plate
    relieved: int | None = None  # tabs with an arm; None: all
    same_hand: bool = True
    annealed: bool = True
    slot_width: Metre | None = None
    slot_end_radius: Metre | None = None
    youngs_modulus: Pascal = 195e9
    contraction: Ratio = 0.0028  # of the wall on chill-down, 77 K
    wall_curve: Curve | None = None  # None: as the plate
    tensile: Pascal | None = None  # of the plate; None: from its curve
    weld_length: Metre | None = None  # None: the whole tab
    weld_throat: Metre | None = None  # None: 0.7 of the thinner of plate and wall
    tab_height: Metre | None = None  # of its foot; None: low, then a neck
    density: KilogramPerCubicMetre = 7900.0
    ledge: bool = False  # an axial ledge or stop carries the plate
    fill_speed: MetrePerSecond = 2e-3  # rise of the level while the tank is filled
    open_share: Ratio | None = None  # open area of a full plate; None: its edge gap alone
    span: Radian = 2.0 * pi  # of a segment: less than a full turn


@dataclass(frozen=True, slots=True)
class ArmState:
    """What one arm does at the travel it is sized for."""

    kind: str  # as treated: arms of mixed hand count as a bridge
    length: Metre
    needed_length: Metre
    slope: Ratio
    root_strain: Strain
    moment: NewtonMetre
    tension: Newton
    force: Newton  # radial, on the tab and the wall
    released_force: Newton = 0.0  # after springback
    shift: Metre = 0.0  # of the tab along the rim against the plate
    method: Method = "formula"
    necks: bool = False  # the beam found no balance: only the formulas are shown


@dataclass(frozen=True, slots=True)
class Travel:
    """Travels and gaps of one plate."""

    inside: float  # of the inside of the wall under pressure, forecast
    released: float  # the same after release
    arm: float  # each arm is sized for it
    after: float  # gap after release
    chilled: float  # gap with a cold wall and a warm plate


@dataclass(frozen=True, slots=True)
class Slot:
    """Relief slot behind one arm."""

    length: float
    width: float
    end_radius: float


@dataclass(frozen=True, slots=True)
class PlateResult:
    """What comes out for one plate; `checks` hold every value with its limit."""

    kind: str  # as treated
    travel: Metre  # the arms are sized for it: tolerance and two-tab factor included
    travel_under_pressure: Metre  # of the inside of the wall, forecast
    clearance_before: Metre
    clearance_after: Metre  # after release
    clearance_chilled: Metre
    arm_length: Metre
    arm_depth: Metre
    needed_length: Metre
    root_strain: Strain
    force: Newton
    released_force: Newton
    tension: Newton
    moment: NewtonMetre
    slot_length: Metre
    slot_width: Metre
    slot_end_radius: Metre
    stalk: Metre  # wall to the outer edge of the arm at its tab
    rotation: Radian
    checks: tuple[Check, ...]
    governs: str | None
    refused: tuple[str, ...]  # codes; empty: the plate may be built if its checks pass
    unchecked: tuple[str, ...]
    method: Method

    @property
    def passes(self) -> bool:
        """True if nothing is refused and no check fails."""
        return not self.refused and all(check.result != "fails" for check in self.checks)

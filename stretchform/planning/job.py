"""One forming job: the tank, its target, the water and the means; SI numbers only."""

from dataclasses import dataclass, field
from enum import StrEnum

from stretchform.planning.tank import Tank
from stretchform.si import (
    Celsius,
    CubicMetre,
    Growth,
    KilogramPerCubicMetre,
    Metre,
    MetrePerSecondSquared,
    Pascal,
    Ratio,
)
from stretchform.water.tape import SKEW


class TargetKind(StrEnum):
    """What the user fixed; every kind is turned into a growth of the outside circumference."""

    GROWTH = "growth"
    OUTSIDE_DIAMETER = "outside_diameter"
    INSIDE_DIAMETER = "inside_diameter"
    OUTSIDE_CIRCUMFERENCE = "outside_circumference"
    GAINED_YIELD_STRENGTH = "gained_yield_strength"


@dataclass(frozen=True, slots=True)
class Target:
    kind: TargetKind
    value: float  # SI: a fraction, metres or pascals
    under_pressure: bool
    station: str  # "largest" or the name of a station


@dataclass(frozen=True, slots=True)
class Water:
    temperature: Celsius = 20.0
    chloride: Ratio | None = None  # mass fraction (50 mg/l = 50e-6)
    air: Ratio = 0.002  # volume of air at one atmosphere over the tank's volume


PUMPS = ("hand pump", "motor pump", "air-driven pump")


@dataclass(frozen=True, slots=True)
class Supply:
    kind: str | None = None  # hand pump | motor pump | air-driven pump
    stroke: CubicMetre | None = None
    flow: float | None = None  # m³/s
    maximum_pressure: Pascal | None = None
    relief_pressure: Pascal | None = None
    metered: CubicMetre | None = None  # content of the drum that the pump draws from
    vent: bool = True
    relief_flow: float | None = None  # m³/s that the relief valve passes
    hose_length: Metre | None = None
    hose_bore: Metre | None = None
    low_level_stop: bool | None = None  # the pump stops before the drum is empty
    remote_bleed: bool | None = None  # pump, isolation, bleed and vent worked from outside
    brittle_fittings: bool = False  # cast iron and the like


@dataclass(frozen=True, slots=True)
class Gauge:
    range: Pascal
    accuracy_class: Ratio  # per cent of the range
    height: Metre  # above the lower tangent line


@dataclass(frozen=True, slots=True)
class Tape:
    kind: str = "plain"  # plain | diameter: its scale already allows for its thickness
    resolution: Metre = 0.5e-3
    thickness: Metre = 0.2e-3
    expansion: float = 11.5e-6  # 1/K
    skew: Metre = SKEW  # standard uncertainty of a path that does not lie in one plane


@dataclass(frozen=True, slots=True)
class Limits:
    share_of_pressure: Ratio
    share_of_growth_care: Ratio
    share_of_growth_block: Ratio
    growth: Growth | None = None  # highest growth allowed anywhere, None: target + 1 point


@dataclass(frozen=True, slots=True)
class Model:
    criterion: str | None = None  # None: the judged factor; or "mises", "tresca" ...
    spread: bool = True
    seed: int = 1


@dataclass(frozen=True, slots=True)
class Contents:
    """What the tank holds in use: its liquid moves between the plates."""

    liquid_density: KilogramPerCubicMetre
    level: Metre  # above the lower tangent line
    acceleration: MetrePerSecondSquared  # along the tank's axis


@dataclass(frozen=True, slots=True)
class Job:
    name: str
    note: str
    target: Target
    tank: Tank
    water: Water
    supply: Supply
    gauge: Gauge | None
    tape: Tape
    limits: Limits
    model: Model
    accepted: dict[str, str] = field(default_factory=dict)  # caution code: reason, role, date
    example: bool = False  # demo data: says so on every output
    contents: Contents | None = None
    second_gauge: Gauge | None = None

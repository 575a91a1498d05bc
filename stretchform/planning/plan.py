"""The plan: what a job comes to, as data; every screen, page and file shows this same object."""

from dataclasses import dataclass

from stretchform.planning.cautions import Caution
from stretchform.planning.job import Job
from stretchform.plates.case import PlateResult
from stretchform.si import (
    Array,
    Celsius,
    CubicMetre,
    Growth,
    Joule,
    Metre,
    MetrePerSecond,
    Newton,
    Pascal,
    Ratio,
    Second,
)
from stretchform.water.energy import StoredEnergy

MODEL = 1  # raised when results change


@dataclass(frozen=True, slots=True)
class Band:
    """5 %, 50 % and 95 % of the prediction's own spread."""

    low: float
    likely: float
    high: float


@dataclass(frozen=True, slots=True)
class LikelyBasis:
    """The factors between the steel's curve and the likely pressure, and Mises beside it."""

    criterion: str  # "judged" or the name given in the job
    criterion_factor: Ratio  # likely pressure over the Mises one, from the criterion alone
    rate_factor: Ratio
    springback_factor: Ratio
    mises_at_test_rate: Pascal
    tresca_maximum: Pascal  # the survival check: the low wall under Tresca
    survives_tresca: bool
    curves: tuple[str, ...]  # one line of data a course: basis of its curve


@dataclass(frozen=True, slots=True)
class StationPlan:
    """One station before, under pressure at the forming pressure, and released."""

    name: str
    height: Metre
    course: str
    circumference_before: Metre
    wall_before: Metre
    growth_under_pressure: Band
    circumference_under_pressure: Band
    wall_under_pressure: Metre
    growth_released: Band
    circumference_released: Band
    wall_released: Metre
    yield_before: Pascal
    gained_yield: Band
    near_head: bool  # nearer than 1.2 radii to a head: the ends hold it back, not computed


@dataclass(frozen=True, slots=True)
class StepStation:
    name: str
    circumference: Band  # under pressure
    stop_above: Metre


@dataclass(frozen=True, slots=True)
class Step:
    """One pressure step: what to set, what to expect, how likely it is to be too far."""

    pressure: Pascal  # gauge pressure at the top of the tank
    gauge_reading: Pascal
    hold: Second
    yielding: bool  # past the earliest first yield
    chance_over_target: Ratio
    stations: tuple[StepStation, ...]


@dataclass(frozen=True, slots=True)
class PlatePlan:
    """One height of a row of plates."""

    name: str
    height: Metre
    near_head: bool
    result: PlateResult


@dataclass(frozen=True, slots=True)
class Hazard:
    """What the full tank can do; from the high side."""

    pressure: Pascal  # the high forming pressure, for which these hold
    stored: StoredEnergy
    energy_at_relief: Joule | None  # recoverable, where a relief pressure is stated
    end_thrust: Newton
    jet_speed: MetrePerSecond


@dataclass(frozen=True, slots=True)
class WaterPlan:
    temperature: Celsius
    volume_before: CubicMetre
    air_limit: CubicMetre  # at one atmosphere
    filled_mass: float


@dataclass(frozen=True, slots=True)
class GrowthCurve:
    """Largest growth against pressure, for the picture and for programs."""

    pressure: Array
    released_low: Array
    released_likely: Array
    released_high: Array


@dataclass(frozen=True, slots=True)
class Plan:
    job: Job
    fingerprint: str
    basis: LikelyBasis
    target_growth: Growth  # outside circumference, of the target's course, as asked
    forming_pressure: Band
    maximum_pressure: Band
    maximum_within_curve: bool  # False: the curve ends before the maximum: a lower bound
    share_of_pressure: Ratio
    share_of_growth: Ratio
    points_per_per_cent: Ratio  # growth in points for 1 % of pressure, at the target
    no_answer: Ratio  # share of draws that never reach the target
    stations: tuple[StationPlan, ...]
    steps: tuple[Step, ...]
    plates: tuple[PlatePlan, ...]
    hazard: Hazard
    water: WaterPlan
    growth: GrowthCurve
    cautions: tuple[Caution, ...]
    withheld_by: tuple[str, ...]  # block cautions that no [accepted] line lifts

"""The plan: what a job comes to, as data; every screen, page and file shows this same object."""

from dataclasses import dataclass

from stretchform.planning.cautions import Caution
from stretchform.planning.conditions import CourseConditions
from stretchform.planning.holdpoints import HoldPoint
from stretchform.planning.job import Job
from stretchform.plates.case import PlateCase, PlateResult
from stretchform.plates.slosh import Mode
from stretchform.si import (
    Array,
    Celsius,
    CubicMetre,
    CubicMetrePerPascal,
    Growth,
    Joule,
    Metre,
    MetrePerSecond,
    Newton,
    Pascal,
    PascalPerCubicMetre,
    PascalPerKelvin,
    PascalPerSecond,
    PerSecond,
    Radian,
    Ratio,
    Second,
    SquareMetre,
)
from stretchform.water.energy import StoredEnergy

MODEL = 4  # raised when results change


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
    water_factor: Ratio = 1.0  # on flow stress, from the room of the test to the job's water
    courses: tuple[CourseConditions, ...] = ()  # each course's curve on its way to the wall


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
    released: Band  # if the tank were released from this step
    go_on_below: Metre | None  # the whole next step only from a reading below it
    stop_above: Metre


@dataclass(frozen=True, slots=True)
class Step:
    """One pressure step: what to set, what to expect, how likely it is to be too far."""

    pressure: Pascal  # gauge pressure at the top of the tank
    gauge_reading: Pascal
    hold: Second  # at least
    full_hold: bool  # until the rule on the rate of growth is kept
    yielding: bool  # past the earliest first yield
    chance_over_target: Ratio  # of all tanks
    chance_of_overshoot: Ratio  # of tanks that the go-on value let take this step
    chance_over_share: Ratio  # of those still going: past the share-of-maximum limit
    water_in: Band  # cubic metres since the tank was full
    strokes: Ratio | None  # likely, since the tank was full
    pumping: Second | None
    stations: tuple[StepStation, ...]


@dataclass(frozen=True, slots=True)
class HoldGrowth:
    after: Second  # since the pressure of the step was reached
    growth: Band


@dataclass(frozen=True, slots=True)
class HoldPlan:
    """How growth dies out in a hold, and when the rule on its rate is kept."""

    per_e_fold: Band  # hoop growth for each e-fold of time
    arrival_rate: PerSecond
    rate_limit: PerSecond  # mean rate of the last `window` that ends a hold
    window: Second
    until_kept: Band  # seconds
    growth: tuple[HoldGrowth, ...]


@dataclass(frozen=True, slots=True)
class Stops:
    """When to stop for good, apart from the stop values of the stations."""

    growth: Growth  # under pressure, where the target is meant
    water: CubicMetre  # since the tank was full: a tank of the low side is at its limit
    drum: CubicMetre  # planned content of the drum: it limits the growth
    water_at_target: Band
    rise_per_water: PascalPerCubicMetre  # likely at the target: less than half of it = stop
    stations_apart: Growth  # beyond the differences forecast
    compliance: CubicMetrePerPascal  # while nothing yields
    compliance_off: Ratio
    leak_fall: PascalPerSecond  # fall for one millilitre a minute, pump off, nothing yielding
    small_steps_from: Ratio  # after a release: share of the pressure it had


@dataclass(frozen=True, slots=True)
class Driver:
    """How much of the spread one unknown makes; shares are of the variance."""

    unknown: str
    courses: tuple[str, ...]  # empty: the whole tank
    of_pressure: Ratio
    of_growth: Ratio


@dataclass(frozen=True, slots=True)
class Information:
    """What one more measurement would leave of the spread: half of low to high."""

    measurement: str
    pressure: Ratio  # of the likely target pressure
    growth: Growth  # at the likely pressure


@dataclass(frozen=True, slots=True)
class GaugeWorth:
    name: str  # first | second
    range_share: Ratio  # range over likely forming pressure
    limit: Pascal  # permissible error
    growth: Growth  # what it is worth at the target
    head: Pascal  # what it shows beyond the pressure at the top of the tank


@dataclass(frozen=True, slots=True)
class Instruments:
    """Gauges, relief valve and pump, each told in growth."""

    gauges: tuple[GaugeWorth, ...]
    relief_growth: Band | None  # at 1.1 times the set pressure; infinite: beyond the maximum
    relief_share: Ratio | None  # what the valve passes over what the pump delivers
    reaction_growth: Growth | None  # growth in ten seconds while the pump runs


@dataclass(frozen=True, slots=True)
class NotchPlan:
    """Notches in the rim that let air out and water off; angles clockwise from the first tab."""

    radius: Metre
    vent: Radian | None  # to the high side while filling; None: no room beside the arms
    drain: Radian | None
    level: bool  # the plate lies level while it is filled: a film of air stays
    film: CubicMetre  # air that stays under it


@dataclass(frozen=True, slots=True)
class RingSlosh:
    """Damping of critical by one ring."""

    before: Ratio
    after: Ratio


@dataclass(frozen=True, slots=True)
class SloshState:
    """The liquid in use, in a tank of one size."""

    radius: Metre  # inside, at the surface
    level: Metre  # above the lower tangent line, for the same volume
    depth: Metre  # of a flat-bottomed tank of the same volume
    mode: Mode
    damping: Ratio | None  # wall and rings, of critical; None: full plates, not evaluated
    spacing: Metre | None  # widest spacing of such rings that keeps `SloshPlan.wanted`


@dataclass(frozen=True, slots=True)
class SloshPlan:
    """Slosh of the contents across the axis, before and after forming."""

    wave: Ratio  # height at the wall over the radius, assumed
    wanted: Ratio  # damping that the spacing keeps
    before: SloshState
    after: SloshState
    outside: tuple[str, ...]  # codes: where the formulas are stretched
    not_evaluated: tuple[str, ...]  # rows of full plates and segments


@dataclass(frozen=True, slots=True)
class PlatePlan:
    """One height of a row of plates."""

    name: str
    height: Metre
    near_head: bool
    result: PlateResult  # by the closed formulas
    case: PlateCase  # what was asked
    area: SquareMetre  # of the plate, notches and holes not taken off
    notches: NotchPlan | None  # None: none wanted, none needed, or no arm
    exact: PlateResult | None = None  # by the beam, for the hardest plate of each row
    damping: RingSlosh | None = None  # None: no contents stated, or not a ring in the liquid


@dataclass(frozen=True, slots=True)
class Hazard:
    """What the full tank can do; from the high side."""

    pressure: Pascal  # the high forming pressure, for which these hold
    stored: StoredEnergy
    stored_likely: StoredEnergy  # at the likely forming pressure
    energy_at_relief: Joule | None  # recoverable, where a relief pressure is stated
    end_thrust: Newton
    air_share: Ratio  # trapped air counted, of the volume at one atmosphere
    jet_speed: MetrePerSecond


@dataclass(frozen=True, slots=True)
class WaterPlan:
    temperature: Celsius
    volume_before: CubicMetre
    air_limit: CubicMetre  # at one atmosphere
    filled_mass: float
    volume_after: Band  # released
    in_total: Band  # pumped from full to the target
    returned: Band  # that comes back on release
    upper_bound: bool  # the gain counts every course as if its ends let it grow everywhere
    air_under_plates: CubicMetre  # likely left on filling, at one atmosphere
    drift: PascalPerKelvin  # of the full, shut tank at the likely pressure, elastic
    drift_growth: Growth  # for each kelvin while the wall flows
    collapse: Pascal | None  # outside pressure that crushes the formed shell; None: too short


@dataclass(frozen=True, slots=True)
class GrowthCurve:
    """Largest growth against pressure, for the picture and for programs."""

    pressure: Array
    released_low: Array
    released_likely: Array
    released_high: Array


@dataclass(frozen=True, slots=True)
class Wrinkling:
    """Handbook pressures of knuckle buckling; ALLOWABLE ones hold 1.5 against the test."""

    forming_over_limit: Ratio  # likely forming pressure over 1.5 times the European allowable
    allowable_en: Pascal
    in_range_en: bool
    allowable_galletly: Pascal
    collapse_galletly: Pascal
    allowable_asme: Pascal


@dataclass(frozen=True, slots=True)
class HeadPlan:
    """What one head does at about the likely forming pressure, medians of the unknowns."""

    name: str
    shape: str
    first_yield_pressure: Pascal
    depth_change: Metre  # tangent line to pole, under pressure
    depth_change_released: Metre
    lowest_hoop_stress: Pascal  # membrane; negative: compression
    lowest_hoop_at: Pascal
    largest_strain: Ratio  # equivalent plastic, at a surface
    wrinkling: Wrinkling | None  # None: nothing asks for a look


@dataclass(frozen=True, slots=True)
class OpeningPlan:
    name: str
    place: str
    thrust: Newton  # on its cover or plug at the high forming pressure
    keep_out: Metre  # height above and below its centre where no growth is claimed
    stations: tuple[str, ...]
    plates: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Profile:
    """Growth along the shell at the target, and the meridian before and released."""

    heights: Array
    released_low: Array
    released_likely: Array
    released_high: Array
    under_pressure: Array
    radius_before: Array
    height_before: Array
    radius_released: Array
    height_released: Array


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
    slosh: SloshPlan | None  # None: no contents stated
    heads: tuple[HeadPlan, ...]  # empty: quick closed form, heads not computed
    openings: tuple[OpeningPlan, ...]
    profile: Profile | None  # None: quick closed form
    whole: bool  # computed with the heads' hold on the shell
    hazard: Hazard
    water: WaterPlan
    growth: GrowthCurve
    holds: HoldPlan
    stops: Stops
    drivers: tuple[Driver, ...]
    information: tuple[Information, ...]
    instruments: Instruments
    hold_points: tuple[HoldPoint, ...]
    cautions: tuple[Caution, ...]
    withheld_by: tuple[str, ...]  # block cautions that no [accepted] line lifts

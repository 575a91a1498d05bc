"""What "likely" means: the judged factors between a curve and a forecast, each with its source."""

from dataclasses import dataclass

from stretchform.sources import Datum


@dataclass(frozen=True, slots=True)
class Range:
    """Low, likely and high of a judged factor; how they are meant stands with each use."""

    low: Datum
    likely: Datum
    high: Datum


@dataclass(frozen=True, slots=True)
class Judged:
    """The content of materials/forming.toml: one place for every judged number."""

    criterion: Range  # triangular: lowest, most frequent, highest C
    rate: Range  # 5, 50, 95 % of the factor on flow stress, test rate to the end of a hold
    springback: Range  # triangular factor on Hooke's springback
    gained: Range  # 5, 50, 95 % of gained proof strength over flow stress
    spread_coupon: Datum  # 5 to 95 % half-width of the flow stress
    spread_trial: Datum
    spread_certificate: Datum
    spread_typical: Datum
    spread_steepness: Datum  # 5 to 95 % half-width of the logarithmic hardening slope
    share_of_pressure: Datum  # care above this share of the maximum pressure
    share_of_growth_care: Datum
    share_of_growth_block: Datum
    growth_allowance: Datum  # growth limit over the target, as a fraction
    step_growth: Datum  # largest growth of one step above yield, as a fraction
    diameter_tolerance: Datum  # 5 to 95 % half-width of a stated diameter, relative
    water_tolerance: Datum  # the same of the wall's temperature, K
    softening: Datum  # flow stress lost for each kelvin, as a fraction
    gauge_height: Datum  # the same of the gauge's height, m
    overshoot: Datum  # chance that a single step may take to pass the target
    creep: Range  # 5, 50, 95 % of hoop growth for each e-fold of time in a hold
    arrival_rate: Datum  # rate of growth when a step's pressure is reached, 1/s
    hose_swelling: Datum  # share of a hose's volume for each pascal
    reaction_growth: Datum  # growth that may pass while a person reacts, as a fraction
    stations_apart: Datum  # growth that stations may differ beyond the forecast, as a fraction
    compliance_off: Datum  # share by which the elastic line may differ from the forecast
    wall_map: Datum  # half-width of a wall's mean after a map of it, m

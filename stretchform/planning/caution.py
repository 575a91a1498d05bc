"""What a caution is, and what its rules are told: a code, a level and numbers, no sentences."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import inf
from typing import TypeAlias

from stretchform.planning.job import Job
from stretchform.si import CubicMetre, Growth, Pascal, Ratio


class Level(StrEnum):
    """How serious: note, care, block."""

    NOTE = "note"
    CARE = "care"
    BLOCK = "block"


@dataclass(frozen=True, slots=True)
class Caution:
    """A code, its level and the numbers and names that its text needs."""

    code: str
    level: Level
    numbers: Mapping[str, float] = field(default_factory=dict)
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Means:
    """The same of pump, valve, gauge and water; as it stands, nothing to be careful of."""

    air_limit: Ratio = inf  # share of the tank at one atmosphere, accepted
    air_as_water: Ratio = inf  # the same that holds as much energy as all the water
    air_under_plates: Ratio = 0.0  # likely left on filling
    gauge_growth: Growth = 0.0  # worth of the coarsest gauge's permitted error
    relief_share: Ratio | None = None  # what the valve passes over what the pump delivers
    reaction_growth: Growth = 0.0  # while a person stops the pump
    reaction_allowed: Growth = inf
    water_ceiling: CubicMetre = inf  # that takes a tank of the low side to its growth limit
    collapse: Pascal = inf  # outside pressure that crushes the formed shell


@dataclass(frozen=True, slots=True)
class Facts:
    """What the rules need to know of the forecast."""

    forming_high: Pascal
    forming_likely: Pascal
    maximum_low: Pascal
    share_of_pressure: Ratio
    share_of_growth: Ratio
    no_answer: Ratio  # share of draws that never reach the target
    maximum_within_curve: bool
    survives_tresca: bool
    growth_limit: Growth
    growth_over_relief: Growth  # likely, at 1.1 times relief pressure; inf: beyond maximum
    stress_over_flow: Mapping[str, Ratio]  # for each pressure the job states
    whole: bool  # computed with the heads' hold on the shell
    short: bool  # shell shorter than two diameters
    wrinkling: Mapping[str, Ratio]  # head: forming pressure over 1.5 times the allowable one
    ahead: Mapping[str, Growth]  # courses that run ahead of the slowest
    near_head: tuple[str, ...]  # stations
    plates_near_head: tuple[str, ...]
    plates_failing: tuple[str, ...]
    thinnest: Ratio  # radius over wall of the thickest course
    means: Means = Means()
    target_growth: Growth = 0.0  # the largest one asked of any course
    criterion: Ratio = 1.0  # likely C


Rule: TypeAlias = Callable[[Job, Facts], Iterator[Caution]]

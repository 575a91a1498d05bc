"""What to be careful of: each caution is a rule on the job and on what was computed for it.

A block withholds every pressure until an [accepted] line lifts it; the codes in NEVER_LIFTED stay.
Only codes and numbers stand here; the sentences are in report/words.py.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from stretchform.planning.job import Job
from stretchform.planning.tank import Attitude
from stretchform.si import Growth, Pascal, Ratio
from stretchform.steel.grade import Basis, Steel


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


NEVER_LIFTED = frozenset(
    {
        "gas",
        "no_vent",
        "no_relief",
        "relief_above_maximum",
        "target_beyond_maximum",
        "minimum_only",
        "invented_steel",
    }
)
_NO_ANSWER_ALLOWED = 0.05
_CHLORIDE_CARE, _CHLORIDE_BLOCK = 50e-6, 200e-6  # kg/kg; the bands between are judged
_COLD, _COOL_FOR_TRANSFORMING, _WARM = 5.0, 15.0, 40.0  # °C
_THICK_BELOW = 10.0  # radius over wall
_GAUGE_LOWEST, _GAUGE_HIGHEST = 1.5, 4.0  # range over forming pressure
_COARSE_GAUGE = 0.6  # per cent of the range
_SENSE_LOW, _SENSE_HIGH = 0.7, 1.5  # hoop stress over flow stress of a stated pressure

Rule = Callable[[Job, Facts], Iterator[Caution]]


def judge(job: Job, facts: Facts) -> tuple[Caution, ...]:
    """All cautions of a job, the blocks first.

    Source: own-derivation, the rules below with their limits.
    Checked: tests/unit/test_cautions.py (each rule on both sides of its limit).
    """
    found = [caution for rule in _RULES for caution in rule(job, facts)]
    order = [Level.BLOCK, Level.CARE, Level.NOTE]
    return tuple(sorted(found, key=lambda caution: order.index(caution.level)))


def withheld_by(job: Job, cautions: tuple[Caution, ...]) -> tuple[str, ...]:
    """Codes of the blocks that keep every pressure back.

    Source: own-derivation, [accepted] lifts a block unless its code is in NEVER_LIFTED.
    Checked: tests/unit/test_cautions.py (lifted and never lifted).
    """
    return tuple(
        caution.code
        for caution in cautions
        if caution.level is Level.BLOCK
        and (caution.code in NEVER_LIFTED or caution.code not in job.accepted)
    )


def _supply(job: Job, facts: Facts) -> Iterator[Caution]:
    supply = job.supply
    if not supply.vent:
        yield Caution("no_vent", Level.BLOCK)
    if supply.kind is None:
        yield Caution("supply_not_stated", Level.CARE)
    elif supply.relief_pressure is None:
        yield Caution("no_relief", Level.BLOCK)
    if supply.relief_pressure is None:
        return
    relief = float(supply.relief_pressure)
    if relief > facts.maximum_low:
        numbers = {"relief": relief, "maximum": float(facts.maximum_low)}
        yield Caution("relief_above_maximum", Level.BLOCK, numbers)
    if facts.growth_over_relief > facts.growth_limit:
        numbers = {
            "growth": float(facts.growth_over_relief),
            "limit": float(facts.growth_limit),
        }
        yield Caution("relief_growth", Level.CARE, numbers)
    if relief < facts.forming_high:
        numbers = {"relief": relief, "forming": float(facts.forming_high)}
        yield Caution("relief_below_forming", Level.CARE, numbers)


def _stated_pressures(job: Job, facts: Facts) -> Iterator[Caution]:
    for name, ratio in facts.stress_over_flow.items():
        if not _SENSE_LOW <= ratio <= _SENSE_HIGH:
            yield Caution("stated_pressure", Level.CARE, {"ratio": float(ratio)}, (name,))


def _gauge(job: Job, facts: Facts) -> Iterator[Caution]:
    if job.gauge is None:
        yield Caution("gauge_not_stated", Level.CARE)
        return
    ratio = float(job.gauge.range) / float(facts.forming_likely)
    if not _GAUGE_LOWEST <= ratio <= _GAUGE_HIGHEST:
        yield Caution("gauge_range", Level.CARE, {"ratio": ratio})
    if job.gauge.accuracy_class > _COARSE_GAUGE:
        error = float(job.gauge.accuracy_class) / 100.0 * float(job.gauge.range)
        numbers = {"class": float(job.gauge.accuracy_class), "error": error}
        yield Caution("gauge_class", Level.CARE, numbers)


def _maximum(job: Job, facts: Facts) -> Iterator[Caution]:
    limits = job.limits
    share = {"share": float(facts.share_of_growth)}
    if facts.no_answer > _NO_ANSWER_ALLOWED:
        yield Caution("target_beyond_maximum", Level.BLOCK, {"share": float(facts.no_answer)})
    if facts.share_of_growth > limits.share_of_growth_block:
        share["limit"] = float(limits.share_of_growth_block)
        yield Caution("share_of_growth_high", Level.BLOCK, share)
    elif facts.share_of_growth > limits.share_of_growth_care:
        share["limit"] = float(limits.share_of_growth_care)
        yield Caution("share_of_growth", Level.CARE, share)
    if facts.share_of_pressure > limits.share_of_pressure:
        numbers = {
            "share": float(facts.share_of_pressure),
            "limit": float(limits.share_of_pressure),
        }
        yield Caution("share_of_pressure", Level.CARE, numbers)
    if not facts.survives_tresca:
        yield Caution("tresca", Level.CARE)
    if not facts.maximum_within_curve:
        yield Caution("curve_ends", Level.CARE)


def _steel(job: Job, facts: Facts) -> Iterator[Caution]:
    rules: tuple[tuple[str, Level, Callable[[Steel], bool]], ...] = (
        ("invented_steel", Level.BLOCK, lambda steel: steel.invented and not job.example),
        ("textbook_steel", Level.BLOCK, lambda steel: steel.basis is Basis.TEXTBOOK),
        ("minimum_only", Level.BLOCK, lambda steel: "minimum_only" in steel.notes),
        ("typical_values", Level.CARE, _typical),
        ("certificate_not_used", Level.CARE, lambda s: "certificate_not_used" in s.notes),
    )
    steels = [course.steel for course in job.tank.courses]  # one key may come from two coils
    for code, level, holds in rules:
        for key in dict.fromkeys(steel.key for steel in steels if holds(steel)):
            yield Caution(code, level, names=(key,))


def _typical(steel: Steel) -> bool:
    return steel.basis is Basis.TYPICAL and not steel.transforms


def _water(job: Job, facts: Facts) -> Iterator[Caution]:
    temperature = float(job.water.temperature)
    number = {"temperature": temperature}
    transforming = tuple(
        sorted({course.steel.key for course in job.tank.courses if course.steel.transforms})
    )
    if temperature < _COLD:
        yield Caution("cold_water", Level.BLOCK, number)
    if transforming:
        level = Level.BLOCK if temperature < _COOL_FOR_TRANSFORMING else Level.CARE
        yield Caution("transforms", level, number, transforming)
    if temperature > _WARM:
        yield Caution("warm_water", Level.CARE, number)
    if job.water.chloride is None:
        yield Caution("chloride_not_stated", Level.NOTE)
    elif job.water.chloride > _CHLORIDE_CARE:
        block = job.water.chloride > _CHLORIDE_BLOCK
        code, level = ("chloride_high", Level.BLOCK) if block else ("chloride", Level.CARE)
        yield Caution(code, level, {"chloride": float(job.water.chloride)})


def _ends(job: Job, facts: Facts) -> Iterator[Caution]:
    if facts.short and not facts.whole:
        yield Caution("short_cylinder", Level.CARE)
    if facts.near_head:
        yield Caution("station_near_head", Level.CARE, names=facts.near_head)
    if facts.plates_near_head:
        yield Caution("plate_near_head", Level.CARE, names=facts.plates_near_head)
    if not facts.whole:
        yield Caution("ends_not_computed", Level.NOTE)
    for name, ratio in facts.wrinkling.items():
        yield Caution("wrinkling", Level.CARE, {"ratio": float(ratio)}, (name,))
    for name, growth in facts.ahead.items():
        yield Caution("course_ahead", Level.CARE, {"growth": float(growth)}, (name,))
    if job.tank.attitude is Attitude.LYING:
        yield Caution("lying", Level.CARE)
    if job.tank.openings:
        names = tuple(opening.name for opening in job.tank.openings)
        yield Caution("openings", Level.CARE, names=names)
    if facts.thinnest < _THICK_BELOW:
        yield Caution("thick_wall", Level.CARE, {"ratio": float(facts.thinnest)})


def _plates(job: Job, facts: Facts) -> Iterator[Caution]:
    if facts.plates_failing:
        yield Caution("plate_fails", Level.CARE, names=facts.plates_failing)


def _model(job: Job, facts: Facts) -> Iterator[Caution]:
    if job.model.criterion is not None:
        yield Caution("criterion_fixed", Level.CARE, names=(job.model.criterion,))
    if not job.model.spread:
        yield Caution("no_spread", Level.CARE)
    if any(course.weld is None for course in job.tank.courses):
        yield Caution("weld_not_stated", Level.NOTE)
    yield Caution("no_measured_tank", Level.NOTE)


_RULES: tuple[Rule, ...] = (
    _supply,
    _maximum,
    _steel,
    _water,
    _stated_pressures,
    _gauge,
    _ends,
    _plates,
    _model,
)
CODES = frozenset(
    {
        "certificate_not_used",
        "chloride",
        "chloride_high",
        "chloride_not_stated",
        "cold_water",
        "course_ahead",
        "criterion_fixed",
        "curve_ends",
        "ends_not_computed",
        "gas",
        "gauge_class",
        "gauge_not_stated",
        "gauge_range",
        "invented_steel",
        "lying",
        "minimum_only",
        "no_measured_tank",
        "no_relief",
        "no_spread",
        "no_vent",
        "openings",
        "plate_fails",
        "plate_near_head",
        "relief_above_maximum",
        "relief_below_forming",
        "relief_growth",
        "share_of_growth",
        "share_of_growth_high",
        "share_of_pressure",
        "short_cylinder",
        "stated_pressure",
        "station_near_head",
        "supply_not_stated",
        "target_beyond_maximum",
        "textbook_steel",
        "thick_wall",
        "transforms",
        "tresca",
        "typical_values",
        "warm_water",
        "wrinkling",
        "weld_not_stated",
    }
)

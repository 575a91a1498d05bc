"""What to be careful of: each caution is a rule on the job and on what was computed for it.

A block withholds every pressure until an [accepted] line lifts it; the codes in NEVER_LIFTED stay.
Only codes and numbers stand here, in `caution_means` and in `caution_steel`; the sentences are
in report/words.py.
"""

from collections.abc import Callable, Iterator

from stretchform.planning import caution_means, caution_steel
from stretchform.planning.caution import Caution as Caution
from stretchform.planning.caution import Facts as Facts
from stretchform.planning.caution import Level as Level
from stretchform.planning.caution import Means as Means
from stretchform.planning.caution import Rule
from stretchform.planning.job import Job
from stretchform.planning.tank import Attitude
from stretchform.steel.grade import Basis, Steel

NEVER_LIFTED = frozenset(
    {
        "gas",
        "no_vent",
        "no_relief",
        "relief_above_maximum",
        "target_beyond_maximum",
        "minimum_only",
        "invented_steel",
        "weld_without_filler",
    }
)
_NO_ANSWER_ALLOWED = 0.05
_THICK_BELOW = 10.0  # radius over wall
_SENSE_LOW, _SENSE_HIGH = 0.7, 1.5  # hoop stress over flow stress of a stated pressure


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


def _stated_pressures(job: Job, facts: Facts) -> Iterator[Caution]:
    for name, ratio in facts.stress_over_flow.items():
        if not _SENSE_LOW <= ratio <= _SENSE_HIGH:
            yield Caution("stated_pressure", Level.CARE, {"ratio": float(ratio)}, (name,))


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
    *caution_means.RULES,
    *caution_steel.RULES,
    _maximum,
    _steel,
    _stated_pressures,
    _ends,
    _plates,
    _model,
)
CODES = frozenset(
    {
        "air_driven_pump",
        "angel_near_water",
        "brittle_fittings",
        "certificate_above_maximum",
        "certificate_below_minimum",
        "certificate_not_used",
        "chloride",
        "chloride_high",
        "chloride_not_stated",
        "cold_water",
        "cold_water_304",
        "course_ahead",
        "criterion_fixed",
        "curve_ends",
        "drum_too_large",
        "ends_not_computed",
        "gas",
        "gauge_class",
        "gauge_not_stated",
        "gauge_range",
        "invented_steel",
        "long_seam_yields",
        "lying",
        "md30_near_water",
        "minimum_only",
        "motor_pump",
        "nitrogen_not_given",
        "no_low_level_stop",
        "no_measured_tank",
        "no_metered_water",
        "no_relief",
        "no_remote_bleed",
        "no_spread",
        "no_vent",
        "one_gauge",
        "openings",
        "perhaps_tempered",
        "plate_fails",
        "plate_near_head",
        "plates_trap_air",
        "pump_fast",
        "relief_above_maximum",
        "relief_below_forming",
        "relief_capacity",
        "relief_flow_not_stated",
        "relief_growth",
        "seam_groove",
        "seam_may_be_weaker",
        "seam_necks",
        "share_of_growth",
        "share_of_growth_high",
        "share_of_pressure",
        "short_cylinder",
        "shut_vent",
        "stated_pressure",
        "station_near_head",
        "supply_not_stated",
        "target_beyond_maximum",
        "textbook_steel",
        "thick_wall",
        "transforms",
        "trapped_air",
        "trapped_air_high",
        "tresca",
        "typical_values",
        "warm_water",
        "water_shift",
        "weld_elongation_below_target",
        "weld_elongation_not_given",
        "weld_elongation_short",
        "weld_filler_unknown",
        "weld_not_stated",
        "weld_without_filler",
        "wrinkling",
    }
)

"""Rules on the means: pump, relief valve, drum, gauges, and the water that stands in the tank."""

from collections.abc import Iterator

from stretchform.planning.caution import Caution, Facts, Level, Rule
from stretchform.planning.job import PUMPS, Gauge, Job
from stretchform.si import STANDARD_ATMOSPHERE
from stretchform.steel.grade import Steel
from stretchform.water import quality
from stretchform.water.quality import Chloride, Warmth

_GAUGE_LOWEST, _GAUGE_HIGHEST = 1.5, 4.0  # range over forming pressure
_COARSE_GAUGE = 0.6  # per cent of the range
_ENOUGH = 1.0  # what the relief valve passes over what the pump delivers
_PUMPS_BY_THEMSELVES = ("motor pump", "air-driven pump")
_MOLYBDENUM = ("1.44", "316", "317", "S316", "S317")  # how numbers and names of grades begin


def _supply(job: Job, facts: Facts) -> Iterator[Caution]:
    supply = job.supply
    if not supply.vent:
        yield Caution("no_vent", Level.BLOCK)
    if supply.kind is None:
        yield Caution("supply_not_stated", Level.CARE)
        return
    if supply.kind not in PUMPS:
        yield Caution("gas", Level.BLOCK)
    if supply.relief_pressure is None:
        yield Caution("no_relief", Level.BLOCK)
    if supply.brittle_fittings:
        yield Caution("brittle_fittings", Level.BLOCK)
    if not supply.remote_bleed:
        yield Caution("no_remote_bleed", Level.CARE)


def _relief(job: Job, facts: Facts) -> Iterator[Caution]:
    if job.supply.relief_pressure is None:
        return
    relief = float(job.supply.relief_pressure)
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
    share = facts.means.relief_share
    if share is not None and share <= _ENOUGH:
        yield Caution("relief_capacity", Level.BLOCK, {"share": float(share)})
    elif share is None and job.supply.kind in _PUMPS_BY_THEMSELVES:
        yield Caution("relief_flow_not_stated", Level.CARE)


def _pump(job: Job, facts: Facts) -> Iterator[Caution]:
    supply, means = job.supply, facts.means
    if supply.kind == "air-driven pump":
        yield Caution("air_driven_pump", Level.CARE)
    if supply.kind == "motor pump":
        yield Caution("motor_pump", Level.NOTE)
    if supply.kind in _PUMPS_BY_THEMSELVES and not supply.low_level_stop:
        yield Caution("no_low_level_stop", Level.CARE)
    if means.reaction_growth > means.reaction_allowed:
        numbers = {
            "growth": float(means.reaction_growth),
            "limit": float(means.reaction_allowed),
        }
        yield Caution("pump_fast", Level.CARE, numbers)
    if supply.kind is not None and supply.metered is None:
        yield Caution("no_metered_water", Level.CARE)
    elif supply.metered is not None and supply.metered > means.water_ceiling:
        numbers = {"drum": float(supply.metered), "limit": float(means.water_ceiling)}
        yield Caution("drum_too_large", Level.CARE, numbers)


def _gauges(job: Job, facts: Facts) -> Iterator[Caution]:
    if job.gauge is None:
        yield Caution("gauge_not_stated", Level.CARE)
        return
    if job.second_gauge is None:
        yield Caution("one_gauge", Level.CARE)
    stated = [gauge for gauge in (job.gauge, job.second_gauge) if gauge is not None]
    ratios = [float(gauge.range) / float(facts.forming_likely) for gauge in stated]
    off = [one for one in ratios if not _GAUGE_LOWEST <= one <= _GAUGE_HIGHEST]
    if off:
        yield Caution("gauge_range", Level.CARE, {"ratio": off[0]})
    coarsest = max(stated, key=_error)
    if coarsest.accuracy_class > _COARSE_GAUGE:
        numbers = {
            "class": float(coarsest.accuracy_class),
            "error": _error(coarsest),
            "growth": float(facts.means.gauge_growth),
        }
        yield Caution("gauge_class", Level.CARE, numbers)


def _error(gauge: Gauge) -> float:
    return float(gauge.accuracy_class) / 100.0 * float(gauge.range)


def _air(job: Job, facts: Facts) -> Iterator[Caution]:
    means, air = facts.means, float(job.water.air)
    numbers = {"air": air, "limit": float(means.air_limit)}
    if air >= means.air_as_water:
        yield Caution("trapped_air_high", Level.BLOCK, numbers)
    elif air > means.air_limit:
        yield Caution("trapped_air", Level.CARE, numbers)
    if means.air_under_plates > means.air_limit:
        numbers = {"air": float(means.air_under_plates), "limit": float(means.air_limit)}
        yield Caution("plates_trap_air", Level.CARE, numbers)
    if means.collapse < STANDARD_ATMOSPHERE:
        yield Caution("shut_vent", Level.CARE, {"collapse": float(means.collapse)})


def _water(job: Job, facts: Facts) -> Iterator[Caution]:
    temperature = float(job.water.temperature)
    number = {"temperature": temperature}
    steels = [course.steel for course in job.tank.courses]
    transforming = tuple(sorted({steel.key for steel in steels if steel.transforms}))
    warmth = quality.warmth(temperature)
    if warmth is Warmth.FREEZING:
        yield Caution("cold_water", Level.BLOCK, number)
    if transforming:
        cool = temperature < quality.COOL_FOR_TRANSFORMING
        level = Level.BLOCK if cool else Level.CARE
        yield Caution("transforms", level, number, transforming)
    if warmth in (Warmth.WARM, Warmth.HOT):
        yield Caution("warm_water", Level.CARE, number)
    chloride = job.water.chloride
    found = quality.chloride(chloride, all(_has_molybdenum(steel) for steel in steels))
    if chloride is None:
        yield Caution("chloride_not_stated", Level.NOTE)
    elif found is Chloride.HIGH:
        yield Caution("chloride_high", Level.BLOCK, {"chloride": float(chloride)})
    elif found is Chloride.RAISED:
        yield Caution("chloride", Level.CARE, {"chloride": float(chloride)})


def _has_molybdenum(steel: Steel) -> bool:
    return any(name.startswith(_MOLYBDENUM) for name in (steel.key, *steel.names))


RULES: tuple[Rule, ...] = (_supply, _relief, _pump, _water, _air, _gauges)

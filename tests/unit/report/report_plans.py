"""Plans for the tests of the screens: of an invented job, and one that a block withholds."""

from dataclasses import replace
from functools import cache

from planning_jobs import JUDGED, growth, job, plate

from stretchform.files.data import bibliography
from stretchform.planning.build import build
from stretchform.planning.job import Contents, Gauge, Water
from stretchform.planning.plan import Band
from stretchform.planning.tank import Opening

SOURCES = bibliography()
COLD = Water(temperature=3.0, chloride=20e-6)  # invented; below the block at 5 °C


def _job(**fields):
    gauge = Gauge(range=6e6, accuracy_class=0.5, height=1.2)
    port = Opening("sight port", "lower", 0.05, 0.9)
    return job(
        plates=(plate(heights=(0.3, 1.0, 1.7)),), openings=(port,), gauge=gauge, **fields
    )


@cache
def shown():
    """A plan that nothing withholds."""
    return build(_job(), JUDGED)


@cache
def withheld():
    """The same tank in water that is too cold."""
    return build(_job(water=COLD), JUDGED)


@cache
def accepted():
    """The same with the cold water accepted."""
    reason = "no ice seen, shop foreman, 2026-02-03"
    return build(_job(water=COLD, accepted={"cold_water": reason}), JUDGED)


@cache
def overstretched():
    """A plan whose target is too near the growth at the maximum pressure."""
    return build(_job(target=growth(0.2)), JUDGED)


@cache
def sloshing():
    """The first one with a liquid in use."""
    return build(_job(contents=Contents(1000.0, 1.2, 9.81)), JUDGED)


@cache
def quick():
    """The first one without the heads."""
    return build(_job(), JUDGED, quick=True)


@cache
def endless():
    """A plan with numbers that do not exist, as where draws never reach the target."""
    plan = shown()
    first = plan.stations[0]
    station = replace(
        first,
        growth_released=_without_end(first.growth_released),
        circumference_released=_without_end(first.circumference_released),
    )
    band = _without_end(plan.forming_pressure)
    return replace(plan, forming_pressure=band, stations=(station, *plan.stations[1:]))


def _without_end(band):
    return Band(band.low, float("inf"), float("nan"))

"""Plans for the tests of the screens: of an invented job, and one that a block withholds."""

from dataclasses import replace
from functools import cache

from planning_jobs import JUDGED, course, growth, job, plate

from stretchform.files.data import bibliography
from stretchform.planning.build import build
from stretchform.planning.job import Contents, Gauge, Water
from stretchform.planning.plan import Band
from stretchform.planning.tank import Opening, Station

SOURCES = bibliography()
COLD = Water(temperature=3.0, chloride=20e-6)  # invented; below the block at 5 °C


def _job(**fields):
    gauge = Gauge(range=6e6, accuracy_class=0.5, height=1.2)
    port = Opening("sight port", "lower", 0.05, 0.9)
    kept = {"plates": (plate(heights=(0.3, 1.0, 1.7)),), "openings": (port,), "gauge": gauge}
    return job(**{**kept, **fields})


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


WILD_NAMES = (
    "<script>alert(1)</script>",
    'O\'Brien & "Sons" </td></table>',
    "=SUM(A1:A9)",
    "水槽 下段",
    "Δεξαμενή",
    "خزان الماء",
    "@home -x +1",
    "a course with a very long name that goes on and on until nobody wants to read it any more",
)


@cache
def wild():
    """Eight courses, eight stations, forty plates, and names that no file should choke on."""
    courses = [course(name, length=0.6) for name in WILD_NAMES]
    stations = [
        Station(f"at {name}", 0.3 + 0.6 * place, name) for place, name in enumerate(WILD_NAMES)
    ]
    rows = (
        plate("<b>ring</b>", tuple(0.3 + 0.1 * place for place in range(30))),
        plate("-@=plate", tuple(3.4 + 0.1 * place for place in range(10))),
    )
    named = _job(courses=courses, stations=stations, plates=rows)
    made = build(named, JUDGED, quick=True)
    job = replace(named, name='</title><h1>Tank & "co" 水 خزان', note="=1+1 <!-- note --> \x01")
    return replace(made, job=job, profile=shown().profile)

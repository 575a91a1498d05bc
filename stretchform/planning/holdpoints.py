"""Hold points: steps of the work that must be read and signed before the next one begins.

Data only: code, when, what is read, the numbers of the job. A "no" anywhere means stop. Card,
board and day record show these same points; their sentences are in report/words_holdpoints.py.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from stretchform.si import (
    CubicMetre,
    CubicMetrePerPascal,
    Growth,
    Number,
    Pascal,
    PerSecond,
    Ratio,
    Second,
)

LEAK_LOOK: Ratio = (
    0.5  # share of the earliest first yield up to which a look from near is allowed
)


class When(StrEnum):
    """Where in the work a hold point stands."""

    BEFORE = "before filling"
    FILLING = "filling"
    ELASTIC = "before the wall yields"
    FORMING = "while the wall yields"
    AFTER = "after release"


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """One point: every one is signed with name and time, and a "no" stops the work."""

    code: str
    when: When
    reads: tuple[str, ...]  # what is written down
    numbers: Mapping[str, Number] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Facts:
    """Numbers of the job that hold points show."""

    first_yield: Pascal  # earliest
    forming: Pascal  # high
    relief: Pascal | None
    air_limit: CubicMetre
    compliance: CubicMetrePerPascal
    compliance_off: Ratio
    drum: CubicMetre
    water_stop: CubicMetre
    step_growth: Growth
    stations_apart: Growth
    shortest_hold: Second
    rate_limit: PerSecond
    returned: CubicMetre  # likely water that comes back


def hold_points(facts: Facts) -> tuple[HoldPoint, ...]:
    """All hold points in their order.

    Source: own-judgement, from the guidance on pressure tests that the words name.
    Checked: tests/unit/test_holdpoints.py (order, approach rule, numbers).
    """
    return (*_before(facts), *_filling(facts), *_elastic(facts), *_forming(facts), *_after())


def _before(facts: Facts) -> Iterator[HoldPoint]:
    yield HoldPoint("permission", When.BEFORE, ("documents",))
    yield HoldPoint("danger", When.BEFORE, ("documents", "barrier"))
    numbers: dict[str, Number] = {"drum": facts.drum}
    if facts.relief is not None:
        numbers["relief"] = facts.relief
    yield HoldPoint("means", When.BEFORE, ("gauges", "relief", "bucket", "drum"), numbers)
    yield HoldPoint("place", When.BEFORE, ("supports", "vents", "spill", "cameras"))
    yield HoldPoint("zero_readings", When.BEFORE, ("circumferences", "walls", "temperatures"))


def _filling(facts: Facts) -> Iterator[HoldPoint]:
    yield HoldPoint("water", When.FILLING, ("temperature", "chloride", "rest"))
    top = min(0.5e6, LEAK_LOOK * float(facts.first_yield))
    numbers: dict[str, Number] = {"air": facts.air_limit, "pressure": top}
    yield HoldPoint("first_strokes", When.FILLING, ("pressures", "water_in"), numbers)


def _elastic(facts: Facts) -> Iterator[HoldPoint]:
    look = LEAK_LOOK * float(facts.first_yield)
    yield HoldPoint("leak_look", When.ELASTIC, ("pressure", "leaks"), {"pressure": look})
    yield HoldPoint("all_out", When.ELASTIC, ("people",))
    numbers: dict[str, Number] = {"compliance": facts.compliance, "off": facts.compliance_off}
    yield HoldPoint("elastic_line", When.ELASTIC, ("pressures", "water_in"), numbers)


def _forming(facts: Facts) -> Iterator[HoldPoint]:
    numbers: dict[str, Number] = {
        "growth": facts.step_growth,
        "apart": facts.stations_apart,
        "water": facts.water_stop,
    }
    reads = ("pressure", "water_in", "circumferences", "temperature", "time")
    yield HoldPoint("each_step", When.FORMING, reads, numbers)
    numbers = {"hold": facts.shortest_hold, "rate": facts.rate_limit}
    yield HoldPoint("target", When.FORMING, ("circumferences", "time"), numbers)
    numbers = {"water": facts.returned}
    yield HoldPoint("release", When.FORMING, ("gauges", "water_back", "vent"), numbers)


def _after() -> Iterator[HoldPoint]:
    yield HoldPoint("formed", When.AFTER, ("circumferences", "walls", "seams", "plates"))
    yield HoldPoint("drain", When.AFTER, ("vent", "rinse", "dry"))
    yield HoldPoint("record", When.AFTER, ("deviations", "code_test"))

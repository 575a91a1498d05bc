"""What is said about steps, tape, holds, stops, water and instruments."""

from math import isfinite

from stretchform.planning import drivers
from stretchform.planning.plan import Driver, Information, Plan, Step
from stretchform.report import words_numbers as numbers

_MEASUREMENTS = {
    drivers.PLANNED: "as planned",
    drivers.COUPON: "a tensile test of each coil",
    drivers.MAP: "a map of the walls, twenty readings a course",
    drivers.TRIAL: "a trial cylinder of each coil, formed and measured",
}


def counted(plan: Plan) -> str:
    """What the work counts beside litres: strokes, minutes of pumping or nothing."""
    if any(step.strokes is not None for step in plan.steps):
        return "strokes so far"
    if any(step.pumping is not None for step in plan.steps):
        return "pumping min"
    return ""


def count_of(step: Step) -> str:
    """The number of `counted`."""
    if step.strokes is not None:
        return f"{float(step.strokes):.0f}" if isfinite(step.strokes) else numbers.NOTHING
    if step.pumping is not None and isfinite(step.pumping):
        return f"{float(step.pumping) / 60.0:.1f}"
    return numbers.NOTHING


def step_notes(plan: Plan) -> tuple[str, ...]:
    where = (
        "The gauge column allows for the height of the gauge."
        if plan.job.gauge
        else "No gauge is stated, so the gauge column is the pressure at the top of the tank."
    )
    bound = (
        " It is an upper bound: ends that grow less are not counted."
        if plan.water.upper_bound
        else ""
    )
    return (
        *_ends_early(plan),
        "* the wall may yield: nobody comes near from here on until both gauges read zero and "
        "the vent is open. "
        "+ hold on until the rule below is kept.",
        "Over target: chance that a tank is past its target there. Water in: likely, since the "
        f"tank was full, of tanks that go on.{bound} {where}",
    )


def _ends_early(plan: Plan) -> tuple[str, ...]:
    """Why the steps end below the high forming pressure, and what then; nothing if they do not."""
    last, relief = plan.steps[-1], plan.job.supply.relief_pressure
    if last.pressure >= plan.forming_pressure.high:
        return ()
    at_valve = relief is not None and last.pressure < plan.maximum_pressure.low * (1.0 - 1e-9)
    what = (
        "the relief valve opens just above" if at_valve else "the weakest tanks burst above it"
    )
    short = numbers.chance(1.0 - last.chance_over_target)
    return (
        f"The steps end at {numbers.pressure(last.pressure)}: {what}. {short} of tanks are still "
        "below their target then: release, and plan again with these readings. Never change the "
        "valve on the day.",
    )


def tape_notes() -> tuple[str, ...]:
    """How to read the table of the tape."""
    return (
        "Likely: outside circumference under pressure at 20 °C, tape thickness taken off, of a "
        "tank that the step before left below its target. Take the whole next step only while "
        "every station reads below its go-on value; above it raise the pressure by a quarter of "
        "the step at a time. Go no further once the target is reached: its circumference under "
        "pressure stands with the stop values. The reading at the end of the hold counts, for "
        "going on as for the target.",
    )


def holds(plan: Plan) -> tuple[str, ...]:
    """How growth goes on in a hold, and when it may end."""
    found = plan.holds
    kept = found.until_kept
    after = {item.after: item.growth for item in found.growth}
    quarter, hour = after[900.0], after[3600.0]
    return (
        "- in a hold lost pressure is made up by single counted strokes. "
        "At constant pressure the wall goes on growing, ever more slowly. Expected since the "
        f"step's pressure was reached: {_three(quarter)} points in 15 min, {_three(hour)} in 1 h "
        "(low/likely/high; a judged prior of low confidence: trust the tape)",
        "- holds with +: until the growth of the last half hour is below 0.1 % an hour, expected "
        f"after {numbers.minutes(kept.low)}, {numbers.minutes(kept.likely)} or "
        f"{numbers.minutes(kept.high)}. A rate that no longer falls is a tank that runs away. "
        f"0.1 % an hour is about {_half_hour(plan)} of tape in half an hour",
        "- after a release the wall yields again near the pressure it had reached: small steps "
        f"again from {numbers.percent(plan.stops.small_steps_from, 0)} of it",
    )


def _half_hour(plan: Plan) -> str:
    """What the tape moves in half an hour at 0.1 % an hour."""
    largest = max(float(item.circumference_before) for item in plan.stations)
    return numbers.circumference(0.0005 * largest)


def _three(band: object) -> str:
    values = (getattr(band, name) for name in ("low", "likely", "high"))
    return "/".join(f"{100.0 * value:.2f}" for value in values)


def stops(plan: Plan) -> tuple[str, ...]:
    """Everything that ends the work, apart from a reached target."""
    ends = plan.stops
    rise = 1e-3 * float(ends.rise_per_water)
    return (
        "a station passes its stop value: likely growth limit "
        f"{numbers.percent(ends.growth)} under pressure",
        f"{numbers.litres(ends.water)} have gone in since the tank was full. Fill the drum with "
        f"{numbers.litres(ends.drum)} only, never refill it on the day, and stop before the pump "
        "draws air: the drum is what limits growth",
        "the pressure stands still or falls while the pump delivers; near the target a litre "
        f"should raise it by about {numbers.pressure(rise)}. An opening relief valve looks "
        "the same: stop too",
        f"stations differ by {numbers.points(ends.stations_apart)} more than forecast, or a bulge "
        "shows",
        "the pressure falls in a hold while nothing yields: 1 ml a minute lost is "
        f"{numbers.kilopascals(60.0 * float(ends.leak_fall))} a minute",
        "there is a noise, a leak, a lost camera picture, or anybody says stop",
    )


def unknown(item: Driver) -> str:
    """What is not known, with the courses that it is about."""
    return f"{item.unknown} ({', '.join(item.courses)})" if item.courses else item.unknown


def information(item: Information) -> str:
    """One measurement and what it would leave."""
    name = _MEASUREMENTS[item.measurement]
    return (
        f"{name}: target pressure within {numbers.percent(item.pressure, 1)}, growth at the "
        f"likely pressure within {numbers.points(item.growth)}"
    )


def water(plan: Plan, inches: bool = False) -> tuple[str, ...]:
    """Filling, the water of the work, drift and draining."""
    found = plan.water
    lines = [
        f"tank before forming: {numbers.litres(found.volume_before)}; filled mass "
        f"{float(found.filled_mass):.0f} kg (shell, heads and water): check floor, supports and "
        "the way of a full spill",
        f"planned with water of {numbers.temperature(found.temperature, inches)}; within 5 K of "
        "the wall, and two hours of rest after filling",
    ]
    if found.air_under_plates > 0.0:
        lines.append(
            f"plates may hold {numbers.litres(found.air_under_plates)} of air on filling, as the "
            f"tank is {plan.job.tank.attitude.value}: tilt, tap, vent again"
        )
    if not plan.withheld_by:
        lines += _pressed(plan)
    lines.append(
        f"draining: the vent is opened first and never covered{_crushed(plan, inches)}"
    )
    return tuple(lines)


def _crushed(plan: Plan, inches: bool) -> str:
    collapse = plan.water.collapse
    if collapse is None or plan.withheld_by:
        return ""
    return (
        f"; {numbers.pressure(collapse, inches)} outside crush the formed shell, a shut vent pulls "
        "up to 0.101 MPa"
    )


def _pressed(plan: Plan) -> list[str]:
    found = plan.water
    bound = ", an upper bound" if found.upper_bound else ""
    needed = found.in_total
    return [
        f"air left at the first strokes: at most {numbers.litres(found.air_limit)}; more: empty, "
        "vent, fill again",
        f"pumped from full to the target: {numbers.litres(needed.likely)} ("
        f"{numbers.litres(needed.low)} to {numbers.litres(needed.high)}{bound}); about "
        f"{numbers.litres(found.returned.likely)} come back on release",
        f"shut and full it drifts by {numbers.kilopascals(found.drift)} a kelvin while nothing "
        f"yields, {numbers.points(found.drift_growth)} of growth while the wall flows: never "
        "leave it shut and alone",
    ]


def instruments(plan: Plan) -> tuple[str, ...]:
    """What gauges, valve and pump are worth in growth."""
    found = plan.instruments
    lines = [
        f"{item.name} gauge: range {numbers.number(item.range_share)} times the likely forming "
        f"pressure, up to {numbers.pressure(item.limit)} wrong = {numbers.points(item.growth)} of "
        f"growth; it shows {numbers.kilopascals(item.head)} more than the top of the tank"
        for item in found.gauges
    ]
    if found.relief_growth is not None:
        likely, high = (_growth(value) for value in _likely_high(plan))
        lines.append(
            f"relief valve: at 1.1 times its setting the tank grows to {likely} (likely), {high} "
            "(high)"
        )
    if found.relief_share is not None:
        lines.append(
            f"it passes {numbers.number(found.relief_share)} times the pump's delivery"
        )
    if found.reaction_growth is not None:
        lines.append(
            f"ten seconds of pumping are {numbers.points(found.reaction_growth)} of growth"
        )
    return tuple(lines)


def _likely_high(plan: Plan) -> tuple[float, float]:
    band = plan.instruments.relief_growth
    return (band.likely, band.high) if band is not None else (0.0, 0.0)


def _growth(value: float) -> str:
    return numbers.percent(value) if isfinite(value) else "beyond the maximum"

"""Pressures, steps and water of a plan as blocks for the screen."""

import textwrap

from stretchform.planning.plan import Band, Plan, Step
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Metre, Pascal

_STATIONS, _STATIONS_INCH = 3, 4  # that fit beside the pressures


def blocks(plan: Plan, inches: bool = False) -> list[Block]:
    """Forming and maximum pressure with their spread, and what stands between them and Mises."""
    second = "psi" if inches else "bar"
    columns = (
        Column(f"at the top of the tank, MPa ({second})", right=False),
        *(Column(head) for head in ("low", "likely", "high")),
    )
    maximum = "maximum pressure" if plan.maximum_within_curve else "maximum pressure, at least"
    rows = (
        ("forming pressure", *_band(plan.forming_pressure, inches)),
        (maximum, *_band(plan.maximum_pressure, inches)),
    )
    return [
        Table("Forming pressure (gauge)", columns, rows),
        Lines("About the likely pressure", tuple(_about(plan, inches))),
    ]


def _about(plan: Plan, inches: bool) -> list[str]:
    basis = plan.basis
    named = "" if basis.criterion == "judged" else f" ({basis.criterion}, fixed in the job)"
    lines = [
        f"- criterion factor {numbers.number(basis.criterion_factor)}{named}, rate factor "
        f"{numbers.number(basis.rate_factor)}: both lower the Mises pressure at the speed of "
        f"a tensile test, {numbers.pressure(basis.mises_at_test_rate, inches)}",
        f"- target: {numbers.percent(plan.target_growth)} of growth "
        f"{'under pressure' if plan.job.target.under_pressure else 'released'}, at: "
        f"{plan.job.target.station}",
        f"- share of the maximum: {numbers.percent(plan.share_of_pressure, 0)} of the pressure, "
        f"{numbers.percent(plan.share_of_growth, 0)} of the growth; at 100 % the tank bursts",
        f"- sensitivity: 1 % of pressure = {numbers.number(plan.points_per_per_cent)} points of "
        "growth at the target",
        f"- earliest yield rule (Tresca): maximum {numbers.pressure(basis.tresca_maximum, inches)}"
        f", the likely plan {'survives' if basis.survives_tresca else 'does NOT survive'} it",
    ]
    if plan.no_answer > 0.0:
        share = numbers.chance(plan.no_answer)
        lines.append(f"- tanks of the forecast that never reach the target: {share}")
    return lines


def steps(plan: Plan, inches: bool = False) -> list[Block]:
    """Each pressure step: what to set, what to expect, where to stop; a few stations a table."""
    most = _STATIONS_INCH if inches else _STATIONS
    count = len(plan.stations)
    found: list[Block] = []
    for first in range(0, count, most):
        chosen = range(first, min(first + most, count))
        title = "Steps, from the low side" if first == 0 else "Steps, further stations"
        notes = _step_notes(plan) if first + most >= count else ()
        found.append(_steps(plan, chosen, title, notes, inches))
    return found


def _steps(
    plan: Plan, chosen: range, title: str, notes: tuple[str, ...], inches: bool
) -> Table:
    second, length = ("psi", "mm\n(in)") if inches else ("bar", "mm")
    gap = "\n" if inches else " "
    heads = [textwrap.fill(plan.stations[index].name, 10) for index in chosen]
    columns = (
        Column("step"),
        Column(f"set\nMPa{gap}({second})"),
        Column(f"gauge shows\nMPa{gap}({second})"),
        Column("over\ntarget"),
        *(Column(f"{head}\n{length}") for head in heads),
    )
    rows = [
        _step(number, step, chosen, inches) for number, step in enumerate(plan.steps, start=1)
    ]
    if plan.steps:
        stops = [plan.steps[-1].stations[index].stop_above for index in chosen]
        rows.append(("stop", "", "", "above", *(_length(value, inches) for value in stops)))
    return Table(title, columns, tuple(rows), notes)


def _step(number: int, step: Step, chosen: range, inches: bool) -> tuple[str, ...]:
    pressures = (_pressure(value, inches) for value in (step.pressure, step.gauge_reading))
    return (
        f"* {number}" if step.yielding else str(number),
        *((text.replace(" ", "\n") if inches else text) for text in pressures),
        numbers.chance(step.chance_over_target),
        *(_length(step.stations[index].circumference.likely, inches) for index in chosen),
    )


def _step_notes(plan: Plan) -> tuple[str, ...]:
    where = (
        "The gauge column allows for the height of the gauge."
        if plan.job.gauge
        else "No gauge is stated, so the gauge column is the pressure at the top of the tank."
    )
    holds = sorted({step.hold for step in plan.steps if step.yielding})
    shortest = f" and at least {holds[0] / 60.0:.0f} minutes" if holds else ""
    return (
        "* the wall may yield: nobody comes near from here on until both gauges read zero.",
        f"Hold each * step until growth is below 0.1 % an hour{shortest}. Under the stations: "
        "likely outside circumference under pressure at 20 °C, tape thickness taken off, of a tank "
        "that the step before left below its target. Over target: chance that it is past it now.",
        "Go no further once the target is reached: its circumference under pressure stands in the "
        "table above.",
        "Stop for good when a station passes its stop value, when the pressure falls or stands "
        f"still while the pump delivers, or at any noise, bulge or leak. {where}",
    )


def water(plan: Plan, inches: bool = False) -> Lines:
    """Filling: water, mass and the air that may be left."""
    water = plan.water
    litres = 1e3 * float(water.volume_before)
    lines = [
        f"- tank before forming: {litres:.0f} l; filled mass {float(water.filled_mass):.0f} kg "
        "(shell, heads and water): check floor, supports and the way of a full spill",
        f"- planned with water of {numbers.temperature(water.temperature, inches)}",
    ]
    if not plan.withheld_by:
        air = 1e3 * float(water.air_limit)
        lines.append(
            f"- air left at the first strokes: at most {air:.2f} l; more: empty, vent, fill again"
        )
    return Lines("Water", tuple(lines))


def _band(band: Band, inches: bool) -> tuple[str, str, str]:
    low, likely, high = (
        _pressure(value, inches) for value in (band.low, band.likely, band.high)
    )
    return low, likely, high


def _pressure(value: Pascal, inches: bool) -> str:
    """2.013 (20.13): the units stand in the heading."""
    return numbers.bare(numbers.pressure(value, inches))


def _length(value: Metre, inches: bool) -> str:
    return numbers.stacked(numbers.circumference(value, inches))

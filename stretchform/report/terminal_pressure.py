"""Pressures of a plan as blocks for the screen, and what the instruments make of them."""

from stretchform.planning.plan import Band, Plan
from stretchform.report import words_numbers as numbers
from stretchform.report import words_steps
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Pascal


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
    found: list[Block] = [
        Table("Forming pressure (gauge)", columns, rows),
        Lines("About the likely pressure", tuple(_about(plan, inches))),
    ]
    tools = tuple(f"- {line}" for line in words_steps.instruments(plan))
    return [*found, Lines("What the instruments are worth", tools)] if tools else found


def _about(plan: Plan, inches: bool) -> list[str]:
    basis = plan.basis
    named = "" if basis.criterion == "judged" else f" ({basis.criterion}, fixed in the job)"
    lines = [
        f"- criterion factor {numbers.number(basis.criterion_factor)}{named}, rate factor "
        f"{numbers.number(basis.rate_factor)}: both lower the Mises pressure at the speed of "
        f"a tensile test, {numbers.pressure(basis.mises_at_test_rate, inches)}; water factor "
        f"{basis.water_factor:.3f}",
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


def _band(band: Band, inches: bool) -> tuple[str, str, str]:
    low, likely, high = (
        _pressure(value, inches) for value in (band.low, band.likely, band.high)
    )
    return low, likely, high


def _pressure(value: Pascal, inches: bool) -> str:
    """2.013 (20.13): the units stand in the heading."""
    return numbers.bare(numbers.pressure(value, inches))

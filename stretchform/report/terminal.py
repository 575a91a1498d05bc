"""The plan as blocks for the screen, in the order in which a person must read it.

The danger stands first, then what withholds or was accepted, then pressures and all the rest. A
withheld plan has no block that holds a pressure.
"""

from collections.abc import Mapping

from stretchform.planning.cautions import NEVER_LIFTED, Caution, Level
from stretchform.planning.plan import Plan
from stretchform.report import (
    terminal_ends,
    terminal_plates,
    terminal_pressure,
    terminal_stations,
    terminal_steps,
    words,
    words_basis,
    words_conditions,
    words_danger,
)
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.sources import Source


def plan_blocks(
    plan: Plan, bibliography: Mapping[str, Source], inches: bool = False
) -> list[Block]:
    """Everything about a plan."""
    blocks: list[Block] = [danger(plan, inches), title(plan)]
    blocks += withheld(plan, inches)
    blocks += accepted(plan, inches)
    if not plan.withheld_by:
        blocks += terminal_pressure.blocks(plan, inches)
    blocks += terminal_stations.blocks(plan, inches)
    blocks += terminal_ends.blocks(plan, inches)
    if not plan.withheld_by:
        blocks += terminal_steps.blocks(plan, inches)
    blocks += terminal_steps.drivers(plan)
    if plan.plates:
        blocks.append(terminal_plates.overview(plan, inches))
    blocks.append(terminal_steps.water(plan, inches))
    blocks.append(terminal_steps.hold_points(plan, inches))
    blocks += cautions(plan, inches)
    blocks += basis(plan, bibliography)
    return blocks


def danger(plan: Plan, inches: bool = False) -> Lines:
    """What the full tank can do, and who decides."""
    return Lines(words_danger.TITLE, words_danger.statements(plan, inches), alarm=True)


def title(plan: Plan) -> Lines:
    """Whose plan this is."""
    lines = [words_basis.EXAMPLE] if plan.job.example else []
    if plan.job.note:
        lines.append(f"note: {plan.job.note}")
    return Lines(f"Plan: {plan.job.name}", (*lines, f"fingerprint: {plan.fingerprint}"))


def withheld(plan: Plan, inches: bool = False) -> list[Block]:
    """Why no pressure is shown, and what to do about each reason."""
    if not plan.withheld_by:
        return []
    lines = []
    for caution in plan.cautions:
        if caution.level is Level.BLOCK and caution.code in plan.withheld_by:
            lines += _withheld_lines(caution, inches)
    return [
        Lines("WITHHELD - no pressure is shown until this is put right", tuple(lines), True)
    ]


def _withheld_lines(caution: Caution, inches: bool) -> list[str]:
    text = words.TEXTS[caution.code]
    lift = f'or accept it in the job file: [accepted] {caution.code} = "reason, role, date"'
    if caution.code in NEVER_LIFTED:
        lift = "no [accepted] line lifts this one"
    return [
        f"BLOCK {caution.code}: {words.line(caution, inches, withheld=True)}",
        f"  why: {text.why}",
        f"  do: {text.do}",
        f"  {lift}",
    ]


def accepted(plan: Plan, inches: bool = False) -> list[Block]:
    """Cautions that the job accepts, each with its reason."""
    lines = []
    for caution in plan.cautions:
        if caution.code in plan.job.accepted and caution.code not in plan.withheld_by:
            level = words.LEVEL_WORDS[caution.level.value]
            shown = words.line(caution, inches, bool(plan.withheld_by))
            lines.append(f"{level} {caution.code}: {shown}")
            lines.append(f"  accepted: {plan.job.accepted[caution.code]}")
    raised = {caution.code for caution in plan.cautions}
    for code, reason in plan.job.accepted.items():
        if code not in raised:
            lines += [f"{code}: does not arise in this plan", f"  accepted: {reason}"]
    return [Lines("Accepted in the job file", tuple(lines))] if lines else []


def cautions(plan: Plan, inches: bool = False) -> list[Block]:
    """The other cautions: what is the matter and what to do."""
    rows = []
    for caution in plan.cautions:
        if caution.level is Level.BLOCK or caution.code in plan.job.accepted:
            continue
        shown = words.line(caution, inches, bool(plan.withheld_by))
        level = words.LEVEL_WORDS[caution.level.value]
        rows.append((level, f"{shown}\nDo: {words.TEXTS[caution.code].do}"))
    columns = (Column("level", right=False), Column("what, and what to do", right=False))
    return [Table("Cautions", columns, tuple(rows))] if rows else []


def basis(plan: Plan, bibliography: Mapping[str, Source]) -> list[Block]:
    """Where the plan holds and what it rests on."""
    found = words_basis.sources(plan, bibliography)
    rows = tuple((item["key"], item["how"], item["title"]) for item in found)
    columns = tuple(Column(head, right=False) for head in ("source", "how", "title"))
    return [
        Lines("Holds for", tuple(f"- {line}" for line in words_basis.validity(plan))),
        Lines("Rests on", (words_basis.LIKELY, *words_basis.curves(plan))),
        words_conditions.table(plan.basis.courses),
        Table("Sources", columns, rows),
    ]

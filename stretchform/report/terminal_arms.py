"""Which arms a plate could have: the table over kind and depth, as blocks for the screen."""

from collections.abc import Iterator

from stretchform.plates.options import Option, Proposal
from stretchform.report import words_numbers as numbers
from stretchform.report import words_plates
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Metre

_MOST = 24  # rows of the table


def trade_off(
    name: str, height: Metre, proposal: Proposal, inches: bool = False
) -> list[Block]:
    """Every kind and depth with what comes out, best first, and the arm that is proposed."""
    shown = proposal.options[:_MOST]
    left_out = len(proposal.options) - len(shown)
    more = f"{left_out} worse ones are not shown. " if left_out else ""
    place = numbers.circumference(height, inches)
    table = Table(
        f"Arms for {name}: by the closed formulas, for the plate at {place}",
        _columns(inches),
        tuple(_row(option, inches) for option in shown),
        (f"{more}Space: plate that one arm with its slots takes.",),
    )
    return [table, Lines("Proposed", tuple(_proposed(proposal, inches)))]


def _columns(inches: bool) -> tuple[Column, ...]:
    unit = "mm\n(in)" if inches else "mm"
    return (
        Column("arm", right=False),
        Column(f"depth\n{unit}"),
        Column(f"length\n{unit}"),
        Column("space\ncm²"),
        Column("root\nstrain"),
        Column("force of\none tab"),
        Column("result", right=False),
    )


def _row(option: Option, inches: bool) -> tuple[str, ...]:
    case, result = option.case, option.result
    return (
        _kind(option),
        numbers.stacked(numbers.size(case.depth, inches)),
        numbers.stacked(numbers.size(result.arm_length, inches)),
        f"{1e4 * float(option.space):.1f}",
        numbers.percent(result.root_strain, 1),
        numbers.force(result.force),
        words_plates.verdict(result),
    )


def _kind(option: Option) -> str:
    if option.case.kind == "folded":
        return f"folded, {option.case.limbs} limbs"
    return option.case.kind


def _proposed(proposal: Proposal, inches: bool) -> Iterator[str]:
    chosen = proposal.chosen
    if chosen is None:
        yield "no arm passes all checks here: less growth, more tabs or a wider ring"
        return
    case, result = chosen.case, chosen.result
    yield (
        f"{_kind(chosen)}, {numbers.size(case.depth, inches)} deep, "
        f"{numbers.size(result.arm_length, inches)} long: {words_plates.verdict(result)}"
    )
    yield (
        f"least space of those that pass, by the {words_plates.METHODS[result.method]}: root "
        f"strain {numbers.percent(result.root_strain, 1)}, force {numbers.force(result.force)}"
    )
    limbs = f", limbs = {case.limbs}" if case.kind == "folded" else ""
    depth, length = (numbers.size(value) for value in (case.depth, result.arm_length))
    long = "" if case.kind == "sliding" else f', length = "{length}"'
    yield f'arm = {{ kind = "{case.kind}", depth = "{depth}"{long}{limbs} }}'

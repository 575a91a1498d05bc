"""Several steels side by side as blocks for the screen."""

from collections.abc import Callable, Sequence

import numpy as np

from stretchform.report import words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Table
from stretchform.steel.grade import Steel

_STRAINS = (0.01, 0.02, 0.05, 0.10, 0.15, 0.20, 0.30)


def compared(steels: Sequence[Steel]) -> list[Block]:
    """Strengths, flow stresses and their distance from the first steel's."""
    return [_strengths(steels), _stresses(steels), _distances(steels)]


def _strengths(steels: Sequence[Steel]) -> Table:
    columns = (
        Column("steel", right=False),
        Column("Rp0.2"),
        Column("Rm"),
        Column("spread"),
        Column("rests on", right=False),
        Column("cold water", right=False),
    )
    rows = tuple(
        (
            item.key,
            numbers.stress(item.proof_02),
            numbers.stress(item.tensile),
            f"+/- {numbers.percent(item.strength_half_width, 0)}",
            words_basis.basis_name(item),
            "can transform: care" if item.transforms else "no flag",
        )
        for item in steels
    )
    return Table("Steels side by side", columns, rows)


def _stresses(steels: Sequence[Steel]) -> Table:
    note = "A dash: outside the range of that curve."
    title = "Flow stress (true) in MPa at plastic strain"
    return Table(title, _columns(), _rows(steels, _stress_text), (note,))


def _distances(steels: Sequence[Steel]) -> Table:
    first = steels[0]

    def distance(item: Steel, strain: float) -> str:
        mine, base = _stress(item, strain), _stress(first, strain)
        return (
            numbers.NOTHING if not mine or not base else f"{100.0 * (mine / base - 1.0):+.0f} %"
        )

    return Table(f"The same, against {first.key}", _columns(), _rows(steels[1:], distance))


def _columns() -> tuple[Column, ...]:
    heads = [numbers.percent(strain, 0) for strain in _STRAINS]
    return Column("steel", right=False), *(Column(head) for head in heads)


def _rows(
    steels: Sequence[Steel], cell: Callable[[Steel, float], str]
) -> tuple[tuple[str, ...], ...]:
    return tuple((item.key, *(cell(item, strain) for strain in _STRAINS)) for item in steels)


def _stress_text(item: Steel, strain: float) -> str:
    stress = _stress(item, strain)
    return f"{stress / 1e6:.0f}" if stress else numbers.NOTHING


def _stress(item: Steel, strain: float) -> float:
    """Flow stress in pascals; 0 outside the range of the curve."""
    if not item.curve.strain_start <= strain <= item.curve.strain_limit:
        return 0.0
    return float(item.curve.stress(np.float64(strain)))

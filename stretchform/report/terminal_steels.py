"""The steels as blocks for the screen: the list, and one with the source of every number."""

from collections.abc import Mapping, Sequence
from typing import Protocol

import numpy as np

from stretchform.report import words, words_basis
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.sources import Datum, Source
from stretchform.steel.grade import Basis, Steel
from stretchform.steel.spread import stress_band
from stretchform.units import write

_STRAINS = (0.01, 0.02, 0.03, 0.05, 0.10, 0.15, 0.20, 0.30)
_UNITS = {  # the end of a number's name: unit and digits after the point
    "youngs_modulus": ("GPa", 1),
    "density": ("kg/m3", 0),
    "thermal_expansion": ("µm/m/K", 2),
    "proof_02": ("MPa", 0),
    "proof_10": ("MPa", 0),
    "tensile": ("MPa", 0),
    "elongation": ("%", 0),
    "strength_coefficient": ("MPa", 1),
    "yield_stress": ("MPa", 1),
    "saturation": ("MPa", 1),
    "linear": ("MPa", 1),
    "last_point": ("MPa", 0),
    "strain_start": ("%", 1),
    "strain_limit": ("%", 1),
    "prestrain": ("%", 2),
    "strength_half_width": ("%", 0),
    "steepness_half_width": ("%", 0),
    "misfit_rms": ("%", 2),
    "misfit_largest": ("%", 2),
}


class Card(Protocol):
    """What is shown of a steel file."""

    @property
    def key(self) -> str: ...
    @property
    def names(self) -> tuple[str, ...]: ...
    @property
    def title(self) -> str: ...
    @property
    def basis(self) -> Basis: ...
    @property
    def transforms(self) -> bool: ...
    @property
    def invented(self) -> bool: ...
    @property
    def data(self) -> tuple[tuple[str, Datum], ...]: ...
    @property
    def needs_certificate(self) -> bool: ...


def listed(cards: Sequence[Card]) -> list[Block]:
    """All steels, one a line."""
    columns = tuple(
        Column(head, right=False) for head in ("steel", "other names", "what it is", "can plan")
    )
    rows = tuple((card.key, ", ".join(card.names), card.title, _can(card)) for card in cards)
    notes = (
        "stretchform steels NAME shows one with the source of every number; "
        "--compare NAME NAME lays curves side by side.",
    )
    return [Table("Steels", columns, rows, notes)]


def _can(card: Card) -> str:
    return f"{_use(card)}; care in cold water" if card.transforms else _use(card)


def _use(card: Card) -> str:
    if card.basis is Basis.TEXTBOOK:
        return "cross-check only"
    if card.basis in (Basis.COUPON, Basis.TRIAL):
        return f"yes: {words_basis.BASES[card.basis]}"
    return "with a certificate" if card.needs_certificate else "yes, better with a certificate"


def one(
    card: Card,
    steel: Steel | None,
    bibliography: Mapping[str, Source],
    others: Sequence[Card] = (),
) -> list[Block]:
    """One steel: what it is for, its curve, and every number with its source.

    `others` are other conditions of the same grade.
    """
    lines = [card.title, f"other names: {', '.join(card.names) or 'none'}"]
    lines.append(f"use: {_use(card)}")
    if others:
        lines.append(f"other conditions: {', '.join(other.key for other in others)}")
    if card.transforms:
        lines.append("can change its structure while it is stretched in cool water: care")
    lines += [words.TEXTS[code].short for code in _notes(steel) if code in words.TEXTS]
    if card.invented:
        lines.append("INVENTED: describes no real steel")
    blocks: list[Block] = [Lines(f"Steel {card.key}", tuple(lines))]
    if steel is None:
        lines = [
            "None without the values of this coil's own certificate. In its [[course]]:",
            '  certificate = { proof_02 = "295 MPa", tensile = "650 MPa" }',
            "To see the curve here:",
            f'  stretchform steels "{card.key}" --proof-02 "295 MPa" --tensile "650 MPa"',
        ]
        blocks.append(Lines("Curve", tuple(lines)))
    else:
        blocks.append(_curve(steel))
    data = card.data if steel is None else steel.data
    return [*blocks, _numbers(data), _sources(data, bibliography)]


def _notes(steel: Steel | None) -> tuple[str, ...]:
    """Codes of what must be said of this curve; the cold water is said already."""
    return () if steel is None else tuple(code for code in steel.notes if code != "transforms")


def _curve(steel: Steel) -> Table:
    curve = steel.curve
    strains = [x for x in _STRAINS if curve.strain_start <= x <= curve.strain_limit]
    rows = tuple(_curve_row(steel, strain) for strain in strains)
    heads = ("plastic strain", "low (5 %)", "flow stress", "high (95 %)")
    notes = (
        f"True stress against true plastic strain; rests on: {words_basis.basis_name(steel)}. "
        f"Low and high: strength within {numbers.percent(steel.strength_half_width, 0)}, slope "
        f"within {numbers.percent(steel.steepness_half_width, 0)}. Used from "
        f"{numbers.percent(curve.strain_start, 0)} to {numbers.percent(curve.strain_limit, 0)}.",
    )
    return Table("Curve", tuple(Column(head) for head in heads), rows, notes)


def _curve_row(steel: Steel, strain: float) -> tuple[str, ...]:
    widths = steel.strength_half_width, steel.steepness_half_width
    low, high = stress_band(steel.curve, *widths, strain)
    stresses = (float(low), float(steel.curve.stress(np.float64(strain))), float(high))
    return numbers.percent(strain, 0), *(numbers.stress(stress) for stress in stresses)


def _numbers(data: Sequence[tuple[str, Datum]]) -> Table:
    columns = (
        Column("number", right=False),
        Column("value"),
        Column("how", right=False),
        Column("source and place", right=False),
    )
    rows = tuple(
        (
            name.replace("_", " ").replace(".", ": "),
            _value(name, datum),
            datum.how.value,
            f"{datum.source}: {datum.where}",
        )
        for name, datum in data
    )
    return Table("Numbers", columns, rows)


def _value(name: str, datum: Datum) -> str:
    unit, digits = _UNITS.get(name.rpartition(".")[2], ("", 4))
    if not unit:
        return f"{datum.value:.{digits}g}"
    shown = write(datum.value, unit, digits)
    return shown if datum.std is None else f"{shown}\n+/- {write(datum.std, unit, digits)}"


def _sources(data: Sequence[tuple[str, Datum]], bibliography: Mapping[str, Source]) -> Table:
    keys = dict.fromkeys(datum.source for _, datum in data)
    rows = tuple(
        (key, f"{bibliography[key].title}; {bibliography[key].place}")
        for key in keys
        if key in bibliography
    )
    columns = (Column("source", right=False), Column("title and place", right=False))
    return Table("Sources", columns, rows)

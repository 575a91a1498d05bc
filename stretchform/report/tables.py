"""Blocks of text and tables, and the plain painter: no lines, no colour, never wider than asked."""

import textwrap
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

_GAP = "  "
_NARROWEST = 8  # letters that a column of words keeps


@dataclass(frozen=True, slots=True)
class Lines:
    """A heading with paragraphs; `alarm` sets it off from everything else."""

    title: str
    lines: tuple[str, ...]
    alarm: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    head: str
    right: bool = True  # numbers to the right; words to the left, and they may wrap


@dataclass(frozen=True, slots=True)
class Table:
    """A heading, columns and rows of texts; `notes` are paragraphs below."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()


Block: TypeAlias = Lines | Table


def respelled(blocks: Sequence[Block], spell: Callable[[str], str]) -> list[Block]:
    """The same blocks with every text put through `spell`, for a screen with few letters."""
    return [_respelled(block, spell) for block in blocks]


def _respelled(block: Block, spell: Callable[[str], str]) -> Block:
    if isinstance(block, Lines):
        return Lines(spell(block.title), tuple(map(spell, block.lines)), block.alarm)
    return Table(
        spell(block.title),
        tuple(Column(spell(column.head), column.right) for column in block.columns),
        tuple(tuple(map(spell, row)) for row in block.rows),
        tuple(map(spell, block.notes)),
    )


def plain(blocks: Sequence[Block], width: int) -> str:
    """All blocks as plain text."""
    return "\n\n".join(_plain(block, width) for block in blocks)


def _plain(block: Block, width: int) -> str:
    if isinstance(block, Table):
        rows = _rows(block, width)
        notes = [line for note in block.notes for line in wrapped(note, width)]
        return "\n".join([*wrapped(block.title, width), *rows, *notes])
    body = [line for text in block.lines for line in wrapped(text, width, hang=2)]
    if block.alarm:
        rule = "=" * width
        return "\n".join([rule, *wrapped(block.title, width), *body, rule])
    return "\n".join([*wrapped(block.title, width), *body])


def wrapped(text: str, width: int, hang: int = 0) -> list[str]:
    """A paragraph in lines; the second and later ones are set in by `hang`."""
    found: list[str] = []
    for line in text.split("\n"):
        lead = len(line) - len(line.lstrip())
        found += textwrap.wrap(
            line.strip(),
            width,
            initial_indent=" " * lead,
            subsequent_indent=" " * (lead + hang),
            break_on_hyphens=False,
        ) or [""]
    return found


def _rows(table: Table, width: int) -> list[str]:
    cells = [tuple(column.head for column in table.columns), *table.rows]
    widths = _widths(table, cells, width)
    found = []
    for index, row in enumerate(cells):
        found += _row(row, widths, table.columns)
        if index == 0:
            found.append(_GAP.join("-" * size for size in widths))
    return found


def _widths(table: Table, cells: Sequence[tuple[str, ...]], width: int) -> list[int]:
    """Natural widths; where they are too many, the widest columns of words give way."""
    widths = [
        max(len(line) for row in cells for line in row[index].split("\n"))
        for index in range(len(table.columns))
    ]
    words = [index for index, column in enumerate(table.columns) if not column.right]
    room = width - len(_GAP) * (len(widths) - 1)
    while sum(widths) > room:
        widest = max(words, key=lambda index: widths[index], default=None)
        if widest is None or widths[widest] <= _NARROWEST:
            break
        widths[widest] -= 1
    return widths


def _row(row: tuple[str, ...], widths: Sequence[int], columns: Sequence[Column]) -> list[str]:
    parts = [
        [piece for line in cell.split("\n") for piece in (textwrap.wrap(line, size) or [""])]
        for cell, size in zip(row, widths, strict=True)
    ]
    height = max(len(part) for part in parts)
    found = []
    for level in range(height):
        line = [
            (part[level] if level < len(part) else "").rjust(size)
            if column.right
            else (part[level] if level < len(part) else "").ljust(size)
            for part, size, column in zip(parts, widths, columns, strict=True)
        ]
        found.append(_GAP.join(line).rstrip())
    return found

"""What a person can do, as functions: read, compute, save once.

Commands, pages and notebooks call these and nothing below them.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stretchform.files.steels import SteelCard
    from stretchform.planning.job import Job
    from stretchform.planning.plan import Plan
    from stretchform.sources import Source


def new(path: Path) -> Path:
    """Write a starter job; an existing file is never touched. Raises InputError."""
    from stretchform.files.starter import write_starter

    write_starter(path)
    return path


def check(path: Path) -> Job:
    """Read a job. Raises InputErrors with every mistake in it."""
    from stretchform.files.job import read_job

    return read_job(path)


def plan(path: Path) -> Plan:
    """Read a job and plan it. Raises InputErrors for the file, NoSolution for the physics."""
    from stretchform.files.job import read_job
    from stretchform.files.judged import load_judged
    from stretchform.planning.build import build

    return build(read_job(path), load_judged())


def steels(name: str | None = None) -> list[SteelCard]:
    """Shipped steels, all of them or those that a name or part of a name fits."""
    from stretchform.files.steels import list_steels

    cards = list_steels()
    if name is None:
        return cards
    wanted = name.casefold().strip()
    exact = [card for card in cards if wanted in _names(card)]
    return exact or [card for card in cards if any(wanted in word for word in _names(card))]


def _names(card: SteelCard) -> list[str]:
    return [word.casefold() for word in (card.key, *card.names, card.title)]


def bibliography() -> dict[str, Source]:
    """Every source by its key."""
    from stretchform.files.data import bibliography

    return bibliography()

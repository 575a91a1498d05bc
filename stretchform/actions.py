"""What a person can do, as functions: read, compute, save once.

Commands, pages and notebooks call these and nothing below them.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from stretchform.errors import InputError, NoSolution

if TYPE_CHECKING:
    from stretchform.files.steels import SteelCard
    from stretchform.planning.compare import Comparison
    from stretchform.planning.job import Job
    from stretchform.planning.plan import Plan
    from stretchform.sources import Source
    from stretchform.steel.grade import Steel

_INCH_QUANTITY = re.compile(r'\d\s*(in|in\.|inch|inches|thou|mils?|ft|psi|psig|psi\(g\)|ksi)"')


def new(path: Path) -> Path:
    """Write a starter job. Raises InputError for an existing file, which is left alone."""
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


def plates(path: Path, name: str | None = None) -> Plan:
    """Plan a job for its plates. Raises InputError if it has none, or none of that name."""
    found = plan(path)
    names = list(dict.fromkeys(plate.name for plate in found.plates))
    if not names:
        problem = "this job has no plates inside"
        raise InputError(str(path), problem, '[[plate]]\n       name = "ring"')
    if name is not None and name not in names:
        problem = f'no plates are called "{name[:40]}"; there are: {", ".join(names)}'
        raise InputError(str(path), problem, f'stretchform plates {path} --plate "{names[0]}"')
    return found


def compare(
    job_path: Path, readings_path: Path, unit: str | None = None, pressure: str | None = None
) -> Comparison:
    """Hold a file of circumferences against the forecast of a job.

    `unit` is for a file whose header has none; `pressure` (text with a unit) is the forming
    pressure that was held, gauge at the top; without it the forecast at the target counts.
    Raises InputErrors for either file, NoSolution for the physics.
    """
    from stretchform import units
    from stretchform.files.circumferences import read_circumferences
    from stretchform.files.job import read_job
    from stretchform.files.judged import load_judged
    from stretchform.planning.compare import compare as compared

    held = units.read(pressure, "pressure", "--pressure") if pressure else None
    job = read_job(job_path)
    readings = read_circumferences(readings_path, unit)
    return compared(job, load_judged(), readings, held)


def steels(name: str | None = None) -> list[SteelCard]:
    """Shipped steels: all of them, or those that a name or a part of a name fits.

    Raises InputError where nothing fits.
    """
    from difflib import get_close_matches

    from stretchform.files.steels import list_steels

    cards = list_steels()
    if name is None:
        return cards
    wanted = name.casefold().strip()
    exact = [card for card in cards if wanted in _names(card)]
    found = exact or [card for card in cards if any(wanted in word for word in _names(card))]
    if not found:
        known = [word for card in cards for word in (card.key, *card.names)]
        near = get_close_matches(name, known, n=1, cutoff=0.4) or ["1.4307"]
        problem = f'no steel is called "{name[:40]}"'
        raise InputError("stretchform steels", problem, f"stretchform steels {near[0]}")
    return found


def _names(card: SteelCard) -> list[str]:
    return [word.casefold() for word in (card.key, *card.names, card.title)]


def steel(card: SteelCard) -> Steel | None:
    """The steel of a card with its curve; None where it needs a certificate first."""
    from stretchform.files.judged import load_judged
    from stretchform.files.steels import load_steel

    try:
        return load_steel(card.key, None, f"steel {card.key}", load_judged())
    except NoSolution:
        return None


def bibliography() -> dict[str, Source]:
    """Every source by its key."""
    from stretchform.files.data import bibliography as sources

    return sources()


def uses_inches(path: Path) -> bool:
    """Whether a job is written in inches or psi, so that people read these in brackets."""
    from stretchform.files.text import read_text as content

    return bool(_INCH_QUANTITY.search(content(path, "job file")))

"""Mistakes on the command line, worded as all others: place, problem, a line that works."""

from difflib import get_close_matches

import click

from stretchform.commands.group import COMMANDS
from stretchform.errors import InputError

_SAMPLES = {
    "new": "tank.toml",
    "check": "tank.toml",
    "steels": "1.4307",
    "fit": "coupon.csv --like 1.4307",
    "plan": "tank.toml",
    "plates": "tank.toml",
    "draw": 'tank.toml --plate "ring" --to .',
    "compare": "tank.toml readings.csv",
}


def as_input_error(error: click.ClickException) -> InputError:
    """Our form of a usage error that click has found."""
    context = error.ctx if isinstance(error, click.UsageError) else None
    command = context.info_name if context and context.parent else None
    where = f"stretchform {command}" if command else "stretchform"
    problem = error.format_message().rstrip(".")
    return InputError(where, problem[:1].lower() + problem[1:], _cure(error, command))


def _cure(error: click.ClickException, command: str | None) -> str:
    if command in _SAMPLES:
        return f"stretchform {command} {_SAMPLES[command]}  # or: stretchform {command} --help"
    written = error.format_message().split("'")
    near = get_close_matches(written[1], COMMANDS, n=1) if len(written) > 2 else []
    meant = near[0] if near else "plan"
    return f"stretchform {meant} {_SAMPLES[meant]}  # or: stretchform --help"

"""stretchform steels: the list, or one steel with all its numbers."""

import click

from stretchform.commands import screen
from stretchform.commands.output import show


@click.command("steels")
@click.argument("name", required=False)
def command(name: str | None) -> int:
    """List the steels, or show one with its sources.

    NAME is an EN number, another name, or a part of one.

    Each number is shown with its source and how it was obtained: seen, measured, derived,
    memory, practice, judged or invented.
    """
    from stretchform import actions
    from stretchform.report import terminal_steels

    cards = actions.steels(name)
    if name is not None and len(cards) == 1:
        steel = actions.steel(cards[0])
        blocks = terminal_steels.one(cards[0], steel, actions.bibliography())
    else:
        blocks = terminal_steels.listed(cards)
    show(screen.paint(blocks))
    return 0

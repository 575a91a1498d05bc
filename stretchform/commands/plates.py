"""stretchform plates: the plates inside, with every size and check."""

from pathlib import Path

import click

from stretchform.commands import screen
from stretchform.commands.output import show


@click.command("plates")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--plate", "name", metavar="NAME", help="Only the row of plates with this name.")
def command(job: Path, name: str | None) -> int:
    """Travel, gaps, arms, slots and notches of the plates inside, and slosh.

    Shows every size and every check, the hardest plate of each row by a beam that yields. With
    --plate also which other arms would do, over kind and depth.

    Where a block caution withholds the plan, the exit code is 3.
    """
    from stretchform import actions
    from stretchform.report import terminal, terminal_arms, terminal_plates, terminal_slosh

    found = actions.plates(job, name)
    inches = actions.uses_inches(job)
    blocks = [
        terminal.danger(found, inches),
        terminal.title(found),
        *terminal.withheld(found, inches),
        *terminal.accepted(found, inches),
        *terminal_plates.details(found, name, inches),
    ]
    if name is not None:
        worst, proposal = actions.arms(found, name)
        blocks += terminal_arms.trade_off(name, worst.height, proposal, inches)
    blocks += terminal_slosh.slosh(found, inches)
    show(screen.paint(blocks))
    return 3 if found.withheld_by else 0

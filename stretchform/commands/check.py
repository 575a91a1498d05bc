"""stretchform check: every mistake of a job, or what was understood."""

from pathlib import Path

import click

from stretchform.commands import screen
from stretchform.commands.output import show


@click.command("check")
@click.argument("job", type=click.Path(path_type=Path))
def command(job: Path) -> int:
    """Report every mistake of a job, or what was understood.

    Each mistake comes with its place and a line that works.
    """
    from stretchform import actions
    from stretchform.report import terminal_job

    understood = actions.check(job)
    show(screen.paint(terminal_job.summary(understood, actions.uses_inches(job))))
    return 0

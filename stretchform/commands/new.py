"""stretchform new: a job file to start from."""

from pathlib import Path

import click

from stretchform.commands.output import show


@click.command("new")
@click.argument("file", type=click.Path(path_type=Path))
def command(file: Path) -> int:
    """Write a job file to fill in.

    An existing file is left alone.
    """
    from stretchform import actions

    written = actions.new(file)
    show(f"written: {written}\nfill it in, then: stretchform check {written}")
    return 0

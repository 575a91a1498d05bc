"""stretchform draw: one row of plates as files for the cutter and as pictures."""

from pathlib import Path

import click

from stretchform.commands import screen
from stretchform.commands.output import show


@click.command("draw")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--plate", "name", metavar="NAME", required=True, help="The row of plates.")
@click.option(
    "--to",
    "folder",
    metavar="DIR",
    type=click.Path(path_type=Path),
    required=True,
    help="Folder for the files; made if its parent is there.",
)
@click.option("--kerf", metavar="TEXT", help='Width of the cut, "0.2 mm": draws its middle.')
@click.option("--replace", is_flag=True, help="Write over files of the same name.")
def command(job: Path, name: str, folder: Path, kerf: str | None, replace: bool) -> int:
    """Draw a plate for the cutter, with the sizes of the plan.

    Writes two DXF files (R2010 and R12; 1:1 mm; closed contours of lines and arcs on the layer
    contour; the layer reference is off), and the dimensions as SVG and PNG.

    A plate that fails a check or must not be built is not drawn: exit code 3.
    """
    from stretchform import actions
    from stretchform.report import terminal_draw

    drawn = actions.draw(job, name, folder, kerf, replace)
    show(screen.paint(terminal_draw.written(drawn.sheet, drawn.review, drawn.files)))
    return 0

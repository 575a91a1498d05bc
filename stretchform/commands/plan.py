"""stretchform plan: the main job."""

from pathlib import Path

import click

from stretchform.commands import screen
from stretchform.commands.output import show


@click.command("plan")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="For other programs: SI units, JSON.")
@click.option("--quick", is_flag=True, help="Each course alone: the heads are not computed.")
def command(job: Path, as_json: bool, quick: bool) -> int:
    """Pressure, growth, steps, plates, energy, cautions.

    A plan that a block caution withholds shows no pressure and leaves with exit code 3.
    """
    from stretchform import actions

    found = actions.plan(job, quick)
    if as_json:
        from stretchform.report import plan_json

        show(plan_json.dumps(found, actions.bibliography()))
    else:
        from stretchform.report import terminal

        inches = actions.uses_inches(job)
        show(screen.paint(terminal.plan_blocks(found, actions.bibliography(), inches)))
    return 3 if found.withheld_by else 0

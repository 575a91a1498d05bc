"""stretchform plan: the main job."""

from pathlib import Path

import click

from stretchform.commands import screen
from stretchform.commands.output import complain, show


@click.command("plan")
@click.argument("job", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="For other programs: SI units, JSON.")
@click.option("--quick", is_flag=True, help="Each course alone: the heads are not computed.")
@click.option("--page", type=click.Path(path_type=Path), help="Write the plan: plan.html.")
@click.option("--card", type=click.Path(path_type=Path), help="Write a job card: card.html.")
@click.option(
    "--tables", type=click.Path(path_type=Path), help="Write CSV and XLSX into this folder."
)
def command(
    job: Path,
    as_json: bool,
    quick: bool,
    page: Path | None,
    card: Path | None,
    tables: Path | None,
) -> int:
    """Pressure, growth, steps, plates, energy, cautions.

    Page and card are single files that need no network; both print on A4 and Letter.

    A plan that a block caution withholds shows no pressure, in no file, and leaves with exit
    code 3.
    """
    from stretchform import actions

    actions.refuse_outputs((page, card), tables)
    found = actions.plan(job, quick)
    inches = actions.uses_inches(job)
    written = []
    if page is not None:
        written.append(actions.save_plan_page(found, page, inches))
    if card is not None:
        written.append(actions.save_plan_card(found, card, inches))
    if tables is not None:
        written += actions.save_plan_tables(found, tables, inches)
    if as_json:
        from stretchform.report import plan_json

        show(plan_json.dumps(found, actions.bibliography()))
    else:
        from stretchform.report import terminal

        show(screen.paint(terminal.plan_blocks(found, actions.bibliography(), inches)))
    told = "\n".join(f"written: {path}" for path in written)
    if told:
        complain(told) if as_json else show(f"\n{told}")
    return 3 if found.withheld_by else 0

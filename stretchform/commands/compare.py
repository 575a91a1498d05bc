"""stretchform compare: measured circumferences beside the forecast."""

from pathlib import Path

import click

from stretchform.commands import screen
from stretchform.commands.output import complain, show


@click.command("compare")
@click.argument("job", type=click.Path(path_type=Path))
@click.argument("readings", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="For other programs: SI units, JSON.")
@click.option("--unit", help="Unit of the readings, if their header has none: mm, in.")
@click.option(
    "--pressure", help='Pressure that was held, gauge at the top: "26.1 bar". Else: at target.'
)
@click.option("--page", type=click.Path(path_type=Path), help="Write a page: compared.html.")
@click.option(
    "--tables", type=click.Path(path_type=Path), help="Write CSV and XLSX into this folder."
)
def command(
    job: Path,
    readings: Path,
    as_json: bool,
    unit: str | None,
    pressure: str | None,
    page: Path | None,
    tables: Path | None,
) -> int:
    """Measured circumferences (CSV) beside the forecast.

    \b
    The file, one station a line, as read off the tape:
      station,before [mm],under_pressure [mm],released [mm]
      middle,2023.0,2110.5,2106.0
    """
    from stretchform import actions
    from stretchform.report import comparison_json, terminal_comparison

    actions.refuse_outputs((page,), tables)
    found = actions.compare(job, readings, unit, pressure)
    inches = actions.uses_inches(job)
    written = []
    if page is not None:
        written.append(actions.save_comparison_page(found, page, inches))
    if tables is not None:
        written += actions.save_comparison_tables(found, tables, inches)
    if as_json:
        show(comparison_json.dumps(found))
    else:
        show(screen.paint(terminal_comparison.blocks(found, inches)))
    told = "\n".join(f"written: {path}" for path in written)
    if told:
        complain(told) if as_json else show(f"\n{told}")
    return 0

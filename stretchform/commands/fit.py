"""stretchform fit: tensile tests or a trial cylinder to a steel file of one's own."""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from stretchform.commands import screen
from stretchform.commands.output import show

if TYPE_CHECKING:
    from stretchform.files.fit_saving import Fitted
    from stretchform.report.chart import Picture
    from stretchform.report.tables import Block

_WHERE = "stretchform fit"


@click.command("fit")
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option("--trial", is_flag=True, help="The file holds readings of a trial cylinder.")
@click.option(
    "--output", type=click.Path(path_type=Path), help="Steel file to write: own.toml."
)
@click.option("--replace", is_flag=True, help="Write over an older file of that name.")
@click.option("--title", default="", metavar="TEXT", help="What the steel is, for its file.")
@click.option("--json", "as_json", is_flag=True, help="For other programs: SI units, JSON.")
@click.option("--picture", type=click.Path(path_type=Path), help="Draw: FILE.svg or FILE.png.")
@click.option("--like", metavar="TEXT", help="Grade of the coil: 1.4307.")
@click.option("--unit", multiple=True, metavar="ROLE=UNIT", help="stress=MPa, pressure=bar ...")
@click.option("--invented", is_flag=True, help="Demo readings: says so in the steel file.")
@click.option(
    "--proof-02", metavar="TEXT", help='Known Rp0.2, or that of the paper: "295 MPa".'
)
@click.option("--kind", metavar="TEXT", help="Tensile: engineering or true values.")
@click.option("--column", multiple=True, metavar="ROLE=NAME", help="Tensile: stress=2 ...")
@click.option("--sheet", metavar="TEXT", help="Tensile: sheet of a workbook.")
@click.option("--width", metavar="TEXT", help='Tensile: specimen, "20.0 mm".')
@click.option("--thickness", metavar="TEXT", help='Tensile: specimen, "2.02 mm".')
@click.option("--gauge-length", metavar="TEXT", help='Tensile: "50 mm".')
@click.option("--machine-class", metavar="TEXT", help="Tensile: class 0.5, 1 or 2; else 1.")
@click.option("--wall", metavar="TEXT", help='Trial: mean wall, "2.0 mm".')
@click.option("--wall-tolerance", metavar="TEXT", help='Trial: 5 to 95 %, "0.03 mm".')
@click.option("--circumference", metavar="TEXT", help='Trial: before forming, "1885.0 mm".')
@click.option("--ends-held", is_flag=True, help="Trial: flat ends held from outside.")
@click.option("--proof-10", metavar="TEXT", help='Trial: Rp1.0 of the paper, "325 MPa".')
@click.option("--tensile", metavar="TEXT", help='Trial: Rm of the paper, "650 MPa".')
def command(
    files: tuple[Path, ...],
    trial: bool,
    output: Path | None,
    replace: bool,
    title: str,
    as_json: bool,
    picture: Path | None,
    proof_10: str | None,
    tensile: str | None,
    **texts: object,
) -> int:
    """Tensile tests, or a trial cylinder, to a steel of your own.

    \b
      stretchform fit pull-1.csv pull-2.csv --like 1.4307 --output coil-7.toml
      stretchform fit --trial cylinder.csv --like 1.4307 --wall "2.0 mm"

    Tensile FILEs are CSV, text or XLSX, one test of one coil each; units stand in the header
    or in --unit. A trial has the columns pressure and circumference, first line at zero
    pressure. Nothing is written without --output; then three files: steel, points and fit.
    """
    from stretchform import actions
    from stretchform.files.fit_options import FitTexts

    said = FitTexts(**texts)  # type: ignore[arg-type]
    name = "own-steel" if output is None else actions.refuse_fit_place(output)
    if picture is not None:
        actions.refuse_picture(picture)
    paper = None
    if trial:
        paper = actions.certificate(said.proof_02, proof_10, tensile, _WHERE)
    else:
        _refuse_paper(proof_10, tensile)
    what = title or f"Own {'trial cylinder' if trial else 'tensile tests'} of one coil"
    found = actions.fit(files, said, name, what, trial, paper)
    written = [] if output is None else _written(actions.save_fit(found, output, replace))
    if picture is not None:
        actions.save_picture(_drawn(found), picture)
        written.append(str(picture))
    _show(found, as_json, written, output)
    return 0


def _refuse_paper(proof_10: str | None, tensile: str | None) -> None:
    from stretchform.errors import InputError

    if proof_10 is not None or tensile is not None:
        option = "--proof-10" if proof_10 is not None else "--tensile"
        problem = f"{option} goes with --trial; a tensile test measures it"
        raise InputError(_WHERE, problem, f"leave {option} out")


def _written(steel: Path) -> list[str]:
    beside = (f"{steel.stem}-points.csv", f"{steel.stem}-fit.json")
    return [str(steel), *(str(steel.with_name(name)) for name in beside)]


def _drawn(found: "Fitted") -> "Picture":
    from stretchform import actions
    from stretchform.files.coupon_fit import TrialResult
    from stretchform.report import chart

    trial = isinstance(found.result, TrialResult)
    named = "readings of the cylinder" if trial else "groups of readings"
    return chart.steel(found.steel, actions.fit_points(found), named)


def _show(found: "Fitted", as_json: bool, written: list[str], output: Path | None) -> None:
    if as_json:
        from stretchform.report import fit_json

        show(fit_json.dumps(found.text.fit, found.steel, found.findings, written))
        return
    show(screen.paint(_blocks(found)))
    if written:
        show("\n" + "\n".join(f"written: {name}" for name in written))
    if output is None:
        show("\nNo steel file is written. To keep it: --output own-coil.toml")
    else:
        show(f'In a [[course]] of a job beside it: steel = "{output.name}"')


def _blocks(found: "Fitted") -> "list[Block]":
    from stretchform.files.coupon_fit import FitResult
    from stretchform.report import terminal_fit, terminal_trial

    result = found.result
    if not isinstance(result, FitResult):
        repairs = tuple((repair.code, repair.detail) for repair in result.repairs)
        name = Path(result.path).name
        return terminal_trial.blocks(name, repairs, result.fit, result.steel, found.steel)
    tests = [
        terminal_fit.Test(
            Path(coupon.path).name,
            tuple((repair.code, repair.detail) for repair in coupon.repairs),
            tensile,
        )
        for coupon, tensile in zip(result.coupons, result.tensiles, strict=True)
    ]
    return terminal_fit.blocks(
        tests, result.pooled, found.steel, result.options.like, found.findings
    )

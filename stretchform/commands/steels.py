"""stretchform steels: the list, one steel with all its numbers, or several curves compared."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from stretchform.commands import screen
from stretchform.commands.output import show

if TYPE_CHECKING:
    from stretchform.files.steels import SteelCard
    from stretchform.report.chart import Picture
    from stretchform.report.tables import Block
    from stretchform.steel.grade import Certificate

_WHERE = "stretchform steels"


@click.command("steels")
@click.argument("names", metavar="[NAME]...", nargs=-1)
@click.option(
    "--compare", is_flag=True, help="Lay the curves of two to six steels side by side."
)
@click.option("--picture", type=click.Path(path_type=Path), help="Draw: FILE.svg or FILE.png.")
@click.option("--proof-02", metavar="TEXT", help='Rp0.2 of a certificate, "295 MPa".')
@click.option("--proof-10", metavar="TEXT", help='Rp1.0 of a certificate, "325 MPa".')
@click.option("--tensile", metavar="TEXT", help='Rm of a certificate, "650 MPa".')
def command(
    names: tuple[str, ...],
    compare: bool,
    picture: Path | None,
    proof_02: str | None,
    proof_10: str | None,
    tensile: str | None,
) -> int:
    """List the steels, show one, or compare curves.

    NAME is an EN number, a UNS or AISI name, a part of one, or the path of your own steel
    file. A name of several words can be quoted or joined: "1.4307 plate", 1.4307-plate.

    Each number is shown with its source and how it was obtained: seen, measured, derived,
    memory, practice, judged or invented.
    """
    from stretchform import actions

    paper = actions.certificate(proof_02, proof_10, tensile)
    if picture is not None:
        actions.refuse_picture(picture)
    if compare:
        _refuse_paper(paper)
        blocks, drawn = _compared(names, picture is not None)
    else:
        blocks, drawn = _one_or_list(" ".join(names), paper, picture is not None)
    if picture is not None and drawn is not None:
        actions.save_picture(drawn, picture)
    show(screen.paint(blocks))
    if picture is not None:
        show(f"\nwritten: {picture}")
    return 0


def _refuse_paper(paper: "Certificate | None") -> None:
    from stretchform.errors import InputError

    if paper is not None:
        problem = "a certificate is of one coil, so it cannot serve several steels"
        raise InputError(_WHERE, problem, "stretchform steels --compare 1.4307 your-coil.toml")


def _compared(names: Sequence[str], wanted: bool) -> "tuple[Sequence[Block], Picture | None]":
    from stretchform import actions
    from stretchform.errors import InputError
    from stretchform.report import chart, terminal_steels_compare

    if not 2 <= len(names) <= chart.MOST:
        problem = f"--compare takes 2 to {chart.MOST} steels, not {len(names)}"
        raise InputError(_WHERE, problem, "stretchform steels --compare 1.4307 1.4404")
    steels = [actions.steel_with_curve(actions.steel_card(name)) for name in names]
    return terminal_steels_compare.compared(steels), chart.steels(steels) if wanted else None


def _one_or_list(
    name: str, paper: "Certificate | None", wanted: bool
) -> "tuple[Sequence[Block], Picture | None]":
    from stretchform import actions
    from stretchform.errors import InputError
    from stretchform.report import terminal_steels

    if not name and (wanted or paper is not None):
        fix = "stretchform steels 1.4307 --picture curve.svg"
        raise InputError(_WHERE, "no steel is named, so there is no curve to show", fix)
    if paper is None and not wanted and not name.lower().endswith(".toml"):
        cards = actions.steels(name or None)
        if not name or len(cards) > 1:
            return terminal_steels.listed(cards), None
    return _one(actions.steel_card(name), paper, wanted)


def _one(
    card: "SteelCard", paper: "Certificate | None", wanted: bool
) -> "tuple[Sequence[Block], Picture | None]":
    from stretchform import actions
    from stretchform.report import chart, terminal_steels

    without = card.needs_certificate and paper is None and not wanted
    steel = None if without else actions.steel_with_curve(card, paper)
    blocks = terminal_steels.one(card, steel, actions.bibliography(), actions.steels_like(card))
    if steel is None or not wanted:
        return blocks, None
    points = None if paper is not None else actions.measured_points(card)
    return blocks, chart.steel(steel, points)

"""What a person can do with steels: find, show, fit and save them."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from stretchform.errors import InputError, NoSolution

if TYPE_CHECKING:
    from stretchform.files.fit_options import FitTexts
    from stretchform.files.fit_saving import Fitted
    from stretchform.files.steels import SteelCard
    from stretchform.si import Array
    from stretchform.steel.grade import Certificate, Steel


def steels(name: str | None = None) -> list[SteelCard]:
    """Shipped steels: all of them, or those that a name or a part of a name fits.

    Raises InputError where nothing fits.
    """
    from difflib import get_close_matches

    from stretchform.files.steels import list_steels, plain_name

    cards = list_steels()
    if name is None:
        return cards
    wanted = plain_name(name).casefold()
    plain = {card.key: [plain_name(word).casefold() for word in _names(card)] for card in cards}
    exact = [card for card in cards if wanted in plain[card.key]]
    wanted = name.casefold().strip()
    found = exact or [card for card in cards if any(wanted in word for word in _names(card))]
    if not found:
        known = [word for card in cards for word in (card.key, *card.names)]
        near = get_close_matches(name, known, n=1, cutoff=0.4) or ["1.4307"]
        problem = f'no steel is called "{name[:40]}"'
        raise InputError("stretchform steels", problem, f"stretchform steels {near[0]}")
    return found


def _names(card: SteelCard) -> list[str]:
    return [word.casefold() for word in (card.key, *card.names, card.title)]


def steel(card: SteelCard) -> Steel | None:
    """The steel of a card with its curve; None where it needs a certificate first."""
    from stretchform.files.judged import load_judged
    from stretchform.files.steels import load_steel

    try:
        return load_steel(card.key, None, f"steel {card.key}", load_judged())
    except NoSolution:
        return None


def steel_card(name: str) -> SteelCard:
    """The one steel of a name, or of the path of the user's own file.

    Raises InputError where none or several fit, DataError for what is wrong in the file.
    """
    from stretchform.files.steels import read_steel_card

    if name.strip().lower().endswith(".toml"):
        return read_steel_card(Path(name.strip()))
    found = steels(name)
    if len(found) > 1:
        keys = ", ".join(card.key for card in found)
        problem = f'"{name[:40]}" fits several steels: {keys}'
        raise InputError("stretchform steels", problem, f'stretchform steels "{found[0].key}"')
    return found[0]


def steels_like(card: SteelCard) -> list[SteelCard]:
    """Other shipped conditions of the same grade."""
    grade = card.key.split()[0]
    return [other for other in steels() if other.key != card.key and grade in other.key.split()]


def steel_with_curve(card: SteelCard, certificate: Certificate | None = None) -> Steel:
    """The steel of a card with its curve, from a certificate where one is given.

    Raises NoSolution for a grade that needs a certificate, DataError for strange strengths.
    """
    from stretchform.files.judged import load_judged
    from stretchform.files.steels import load_steel

    try:
        return load_steel(str(card.file), certificate, f"steel {card.key}", load_judged())
    except NoSolution as error:
        fix = f'stretchform steels "{card.key}" --proof-02 "295 MPa" --tensile "650 MPa"'
        raise NoSolution(error.where, error.problem, f"{fix}  # your own values") from error


def fit(
    paths: tuple[Path, ...],
    texts: FitTexts,
    name: str,
    title: str,
    trial: bool = False,
    paper: Certificate | None = None,
) -> Fitted:
    """Tensile tests of one coil, or a trial cylinder, to its steel; nothing is written.

    `paper` is what was known before a trial. Raises InputError or InputErrors for files and
    options, NoSolution where no law fits.
    """
    from stretchform.files.fit_saving import fitted, read_fit

    return fitted(read_fit(paths, texts, trial, paper), name, title)


def fit_points(found: Fitted) -> tuple[Array, Array]:
    """What was measured, as plastic strains and true stresses (Pa), for a picture."""
    from stretchform.files.fit_saving import points

    return points(found)


def refuse_fit_place(output: Path) -> str:
    """The name of the steel that a file would hold. Raises InputError for a strange place."""
    from stretchform.files.fit_saving import place_of

    return place_of(output)[1]


def save_fit(found: Fitted, output: Path, replace: bool = False) -> Path:
    """Write steel, points and fit, all or none. Raises InputError for what stands there."""
    from stretchform.files.fit_saving import place_of, save_steel

    return save_steel(found.text, *place_of(output), replace)


def certificate(
    proof_02: str | None,
    proof_10: str | None,
    tensile: str | None,
    where: str = "stretchform steels",
) -> Certificate | None:
    """The certificate that options give as text with units; None where none is given.

    Raises InputError for a missing or strange text.
    """
    from stretchform import units
    from stretchform.steel.grade import Certificate

    if proof_02 is None and proof_10 is None and tensile is None:
        return None
    if proof_02 is None or tensile is None:
        missing = "--proof-02" if proof_02 is None else "--tensile"
        problem = f"{missing} is missing: a curve needs both strengths"
        fix = '--proof-02 "295 MPa" --tensile "650 MPa"'
        raise InputError(where, problem, fix)
    return Certificate(
        proof_02=units.read(proof_02, "pressure", "--proof-02", usual="MPa"),
        tensile=units.read(tensile, "pressure", "--tensile", usual="MPa"),
        proof_10=units.read(proof_10, "pressure", "--proof-10", usual="MPa")
        if proof_10
        else None,
    )


def measured_points(card: SteelCard) -> tuple[Array, Array] | None:
    """Plastic strains and true stresses (Pa) measured behind a steel's own curve."""
    from stretchform.files.steel_points import read_steel_points

    return read_steel_points(card)

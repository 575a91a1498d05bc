"""Which column holds what, and in which unit; nothing is taken for granted without a name."""

import re
from dataclasses import dataclass, field

from stretchform import units
from stretchform.errors import InputError
from stretchform.files.coupon_table import CellTable
from stretchform.si import Metre, Pascal, SquareMetre
from stretchform.units.spellings import DIMENSIONS

_WORDS = {
    "time": ("time", "zeit", "temps", "uhr"),
    "stress": ("stress", "spannung", "sigma", "contrainte"),
    "force": ("force", "load", "kraft", "last", "effort"),
    "strain": ("strain", "dehnung", "epsilon", "deformation"),
    "extension": (
        *("extension", "extensometer", "elongation", "verlängerung", "verlaengerung"),
        *("displacement", "crosshead", "stroke", "traverse", "weg", "travel"),
    ),
}
_MACHINE = ("crosshead", "stroke", "traverse", "displacement", "weg", "travel")
_TRUE = ("true", "wahre", "cauchy", "log")
_ENGINEERING = ("engineering", "nominal", "eng", "technische", "conventional")
_STRAIN_UNITS = {
    "%": 0.01,
    "percent": 0.01,
    "per cent": 0.01,
    "mm/mm": 1.0,
    "m/m": 1.0,
    "in/in": 1.0,
    "-": 1.0,
    "1": 1.0,
    "µε": 1e-6,
    "microstrain": 1e-6,
    "µm/m": 1e-6,
    "um/m": 1e-6,
}
_DIMENSION = {"stress": "pressure", "force": "force", "extension": "length"}
_SAMPLE = {"stress": "MPa", "force": "kN", "extension": "mm", "strain": "%"}
ROLES = ("stress", "strain", "force", "extension")


@dataclass(frozen=True, slots=True)
class CouponOptions:
    """What the user says about a record beyond the file itself."""

    kind: str | None = None  # "engineering" | "true"
    width: Metre | None = None
    thickness: Metre | None = None
    section: SquareMetre | None = None
    gauge_length: Metre | None = None
    unit: dict[str, str] = field(default_factory=dict)  # role: unit, where the header has none
    column: dict[str, str] = field(default_factory=dict)  # role: header text or number from 1
    sheet: str | None = None
    proof_02: Pascal | None = None  # where the record starts after it


@dataclass(frozen=True, slots=True)
class Chosen:
    """The two columns used, with factors to SI."""

    load_role: str  # stress | force
    load: int
    load_factor: float
    stretch_role: str  # strain | extension
    stretch: int
    stretch_factor: float
    true: bool


def choose(table: CellTable, options: CouponOptions, where: str) -> Chosen:
    """The columns of load and stretch. Raises InputError for what is not said or not clear."""
    places = _places(table, options, where)
    load_role = "stress" if "stress" in places else "force"
    stretch_role = "strain" if "strain" in places else "extension"
    if load_role not in places or stretch_role not in places:
        raise _unnamed(table, where)
    load, stretch = places[load_role], places[stretch_role]
    load_factor = _factor(table, load_role, load, options, where)
    stretch_role, stretch_factor = _stretch(table, stretch_role, stretch, options, where)
    true = _is_true(table, load_role, load, stretch_role, stretch, options, where)
    return Chosen(load_role, load, load_factor, stretch_role, stretch, stretch_factor, true)


def _unnamed(table: CellTable, where: str) -> InputError:
    names = ", ".join(f'{i + 1} "{name}"' for i, name in enumerate(table.names[:8]))
    return InputError(
        f"{where}: columns {names}",
        "no column is named stress or force, or none strain or extension",
        "--column stress=2 --column strain=1 (name or number of the column)",
    )


def _places(table: CellTable, options: CouponOptions, where: str) -> dict[str, int]:
    given = {role: _given(table, text, where) for role, text in options.column.items()}
    if given:
        unknown = set(given) - set(ROLES)
        if unknown:
            raise InputError(
                where, f'column "{unknown.pop()}" is none of {", ".join(ROLES)}', "stress=2"
            )
        return given
    found: dict[str, list[int]] = {}
    for place, name in enumerate(table.names):
        role = _role(name)
        if role:
            found.setdefault(role, []).append(place)
    return {role: _one(table, role, places, where) for role, places in found.items()}


def _given(table: CellTable, text: str, where: str) -> int:
    plain = text.strip()
    for place, name in enumerate(table.names):
        if name.strip().lower() == plain.lower() or _bare(name) == plain.lower():
            return place
    if plain.isdigit() and 1 <= int(plain) <= len(table.names):
        return int(plain) - 1
    known = ", ".join(f'"{name}"' for name in table.names)
    raise InputError(where, f'no column "{plain}" (there are {known})', "a name or a number")


def _bare(name: str) -> str:
    return re.split(r"[\[(,/]", name)[0].strip().lower()


def _role(name: str) -> str | None:
    plain = name.lower()
    for role, words in _WORDS.items():
        if any(word in plain for word in words):
            return None if role == "time" else role
    return None


def _one(table: CellTable, role: str, places: list[int], where: str) -> int:
    """One of several columns of a role: extensometer before machine, engineering before true."""
    if len(places) == 1:
        return places[0]
    names = {place: table.names[place].lower() for place in places}
    own = [p for p in places if not any(word in names[p] for word in _MACHINE)]
    plain = [p for p in own if any(_has(names[p], word) for word in _ENGINEERING)]
    for few in (own, plain):
        if len(few) == 1:
            return few[0]
    listed = ", ".join(f'"{table.names[place]}"' for place in places)
    raise InputError(
        where,
        f"{len(places)} columns for {role}: {listed}; two tests in one file?",
        f'--column {role}="{table.names[places[0]]}", one file for each test',
    )


def _has(text: str, word: str) -> bool:
    return re.search(rf"(?<![a-zäöü]){word}(?![a-zäöü])", text) is not None


def _unit_text(name: str) -> str | None:
    """The unit in a header: in brackets, or after a comma, slash or the word in."""
    bracket = re.findall(r"[\[(]([^\])]*)[\])]", name)
    for text in reversed(bracket):
        if text.strip() and not _role(text) and not _has(text.lower(), "true"):
            return str(text.strip())
    tail = re.search(r"(?:,|;| in |_|/ | )\s*(\S+)$", name.strip())
    if tail and (tail[1] in _STRAIN_UNITS or _known(tail[1])):
        return tail[1]
    slash = re.search(r"^[^/]+/\s*(\S+)$", name.strip())
    if slash and (slash[1] in _STRAIN_UNITS or _known(slash[1])):
        return slash[1]
    return None


def _known(unit: str) -> bool:
    return any(unit in DIMENSIONS[dimension].spellings for dimension in _DIMENSION.values())


def _factor(
    table: CellTable, role: str, place: int, options: CouponOptions, where: str
) -> float:
    name = table.names[place] or f"column {place + 1}"
    written = options.unit.get(role) or _unit_text(table.names[place])
    if not written:
        raise InputError(
            f'{where}: column "{name}"',
            f"no unit of {role}",
            f"--unit {role}={_SAMPLE[role]}",
        )
    place_text = f'{where}: column "{name}"'
    return units.read(f"1 {written}", _DIMENSION[role], place_text, usual=_SAMPLE[role])


def _stretch(
    table: CellTable, role: str, place: int, options: CouponOptions, where: str
) -> tuple[str, float]:
    """A strain column in millimetres is an extension."""
    written = options.unit.get(role) or _unit_text(table.names[place])
    name = table.names[place] or f"column {place + 1}"
    if role == "extension" and written in ("%", "percent"):
        return "strain", 0.01  # an elongation in per cent is a strain
    if role == "extension":
        return "extension", _factor(table, role, place, options, where)
    if written and written.lower() in _STRAIN_UNITS:
        return "strain", _STRAIN_UNITS[written.lower()]
    if written and written in DIMENSIONS["length"].spellings:
        return "extension", units.read(f"1 {written}", "length", where)
    found = f'unknown unit "{written}" of strain' if written else "no unit of strain"
    raise InputError(f'{where}: column "{name}"', found, "--unit strain=%  (or mm/mm, mm)")


def _is_true(
    table: CellTable,
    load_role: str,
    load: int,
    stretch_role: str,
    stretch: int,
    options: CouponOptions,
    where: str,
) -> bool:
    named = [_named_kind(table.names[place]) for place in (load, stretch)]
    said = {kind for kind in (*named, options.kind) if kind}
    if options.kind not in (None, "true", "engineering"):
        raise InputError(where, f'kind "{options.kind}"', "--kind engineering, or --kind true")
    if len(said) > 1:
        raise InputError(
            where,
            "one column is true, the other (or the option) engineering",
            "choose both columns of one kind: --column stress=... --column strain=...",
        )
    if load_role == "force" or stretch_role == "extension":
        if said == {"true"}:
            raise InputError(
                where,
                "a true stress or strain beside a force or an extension",
                "both columns true, or force and extension",
            )
        return False
    if not said:
        raise InputError(
            where,
            "it does not say whether stress and strain are engineering or true values; "
            "at 10 % strain they differ by 10 %",
            "--kind engineering  (force over the first section: what most machines write)",
        )
    return said == {"true"}


def _named_kind(name: str) -> str | None:
    plain = name.lower()
    if any(_has(plain, word) for word in _TRUE):
        return "true"
    return "engineering" if any(_has(plain, word) for word in _ENGINEERING) else None

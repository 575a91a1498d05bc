"""Steel files, shipped or the user's own, to the Steel that a job uses."""

from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cache
from math import isfinite, sqrt
from pathlib import Path
from typing import Any, Final

from stretchform.errors import DataError, InputError, NoSolution
from stretchform.files import data
from stretchform.files.curves import read_curve
from stretchform.files.minima import load_minima
from stretchform.files.trial_record import read_trial_joint
from stretchform.planning.likely import Judged
from stretchform.sources import Datum, How
from stretchform.steel.certificate import curve_from_certificate, refuse_strange
from stretchform.steel.curve import Curve, Scaled
from stretchform.steel.grade import Basis, Certificate, Steel
from stretchform.steel.minima import certificate_findings, minima_of
from stretchform.steel.properties import proof_strength, tensile_strength
from stretchform.steel.tensile import Finding

_PHYSICAL: Final = {
    "youngs_modulus": "pressure",
    "poisson_ratio": data.NUMBER,
    "density": "density",
    "thermal_expansion": "expansion",
}
_STRENGTHS: Final = ("proof_02", "proof_10", "tensile")
_WIDTHS: Final = ("strength_half_width", "steepness_half_width")
_KEYS: Final = (
    *("key", "title", "names", "basis", "transforms", "invented"),
    *_PHYSICAL,
    *("curve", "certificate", "proof_02", "tensile"),
    *_WIDTHS,
)
_PREFIXES: Final = ("EN", "AISI", "UNS", "TYPE", "ASTM")
_NOT_STEELS: Final = ("sources.toml", "forming.toml")
_CERTIFICATE_LINE: Final = (
    'certificate = { proof_02 = "295 MPa", tensile = "650 MPa" }'
    "  # the values on this coil's own certificate"
)

Named = tuple[tuple[str, Datum], ...]


@dataclass(frozen=True, slots=True)
class SteelCard:
    """One steel file as read: numbers with sources, not yet joined with a certificate."""

    key: str
    names: tuple[str, ...]
    title: str
    basis: Basis
    transforms: bool
    invented: bool
    physical: dict[str, Datum]
    curve: Curve | None
    certificate: Certificate | None  # typical values, or those in a user's own file
    stated: dict[str, Datum]  # proof_02 and tensile where the file overrides the curve's
    widths: dict[str, Datum]  # own half-widths of a calibrated steel
    data: Named
    file: Path = field(compare=False)

    @property
    def needs_certificate(self) -> bool:
        return self.curve is None and self.certificate is None


def list_steels() -> list[SteelCard]:
    """Every shipped steel, in the order of their keys."""
    return list(_shipped().values())


@cache
def _shipped() -> dict[str, SteelCard]:
    paths = sorted(p for p in data.data_dir().glob("*.toml") if p.name not in _NOT_STEELS)
    cards = sorted(map(read_steel_card, paths), key=lambda card: card.key)
    return {card.key: card for card in cards}


def load_steel(
    name: str,
    certificate: Certificate | None,
    where: str,
    judged: Judged,
    folder: Path | None = None,
) -> Steel:
    """The steel of a job by EN number, another name, or the path of the user's own file.

    `where` is the place in the job file; `folder` is where a relative path starts.
    Raises InputError for an unknown name, DataError for strengths or records that cannot be,
    NoSolution for a grade that has no curve without a certificate.
    """
    card = _find(name, where, folder)
    if certificate is not None:
        refuse_strange(certificate, where)
    curve, basis, found, notes = _curve(card, certificate, where)
    findings = _findings(card, certificate)
    if any(finding.code == "repeats_minimum" for finding in findings):
        notes = tuple(dict.fromkeys((*notes, "minimum_only")))
    width, steepness = _half_widths(card, basis, judged)
    youngs_modulus = card.physical["youngs_modulus"].value
    used = certificate if "certificate_not_used" not in notes else None
    used = used or card.certificate
    proof = (
        used.proof_02 if used else _stated(card, "proof_02") or _proof(curve, youngs_modulus)
    )
    tensile = used.tensile if used else _stated(card, "tensile") or tensile_strength(curve)
    return Steel(
        key=card.key,
        names=card.names,
        title=card.title,
        basis=basis,
        curve=curve,
        strength_half_width=width.value,
        steepness_half_width=steepness.value,
        **card.physical,
        proof_02=proof,
        tensile=tensile,
        data=(*card.data, *found, *zip(_WIDTHS, (width, steepness), strict=True)),
        transforms=card.transforms,
        invented=card.invented,
        notes=(*notes, *_lasting_notes(card)),
        certificate=certificate,
        findings=findings,
        joint=read_trial_joint(card.file) if card.basis is Basis.TRIAL else None,
    )


def _findings(card: SteelCard, certificate: Certificate | None) -> tuple[Finding, ...]:
    """What is odd in the job's certificate beside the standards' minima of the grade."""
    if certificate is None:
        return ()
    names = (card.key, card.key.split()[0], *card.names)
    return certificate_findings(certificate, minima_of(names, load_minima()))


def _find(name: str, where: str, folder: Path | None) -> SteelCard:
    if name.strip().lower().endswith(".toml"):
        return read_steel_card((folder or Path()) / name.strip())
    wanted = plain_name(name)
    spellings: dict[str, SteelCard] = {}
    for card in _shipped().values():
        spellings |= {plain_name(known): card for known in (card.key, *card.names)}
    if wanted in spellings:
        return spellings[wanted]
    close = get_close_matches(wanted, spellings, n=8, cutoff=0.5)
    swapped = [known for known in close if sorted(known) == sorted(wanted)]
    meant = spellings[(swapped or close)[0]].key if close else "1.4307"
    known = ", ".join(card.key for card in _shipped().values())
    raise InputError(
        where,
        f'steel "{name[:40]}" is unknown' + (f'; did you mean "{meant}"?' if close else ""),
        f'steel = "{meant}"  # known: {known}, or the path of your own steel file',
    )


def plain_name(name: str) -> str:
    """A name as it is compared: capitals, no blanks, no EN, AISI or UNS before it."""
    words = name.upper().replace("-", " - ").split()
    return "".join(words[1:] if len(words) > 1 and words[0] in _PREFIXES else words)


def _curve(
    card: SteelCard, certificate: Certificate | None, where: str
) -> tuple[Curve, Basis, Named, tuple[str, ...]]:
    """The curve, what it rests on, the numbers added by a certificate, and the notes."""
    minimum = ("minimum_only",) if certificate and certificate.minimum_only else ()
    if certificate is not None and card.basis is Basis.TEXTBOOK:
        raise InputError(
            where,
            "a textbook pair cannot take a certificate",
            'steel = "1.4301" with the certificate, or leave the certificate out',
        )
    if certificate is not None and card.basis in (Basis.COUPON, Basis.TRIAL):
        known = _written(certificate, where)
        assert card.curve is not None  # read_steel_card has seen to it
        return card.curve, card.basis, known, (*minimum, "certificate_not_used")
    if certificate is not None:
        curve, more = _certified(card, certificate, where)
        return curve, Basis.CERTIFICATE, (*_written(certificate, where), *more), minimum
    typical = ("typical_values",) if card.basis is Basis.TYPICAL else ()
    if card.certificate is not None:
        curve, more = _certified(card, card.certificate, f"{card.key}: [certificate]")
        own = ("minimum_only",) if card.certificate.minimum_only else ()
        return curve, card.basis, more, (*typical, *own)
    if card.curve is not None:
        return card.curve, card.basis, (), typical
    raise NoSolution(
        where,
        f"{card.key} has no curve of its own: the strengths of this coil are needed",
        _CERTIFICATE_LINE,
    )


def _certified(card: SteelCard, certificate: Certificate, where: str) -> tuple[Curve, Named]:
    """A curve from strengths: the measured law scaled to them, else a law fitted to them."""
    youngs_modulus = card.physical["youngs_modulus"].value
    if card.curve is not None:
        factor = _scale(card.curve, certificate, youngs_modulus)
        place = "factor that meets Rp0.2 and Rm with equal relative misfit"
        named = ("curve.scale", Datum(factor, None, "own-derivation", place, How.DERIVED))
        return Scaled(card.curve, factor), (named,)
    fitted = curve_from_certificate(certificate, youngs_modulus, where)
    place = "relative misfit to the curve of ASME VIII-2 Annex 3-D, 1 to 30 % strain"
    numbers = {
        "curve.misfit_rms": float(fitted.rms),
        "curve.misfit_largest": float(fitted.largest),
    }
    return fitted.curve, tuple(
        (name, Datum(value, None, "own-derivation", place, How.DERIVED))
        for name, value in numbers.items()
    )


def _scale(curve: Curve, certificate: Certificate, youngs_modulus: float) -> float:
    proof = certificate.proof_02 / _proof(curve, youngs_modulus)
    tensile = certificate.tensile / float(tensile_strength(curve))
    return sqrt(float(proof) * tensile)


def _proof(curve: Curve, youngs_modulus: float) -> float:
    return float(proof_strength(curve, youngs_modulus))


def _stated(card: SteelCard, name: str) -> float | None:
    number = card.stated.get(name)
    return None if number is None else number.value


def _written(certificate: Certificate, where: str) -> Named:
    """The values of the user's certificate as numbers with a source."""
    values = {
        "certificate.proof_02": certificate.proof_02,
        "certificate.proof_10": certificate.proof_10,
        "certificate.tensile": certificate.tensile,
        "certificate.elongation": certificate.elongation,
        **{f"certificate.analysis.{k}": v for k, v in certificate.analysis.items()},
    }
    known = {name: float(value) for name, value in values.items() if value is not None}
    for name, value in known.items():
        if not isfinite(value):
            key = name.rsplit(".", 1)[-1]
            raise DataError(where, f"{key} = {value}", f"leave {key} out of the certificate")
    return tuple(
        (name, Datum(value, None, "mill-certificate", where, How.SEEN))
        for name, value in known.items()
    )


def _half_widths(card: SteelCard, basis: Basis, judged: Judged) -> tuple[Datum, Datum]:
    spreads = {
        Basis.COUPON: judged.spread_coupon,
        Basis.TRIAL: judged.spread_trial,
        Basis.CERTIFICATE: judged.spread_certificate,
        Basis.TYPICAL: judged.spread_typical,
        Basis.TEXTBOOK: judged.spread_typical,
    }
    strength = card.widths.get("strength_half_width", spreads[basis])
    if card.transforms and basis is not Basis.TRIAL:  # only a trial saw the water's temperature
        strength = max(strength, judged.spread_typical, key=lambda number: number.value)
    return strength, card.widths.get("steepness_half_width", judged.spread_steepness)


def _lasting_notes(card: SteelCard) -> tuple[str, ...]:
    notes = {
        "transforms": card.transforms,
        "invented": card.invented,
        "textbook": card.basis is Basis.TEXTBOOK,
    }
    return tuple(code for code, holds in notes.items() if holds)


def read_steel_card(path: Path) -> SteelCard:
    """One steel file. Raises InputError where there is none, DataError for what is wrong in it."""
    if not path.is_file():
        raise InputError(str(path), "no such steel file", 'steel = "1.4307"  # or a path')
    record, place = data.read_record(path), path.name
    data.refuse_unknown(record, _KEYS, place)
    physical = {
        name: data.datum(data.table(record, name, place), name, dimension, place)
        for name, dimension in _PHYSICAL.items()
    }
    _refuse_strange_physics(physical, place)
    curve, behind_curve = _read_curve(record, place, path.parent, physical)
    certificate, behind_certificate = _read_certificate(record, place)
    stated = _optional(record, ("proof_02", "tensile"), "pressure", place)
    widths = _optional(record, _WIDTHS, "ratio", place)
    named: Named = (
        *physical.items(),
        *behind_curve,
        *behind_certificate,
        *stated.items(),
    )
    invented = any(number.how is How.INVENTED for _, number in named)
    card = SteelCard(
        key=data.text(record, "key", place),
        names=_names(record, place),
        title=data.text(record, "title", place),
        basis=_basis(record, place),
        transforms=data.flag(record, "transforms", place),
        invented=data.flag(record, "invented", place) or invented,
        physical=physical,
        curve=curve,
        certificate=certificate,
        stated=stated,
        widths=widths,
        data=named,
        file=path,
    )
    _refuse_empty(card, place)
    return card


def _refuse_empty(card: SteelCard, place: str) -> None:
    if card.curve is not None and card.certificate is not None:
        raise DataError(
            place,
            "both [curve] and [certificate]: one of them would be ignored",
            "keep [curve] and write the certificate in the job file",
        )
    if card.curve is None and card.basis not in (Basis.TYPICAL, Basis.CERTIFICATE):
        raise DataError(
            place,
            f'basis = "{card.basis}" without a [curve]',
            '[curve] law = "table", points = "coupon.csv"',
        )


def _names(record: data.Record, place: str) -> tuple[str, ...]:
    names = record.get("names", [])
    if not isinstance(names, list) or not all(isinstance(name, str) for name in names):
        raise DataError(place, "names is not a list of texts", 'names = ["304L", "S30403"]')
    return tuple(names)


def _basis(record: data.Record, place: str) -> Basis:
    written = data.text(record, "basis", place)
    if written not in set(Basis):
        raise DataError(
            place, f'basis = "{written}"', f'basis = "coupon"  # {", ".join(Basis)}'
        )
    return Basis(written)


def _read_curve(
    record: data.Record, place: str, folder: Path, physical: dict[str, Datum]
) -> tuple[Curve | None, Named]:
    if "curve" not in record:
        return None, ()
    written = data.table(record, "curve", place)
    return read_curve(written, place, folder, physical["youngs_modulus"].value)


def _read_certificate(record: data.Record, place: str) -> tuple[Certificate | None, Named]:
    if "certificate" not in record:
        return None, ()
    where = f"{place}: [certificate]"
    written = data.table(record, "certificate", place)
    data.refuse_unknown(written, ("minimum_only", "elongation", *_STRENGTHS), where)
    numbers = _optional(written, _STRENGTHS, "pressure", place, "certificate.")
    numbers |= _optional(written, ("elongation",), "ratio", place, "certificate.")
    for needed in ("proof_02", "tensile"):
        data.table(written, needed, where)
    values: dict[str, Any] = {name: number.value for name, number in numbers.items()}
    minimum = data.flag(written, "minimum_only", where)
    certificate = Certificate(**values, minimum_only=minimum)
    refuse_strange(certificate, where)
    return certificate, tuple((f"certificate.{k}", v) for k, v in numbers.items())


def _optional(
    record: data.Record, names: tuple[str, ...], dimension: str, place: str, prefix: str = ""
) -> dict[str, Datum]:
    return {
        name: data.datum(data.table(record, name, place), prefix + name, dimension, place)
        for name in names
        if name in record
    }


def _refuse_strange_physics(physical: dict[str, Datum], place: str) -> None:
    """Units slip easily; every steel that yields as an austenitic one lies in these ranges."""
    allowed = {
        "youngs_modulus": (150e9, 230e9, "195 GPa"),
        "poisson_ratio": (0.2, 0.4, "0.30"),
        "density": (7000.0, 9000.0, "7900 kg/m3"),
        "thermal_expansion": (10e-6, 22e-6, "16 µm/m/K"),
    }
    for name, (low, high, sample) in allowed.items():
        value = physical[name].value
        if not low <= value <= high:
            problem = f"{value:.4g} (SI) lies outside {low:.4g} to {high:.4g}"
            raise DataError(f"{place}: [{name}]", problem, f"value = {sample}")

"""What a person says about a coupon or a trial cylinder, as texts with units, to options."""

from dataclasses import dataclass
from pathlib import Path

from stretchform import units
from stretchform.errors import InputError
from stretchform.files.coupon_columns import ROLES, CouponOptions
from stretchform.files.coupon_fit import FitOptions, TrialOptions
from stretchform.steel.grade import Certificate

_WHERE = "stretchform fit"
_TRIAL_ROLES = ("pressure", "circumference")
_QUANTILE_95 = 1.6449
_CLASSES = {"0.5": 0.0025, "1": 0.005, "2": 0.01}  # standard error: half of the class limit


@dataclass(frozen=True, slots=True)
class FitTexts:
    """Options as they were written; None: not said."""

    like: str | None = None
    kind: str | None = None
    unit: tuple[str, ...] = ()  # role=unit
    column: tuple[str, ...] = ()  # role=name or number
    sheet: str | None = None
    width: str | None = None
    thickness: str | None = None
    gauge_length: str | None = None
    machine_class: str | None = None
    proof_02: str | None = None
    wall: str | None = None
    wall_tolerance: str | None = None
    circumference: str | None = None
    ends_held: bool = False
    invented: bool = False


def coupon_options(texts: FitTexts) -> FitOptions:
    """Options for coupons. Raises InputError for a text that is none."""
    _refuse(texts, ("wall", "wall_tolerance", "circumference", "ends_held"), "--trial")
    coupon = CouponOptions(
        kind=texts.kind,
        width=_length(texts.width, "--width", "20.0 mm"),
        thickness=_length(texts.thickness, "--thickness", "2.02 mm"),
        gauge_length=_length(texts.gauge_length, "--gauge-length", "50 mm"),
        unit=_pairs(texts.unit, "--unit", ROLES, "stress=MPa"),
        column=_pairs(texts.column, "--column", ROLES, "stress=2"),
        sheet=texts.sheet,
        proof_02=_strength(texts.proof_02, "--proof-02"),
    )
    error = _CLASSES.get(texts.machine_class or "1")
    if error is None:
        problem = f'--machine-class "{texts.machine_class}" is none of {", ".join(_CLASSES)}'
        raise InputError(_WHERE, problem, "--machine-class 1")
    return FitOptions(coupon, _like(texts), error, error, error, texts.invented)


def trial_options(texts: FitTexts, certificate: Certificate | None) -> TrialOptions:
    """Options for a trial cylinder. Raises InputError for a text that is none."""
    strange = ("kind", "column", "sheet", "width", "thickness", "gauge_length", "machine_class")
    _refuse(texts, strange, "no --trial")
    wall = _length(texts.wall, "--wall", "2.0 mm")
    if wall is None:
        problem = "--wall is missing: the mean wall of the cylinder, as measured"
        raise InputError(_WHERE, problem, '--wall "2.0 mm"')
    tolerance = _length(texts.wall_tolerance, "--wall-tolerance", "0.03 mm")
    std = {} if tolerance is None else {"wall_std": tolerance / _QUANTILE_95}
    return TrialOptions(
        outside_circumference=_length(texts.circumference, "--circumference", "1885.0 mm"),
        wall=wall,
        steel=_like(texts),
        certificate=certificate,
        folder=Path(),
        closed=not texts.ends_held,
        unit=_pairs(texts.unit, "--unit", _TRIAL_ROLES, "pressure=bar"),
        invented=texts.invented,
        **std,
    )


def _like(texts: FitTexts) -> str:
    if texts.like is None:
        problem = (
            "--like is missing: modulus, density and the warning of martensite come from a "
            "steel of the list"
        )
        raise InputError(_WHERE, problem, '--like "1.4307"  # the grade of this coil')
    return texts.like


def _refuse(texts: FitTexts, names: tuple[str, ...], meant: str) -> None:
    """Options that mean nothing for this kind of fit."""
    for name in names:
        if getattr(texts, name):
            option = f"--{name.replace('_', '-')}"
            raise InputError(_WHERE, f"{option} goes with {meant}", f"leave {option} out")


def _length(text: str | None, option: str, sample: str) -> float | None:
    if text is None:
        return None
    value = units.read(text, "length", option, usual="mm")
    if value <= 0.0:
        raise InputError(f"{option} = {units.shown(text)}", "not above zero", f'"{sample}"')
    return value


def _strength(text: str | None, option: str) -> float | None:
    return None if text is None else units.read(text, "pressure", option, usual="MPa")


def _pairs(
    texts: tuple[str, ...], option: str, roles: tuple[str, ...], sample: str
) -> dict[str, str]:
    """role=text, each role once."""
    found: dict[str, str] = {}
    for text in texts:
        role, mark, value = text.partition("=")
        role, value = role.strip().lower(), value.strip()
        if not mark or not value or role not in roles:
            problem = f"no role=text with a role of {', '.join(roles)}"
            raise InputError(f"{option} {units.shown(text)}", problem, f"{option} {sample}")
        if role in found:
            raise InputError(f"{option} {units.shown(text)}", f"{role} twice", "one of them")
        found[role] = value
    return found

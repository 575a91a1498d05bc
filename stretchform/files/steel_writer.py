"""A fit as a steel file that `load_steel` reads: TOML, measured points as CSV, the fit as JSON.

Three files stand side by side: the steel, the points it rests on, and what the fit found
(every law, covariances, scatter, assumptions). Every number carries source, place and status.
"""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from stretchform.errors import InputError
from stretchform.files.coupon_fit import FitResult, TrialResult
from stretchform.files.judged import load_judged
from stretchform.files.steels import list_steels
from stretchform.planning.trial import points_before_factors
from stretchform.si import Array
from stretchform.sources import Datum, How
from stretchform.steel.elastic import ElasticLine
from stretchform.steel.fit import Fit, LawFit, Points, fit_points
from stretchform.steel.pool import half_width
from stretchform.steel.properties import proof_strength, tensile_strength

_PHYSICAL = {
    "youngs_modulus": "GPa",
    "poisson_ratio": "",
    "density": "kg/m3",
    "thermal_expansion": "µm/m/K",
}
_SCALE = {"GPa": 1e9, "kg/m3": 1.0, "µm/m/K": 1e-6, "": 1.0, "MPa": 1e6, "%": 0.01}
_STRESSES = ("strength_coefficient", "yield_stress", "saturation", "linear")
_MOST_POINTS = 1500
_TEXTBOOK_START = 0.03
_TRIAL_STRAINS = np.concatenate(  # close where a tank is formed, wide on to its maximum
    [np.linspace(0.003**0.5, 0.10**0.5, 60) ** 2, np.linspace(0.12, 0.30, 10)]
)


@dataclass(frozen=True, slots=True)
class SteelText:
    """The three files of one steel, as text."""

    steel: str
    points: str
    fit: str


@dataclass(frozen=True, slots=True)
class _Origin:
    """Where the numbers of this fit come from."""

    source: str
    measured: How
    derived: How
    where: str


def coupon_steel(result: FitResult, name: str, title: str) -> SteelText:
    """The steel of a fit of coupons. Raises InputError for a name that is not one word."""
    _refuse_name(name)
    options, pooled = result.options, result.pooled
    files = ", ".join(Path(coupon.path).name for coupon in result.coupons)
    origin = _origin("own-coupon", options.invented, f"tensile test {files}")
    like = _physical(options.like)
    chosen = pooled.fit.chosen
    modulus = like["youngs_modulus"].value
    rows = [_head(name, title, "coupon", options.like, options.invented)]
    rows += [_datum(key, number, _PHYSICAL[key]) for key, number in like.items()]
    rows += _curve(chosen, origin, f"{name}-points.csv")
    proof, tensile = pooled.proof_02, pooled.tensile
    own = proof is not None and all(t.line.points for t in result.tensiles)
    rows.append(
        _number(
            "proof_02",
            _mpa(float(proof_strength(chosen.curve, modulus) if proof is None else proof)),
            origin.source,
            origin.where + ("" if own else "; read from the law, the record starts later"),
            origin.measured if own else origin.derived,
        )
    )
    rows.append(
        _number(
            "tensile",
            _mpa(float(tensile_strength(chosen.curve) if tensile is None else tensile)),
            origin.source,
            origin.where + ("" if tensile else "; law carried on to its highest force"),
            origin.measured if tensile else origin.derived,
        )
    )
    rows.append(_width(float(half_width(pooled, load_judged().spread_coupon.value))))
    points = _points_csv(result, files)
    return SteelText("\n".join(rows), points, _json(_coupon_report(result)))


def trial_steel(result: TrialResult, name: str, title: str) -> SteelText:
    """The steel of a trial cylinder: its likely forecast gives the pressures of the trial.

    The judged rate and criterion are taken out of the curve, as every forecast puts them in
    again; the joint covariance of strength, slope and criterion stands in the fit file.
    """
    _refuse_name(name)
    judged = load_judged()
    origin = _origin(
        "own-trial", result.options.invented, f"trial cylinder {Path(result.path).name}"
    )
    steel = result.steel
    strain = _TRIAL_STRAINS
    stress = np.asarray(points_before_factors(result.fit, judged, strain), dtype=np.float64)
    line = ElasticLine(
        *(steel.youngs_modulus.value, 0.0, steel.youngs_modulus.value, 0.0, 0.0, 0.0, 0),
        assumed=True,
        grips=False,
    )
    fit = fit_points(Points(strain, stress, np.full(len(strain), np.nan)), line)
    chosen = fit.chosen
    rows = [_head(name, title, "trial", result.options.steel, result.options.invented)]
    for key, unit in _PHYSICAL.items():
        rows.append(_datum(key, getattr(steel, key), unit))
    rows += _curve(chosen, origin, f"{name}-points.csv")
    modulus = steel.youngs_modulus.value
    strengths = {
        "proof_02": float(proof_strength(chosen.curve, modulus)),
        "tensile": float(tensile_strength(chosen.curve)),
    }
    for key, value in strengths.items():
        place = f"{origin.where}; read from its law, judged rate taken out"
        rows.append(_number(key, _mpa(value), origin.source, place, origin.derived))
    rows.append(_width(judged.spread_trial.value))
    total = strain + stress / modulus
    points = _csv(
        total, stress, f"trial cylinder {Path(result.path).name}, points of its curve"
    )
    return SteelText("\n".join(rows), points, _json(_trial_report(result, chosen)))


def _refuse_name(name: str) -> None:
    plain = name.replace("-", "").replace("_", "").replace(".", "")
    if not plain.isalnum() or not name.isascii():
        raise InputError(f'name "{name}"', "letters, digits, dots and dashes only", "coil-4711")


def _origin(source: str, invented: bool, where: str) -> _Origin:
    if invented:
        return _Origin("invented", How.INVENTED, How.INVENTED, where)
    return _Origin(source, How.MEASURED, How.DERIVED, where)


def _physical(like: str) -> dict[str, Datum]:
    for card in list_steels():
        if like in (card.key, *card.names):
            return card.physical
    known = ", ".join(card.key for card in list_steels())
    raise InputError(f'like = "{like}"', f"no such steel; known: {known}", '--like "1.4307"')


def _head(name: str, title: str, basis: str, like: str, invented: bool) -> str:
    cards = [card for card in list_steels() if like in (card.key, *card.names)]
    transforms = bool(cards and cards[0].transforms)
    lines = [
        "# Written by the fit; the points and the whole fit stand beside it.",
        f"key = {_quoted(name)}",
        f"title = {_quoted(title)}",
        "names = []",
        f'basis = "{basis}"',
        f"transforms = {str(transforms).lower()}",
        *(["invented = true"] if invented else []),
    ]
    return "\n".join(lines) + "\n"


def _curve(chosen: LawFit, origin: _Origin, points: str) -> list[str]:
    law = "voce" if chosen.law == "voce linear" else chosen.law
    rows = [f'[curve]\nlaw = "{law}"\npoints = {_quoted(points)}\n']
    stds = np.sqrt(np.maximum(np.diag(chosen.covariance), 0.0))
    where = f"{origin.where}; least squares, rms {100 * chosen.rms:.2g} %"
    for key, value, std in zip(chosen.names, chosen.parameters, stds, strict=True):
        unit = "MPa" if key in _STRESSES else "%" if key == "prestrain" else ""
        text = where + "; logarithm of pascals" if key == "transient_logarithm" else where
        rows.append(_scaled(f"curve.{key}", value, std, unit, origin, text))
    if chosen.law == "voce":
        text = origin.where + "; the law has no linear term"
        rows.append(_scaled("curve.linear", 0.0, None, "MPa", origin, text))
    first, last = float(chosen.curve.strain_start), float(chosen.curve.strain_limit)
    start = _TEXTBOOK_START if chosen.law == "hollomon" else 0.0
    place = f"carried back from the first fitted point, {100 * first:.2f} % plastic strain"
    rows.append(
        _number(
            "curve.strain_start", f'"{100 * start:g} %"', "own-judgement", place, How.JUDGED
        )
    )
    rows.append(
        _number(
            "curve.strain_limit",
            f'"{100 * last:.4g} %"',
            origin.source,
            f"{origin.where}; last fitted point",
            origin.measured,
        )
    )
    return rows


def _scaled(
    key: str, value: float, std: float | None, unit: str, origin: _Origin, where: str
) -> str:
    scale = _SCALE[unit]
    text = f'"{value / scale:.9g} {unit}"' if unit else f"{_bare(value)}"
    spread = None
    if std is not None and np.isfinite(std):
        spread = f'"{std / scale:.4g} {unit}"' if unit else _bare(std, 4)
    if unit == "%" and spread is not None and std is not None and std / scale > 1e4:
        spread = None
    return _number(key, text, origin.source, where, origin.derived, spread)


def _bare(value: float, digits: int = 9) -> str:
    text = f"{value:.{digits}g}"
    return text if any(sign in text for sign in ".en") else text + ".0"


def _mpa(value: float) -> str:
    return f'"{value / 1e6:.6g} MPa"'


def _width(value: float) -> str:
    judged = load_judged().spread_coupon.value
    plain = abs(value - judged) < 1e-9
    where = "5 to 95 % half-width of the flow stress"
    return _number(
        "strength_half_width",
        f'"{100 * value:.3g} %"',
        "own-judgement",
        where + (", judged for an own test" if plain else ", judged or as the coupons scatter"),
        How.JUDGED,
    )


def _datum(key: str, number: Datum, unit: str) -> str:
    scale = _SCALE[unit]
    text = f'"{number.value / scale:.8g} {unit}"' if unit else _bare(number.value)
    spread = None
    if number.std is not None:
        spread = f'"{number.std / scale:.4g} {unit}"' if unit else _bare(number.std, 4)
    return _number(key, text, number.source, number.where, number.how, spread)


def _number(
    key: str, value: str, source: str, where: str, how: How, std: str | None = None
) -> str:
    lines = [f"[{key}]", f"value = {value}"]
    if std is not None:
        lines.append(f"std = {std}")
    lines += [f"source = {_quoted(source)}", f"where = {_quoted(where)}", f'how = "{how}"']
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _points_csv(result: FitResult, files: str) -> str:
    """Measured true points of all coupons, total strain, thinned evenly."""
    strain, stress = [], []
    for tensile in result.tensiles:
        step = max(1, -(-len(tensile.plastic_strain) * len(result.tensiles) // _MOST_POINTS))
        modulus = float(tensile.line.modulus)
        strain.append((tensile.plastic_strain + tensile.true_stress / modulus)[::step])
        stress.append(tensile.true_stress[::step])
    kind = "invented" if result.options.invented else "measured"
    return _csv(np.concatenate(strain), np.concatenate(stress), f"{kind}: {files}, thinned")


def _csv(strain: Array, stress: Array, remark: str) -> str:
    order = np.argsort(strain, kind="stable")
    kept = order[(strain[order] >= 0.0) & (stress[order] > 0.0)]
    body = [f"{strain[i]:.6f},{stress[i] / 1e6:.3f}" for i in kept]
    return "\n".join([f"# {remark}", "true_strain,true_stress_MPa", *body]) + "\n"


def _coupon_report(result: FitResult) -> dict[str, Any]:
    pooled = result.pooled
    return {
        "kind": "coupon",
        "coupons": [
            {
                "file": Path(coupon.path).name,
                "repairs": [[repair.code, repair.detail] for repair in coupon.repairs],
                "findings": [[finding.code, finding.numbers] for finding in tensile.findings],
                "proof_02": tensile.proof_02,
                "proof_10": tensile.proof_10,
                "tensile": tensile.tensile,
                "uniform_elongation": tensile.uniform_elongation,
            }
            for coupon, tensile in zip(result.coupons, result.tensiles, strict=True)
        ],
        "laws": _laws(pooled.fit),
        "scatter": {
            "strain": pooled.strains.tolist(),
            "relative_std": pooled.scatter.tolist(),
        },
    }


def _laws(fit: Fit) -> list[dict[str, Any]]:
    return [
        {
            "law": law.law,
            "parameters": dict(zip(law.names, law.parameters.tolist(), strict=True)),
            "covariance": law.covariance.tolist(),
            "rms": law.rms,
            "largest": law.largest,
            "corrected_criterion": law.criterion,
            "misfit": law.misfit,
            "problems": list(law.problems),
        }
        for law in fit.laws
    ]


def _trial_report(result: TrialResult, chosen: LawFit) -> dict[str, Any]:
    fit = result.fit
    return {
        "kind": "trial",
        "strength": fit.strength,
        "steepness": fit.steepness,
        "criterion": fit.criterion,
        "covariance_of": ["ln strength", "steepness", "criterion"],
        "covariance": fit.covariance.tolist(),
        "rate_included": True,
        "readings_used": fit.used,
        "readings_left_out": fit.left_out,
        "largest_growth": fit.largest_growth,
        "residuals": fit.residuals.tolist(),
        "findings": list(fit.findings),
        "repairs": [[repair.code, repair.detail] for repair in result.repairs],
        "law": chosen.law,
        "law_misfit": chosen.rms,
    }


def _json(report: dict[str, Any]) -> str:
    return (
        json.dumps(report, indent=1, ensure_ascii=False, allow_nan=False, default=float) + "\n"
    )

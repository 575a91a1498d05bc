"""A fit of tensile tests as blocks for the screen: strengths, laws, scatter, and its worth."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from stretchform.report import words_fit
from stretchform.report import words_numbers as numbers
from stretchform.report.tables import Block, Column, Lines, Table
from stretchform.si import Pascal, Ratio
from stretchform.steel.fit import Fit, LawFit
from stretchform.steel.grade import Steel
from stretchform.steel.pool import Pooled, curve_rows
from stretchform.steel.tensile import Finding, Tensile
from stretchform.units import write

_STRAINS = (0.01, 0.02, 0.03, 0.05, 0.08, 0.10, 0.15, 0.20, 0.30, 0.40)
INVENTED = "INVENTED: these readings describe no real sheet. Never pump by them."


@dataclass(frozen=True, slots=True)
class Test:
    """One coupon: its file, how it was mended, what it says."""

    file: str
    repairs: tuple[tuple[str, str], ...]  # code and detail
    tensile: Tensile


def blocks(
    tests: Sequence[Test],
    pooled: Pooled,
    steel: Steel,
    like: str,
    findings: Sequence[Finding] = (),
) -> list[Block]:
    """Everything about the tensile tests of one coil."""
    return [
        _title(tests, steel, like),
        _strengths(tests, pooled),
        Lines("What was assumed, mended or found odd", tuple(_said(tests, findings))),
        _laws(pooled.fit),
        _curve(pooled),
        *_scatter(pooled),
        Lines("How good this basis is", tuple(_worth(pooled, steel))),
    ]


def _title(tests: Sequence[Test], steel: Steel, like: str) -> Lines:
    lines = [INVENTED] if steel.invented else []
    count = f"{len(tests)} tensile test{'s' if len(tests) > 1 else ''} of one coil"
    lines.append(f"{count}: {', '.join(test.file for test in tests)}")
    lines.append(f"taken over from {like}: modulus, contraction, density, expansion")
    return Lines(f"Fit: {steel.key}", tuple(lines))


def _strengths(tests: Sequence[Test], pooled: Pooled) -> Table:
    columns = (
        Column("test", right=False),
        *(Column(head) for head in ("Rp0.2", "Rp1.0", "Rm", "uniform\nelongation", "modulus")),
    )
    rows = [_strength_row(test) for test in tests]
    if len(tests) > 1:
        means = (pooled.proof_02, pooled.proof_10, pooled.tensile)
        uniform = _share(pooled.uniform_elongation)
        rows.append(("mean", *(_stress(value) for value in means), uniform, ""))
    note = "A dash: not in the record. A star: the modulus is assumed, not read."
    return Table("Strengths (engineering)", columns, tuple(rows), (note,))


def _strength_row(test: Test) -> tuple[str, ...]:
    one = test.tensile
    star = "*" if one.line.assumed else ""
    return (
        test.file,
        *(_stress(value) for value in (one.proof_02, one.proof_10, one.tensile)),
        _share(one.uniform_elongation),
        write(float(one.line.modulus), "GPa", 0) + star,
    )


def _stress(value: Pascal | None) -> str:
    return numbers.NOTHING if value is None else numbers.stress(value)


def _share(value: Ratio | None) -> str:
    return numbers.NOTHING if value is None else numbers.percent(value, 1)


def _said(tests: Sequence[Test], findings: Sequence[Finding]) -> list[str]:
    lines = []
    for test in tests:
        lines += [f"- {test.file}: {words_fit.repair(*repair)}" for repair in test.repairs]
        lines += [f"- {test.file}: {words_fit.finding(one)}" for one in test.tensile.findings]
    lines += [f"- {words_fit.finding(one)}" for one in findings]
    return lines or ["- nothing"]


def _laws(fit: Fit) -> Table:
    columns = (
        Column("law", right=False),
        *(Column(head) for head in ("rms", "largest", "corrected\nAIC")),
        Column("verdict", right=False),
    )
    rows = tuple(_law_row(fit, law) for law in fit.laws)
    notes: tuple[str, ...] = (
        "rms and largest: of the relative residuals. Chosen is the least corrected AIC among "
        "the laws that are sound at both ends of the range.",
    )
    if fit.chosen.problems:
        notes = (*notes, "No law is sound at both ends: the best of them is taken.")
    return Table("Laws compared", columns, rows, notes)


def _law_row(fit: Fit, law: LawFit) -> tuple[str, ...]:
    said = ["CHOSEN"] if law is fit.chosen else []
    said += [words_fit.LAWS[code] for code in law.problems]
    if not said:
        said = [f"sound, {law.criterion - fit.chosen.criterion:.0f} behind"]
    shares = (numbers.percent(law.rms), numbers.percent(law.largest))
    return law.law, *shares, f"{law.criterion:.0f}", "; ".join(said)


def _curve(pooled: Pooled) -> Table:
    law = pooled.fit.chosen
    first, last = float(law.curve.strain_start), float(law.curve.strain_limit)
    strains = np.array([x for x in _STRAINS if first <= x <= last] or [first, last])
    rows = tuple(
        (numbers.percent(x, 0), *(numbers.stress(value) for value in (low, stress, high)))
        for x, stress, _, low, high in curve_rows(pooled, strains)
    )
    heads = ("plastic strain", "low (5 %)", "flow stress", "high (95 %)")
    texts = ", ".join(_parameter(law, name) for name in law.names)
    notes = (
        f"Measured from {numbers.percent(first, 1)} to {numbers.percent(last, 1)}; the curve "
        f"ends there. Law: {law.law}; {texts}. Low and high hold the fit, the elastic line, the "
        "instruments and, with several tests, their scatter.",
    )
    return Table("Flow stress (true)", tuple(Column(head) for head in heads), rows, notes)


def _parameter(law: LawFit, name: str) -> str:
    place = law.names.index(name)
    value = float(law.parameters[place])
    std = float(np.sqrt(max(law.covariance[place, place], 0.0)))
    stresses = ("strength_coefficient", "yield_stress", "saturation", "linear")
    scale, unit = (1e6, " MPa") if name in stresses else (1.0, "")
    return f"{name.replace('_', ' ')} {value / scale:.4g} +/- {std / scale:.2g}{unit}"


def _scatter(pooled: Pooled) -> list[Block]:
    if not len(pooled.scatter):
        return []
    rows = tuple(
        (numbers.percent(float(x), 0), numbers.percent(float(value)))
        for x, value in zip(pooled.strains, pooled.scatter, strict=True)
    )
    columns = (Column("plastic strain"), Column("standard deviation"))
    return [Table("Scatter between the tests", columns, rows)]


def _worth(pooled: Pooled, steel: Steel) -> list[str]:
    width = numbers.percent(steel.strength_half_width, 1)
    lines = [
        f"- A forecast takes the strength within {width} (5 to 95 %); a certificate is worth "
        "10 %, typical values 15 %.",
        "- It does not tell the yield rule, the slowness of a hold, nor cold water: for these a "
        "trial cylinder of the same coil is the best basis of all (fit --trial).",
        "- It holds for this coil, this direction and annealed sheet away from seams.",
    ]
    if pooled.count == 1:
        lines.insert(1, "- One test: how much the coil scatters is not known. Pull two more.")
    if steel.transforms:
        lines.append(
            "- This grade can turn to martensite in cool water: the band stays that of typical "
            "values unless the tank's own water was round a trial cylinder."
        )
    return lines

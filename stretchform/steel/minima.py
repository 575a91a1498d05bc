"""The standards' minimum strengths: to see a certificate that cannot be, never to forecast.

Sheet leaves the mill stronger than its minimum, by a tenth to a half, so a pressure computed
from a minimum does not form the tank, and no band around it means anything. A certificate that
only repeats the minima says nothing of its coil.
"""

from dataclasses import dataclass

from stretchform.errors import DataError
from stretchform.si import Pascal, Ratio
from stretchform.sources import How
from stretchform.steel.grade import Certificate
from stretchform.steel.tensile import Finding

SOURCES = ("en-10088-2", "en-10028-7", "astm-a240", "own-judgement")

_SAME = 0.5e6  # a strength within half a megapascal of the minimum is the minimum
_TEMPERED = 1.7  # proof strength over its minimum above which the sheet is not plain annealed


@dataclass(frozen=True, slots=True)
class Minimum:
    """One row of a standard: one grade and product form."""

    standard: str
    grade: str  # EN number or UNS
    names: tuple[str, ...]
    product: str
    proof_02: Pascal
    proof_10: Pascal | None
    tensile: Pascal
    tensile_highest: Pascal | None
    elongation: Ratio | None
    strengths_how: How
    elongation_how: How
    source: str
    where: str


def minima_of(names: tuple[str, ...], table: tuple[Minimum, ...]) -> tuple[Minimum, ...]:
    """Every row of the table that belongs to a steel, by any of its names.

        equal names without regard to case

    Source: own-judgement, same names mean the same steel.
    Checked: tests/unit/steel/test_minima.py
    """
    wanted = {name.upper() for name in names}
    return tuple(
        row for row in table if wanted & {name.upper() for name in (row.grade, *row.names)}
    )


def certificate_findings(
    certificate: Certificate, rows: tuple[Minimum, ...]
) -> tuple[Finding, ...]:
    """What is odd in a certificate beside the standards' minima of its grade.

        below every row: below_minimum_*; equal to a row in each strength: repeats_minimum;
        tensile above every allowed maximum: above_maximum; Rp0.2 above 1.7 times every
        minimum: perhaps_tempered

    Source: en-10088-2, en-10028-7, astm-a240, rows; own-judgement, factors.
    Checked: tests/unit/steel/test_minima.py
    """
    if not rows:
        return (Finding("no_minimum_known"),)
    found = [Finding("minimum_from_memory")] if _from_memory(rows) else []
    for name in ("proof_02", "proof_10", "tensile", "elongation"):
        value = getattr(certificate, name)
        known = [getattr(row, name) for row in rows if getattr(row, name) is not None]
        if value is not None and known and value < 0.999 * min(known):
            numbers = {"value": float(value), "minimum": float(min(known))}
            found.append(Finding(f"below_minimum_{name}", numbers))
    highest = max((float(row.tensile_highest or 0.0) for row in rows), default=0.0)
    if highest and float(certificate.tensile) > 1.001 * highest:
        numbers = {"value": float(certificate.tensile), "maximum": highest}
        found.append(Finding("above_maximum_tensile", numbers))
    strongest = max(float(row.proof_02) for row in rows)
    if float(certificate.proof_02) > _TEMPERED * strongest:
        numbers = {"value": float(certificate.proof_02), "minimum": strongest}
        found.append(Finding("perhaps_tempered", numbers))
    if repeats_minimum(certificate, rows):
        found.append(Finding("repeats_minimum", {"proof_02": float(certificate.proof_02)}))
    return tuple(found)


def repeats_minimum(certificate: Certificate, rows: tuple[Minimum, ...]) -> bool:
    """Whether a certificate only repeats the minima of its standard.

        Rp0.2 and Rm (and Rp1.0 where both give it) equal one row to 0.5 MPa

    Source: own-judgement, a coil that meets both minima exactly is not credible.
    Checked: tests/unit/steel/test_minima.py
    """
    return certificate.minimum_only or any(_same(certificate, row) for row in rows)


def refuse_minimum_only(
    certificate: Certificate, rows: tuple[Minimum, ...], where: str
) -> None:
    """Refuse a certificate that says nothing of its coil as the basis of a forecast.

        see repeats_minimum

    Source: own-judgement, minima are no forecast.
    Checked: tests/unit/steel/test_minima.py
    Raises DataError for a certificate that only repeats minima.
    """
    if repeats_minimum(certificate, rows):
        raise DataError(
            where,
            "these strengths are the minima of the standard, not those of this coil: "
            "the sheet is stronger, and how much is not known",
            "ask for the measured values (EN 10204 3.1), or pull a coupon and `fit` it",
        )


def _same(certificate: Certificate, row: Minimum) -> bool:
    proof = abs(float(certificate.proof_02) - float(row.proof_02)) <= _SAME
    tensile = abs(float(certificate.tensile) - float(row.tensile)) <= _SAME
    middle = True
    if certificate.proof_10 is not None and row.proof_10 is not None:
        middle = abs(float(certificate.proof_10) - float(row.proof_10)) <= _SAME
    return proof and tensile and middle


def _from_memory(rows: tuple[Minimum, ...]) -> bool:
    return all(row.strengths_how is How.MEMORY for row in rows)

"""A flow-stress law from the two or three strengths that stand on a mill certificate.

The vessel-code curve (ASME VIII-2 Annex 3-D) gives good stresses from the 0.2 % proof strength
and the tensile strength alone, but its slope dips near 4 % strain and humps near 8 %. So one
smooth law s0 + K x^n is laid through its stresses, the proof strengths and the true tensile
strength; stress and slope are then those of the same law, and the misfit is kept.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.errors import DataError, NoSolution
from stretchform.si import Array, Pascal, Ratio, Strain
from stretchform.steel.curve import Ludwik
from stretchform.steel.grade import Certificate

SOURCES = ("asme-viii-2", "own-derivation")

_PROOF_STRAIN = 0.002
_NEGLIGIBLE_STRAIN = 2e-5  # the code's strain of the proportional limit for these steels
_TABLE_POINTS = 4001
_FIT_START, _FIT_END, _FIT_POINTS = 0.01, 0.30, 60
_EXPONENTS = np.linspace(0.05, 1.0, 381)
PROOF_RANGE = (150e6, 800e6)
TENSILE_RANGE = (400e6, 1200e6)
LOWEST_RATIO = 1.15  # below it the sheet is cold-worked and barely stretches evenly
_HIGHEST_RATIO = 5.0  # above it the two values are not of one annealed sheet


@dataclass(frozen=True, slots=True)
class CodeCurve:
    """Constants of the vessel-code curve for one pair of strengths."""

    proof_02: Pascal
    tensile: Pascal
    ratio: Ratio  # R, proof over tensile
    transition: Ratio  # K
    small_exponent: Ratio  # m1
    large_exponent: Ratio  # m2, also the true uniform strain
    small_coefficient: Pascal  # A1
    large_coefficient: Pascal  # A2
    true_tensile: Pascal  # tensile exp(m2); the curve is flat beyond


@dataclass(frozen=True, slots=True)
class FittedCertificate:
    """A smooth law and how far it lies from the vessel-code curve, relative to its stress."""

    curve: Ludwik
    rms: Ratio
    largest: Ratio


def code_curve(proof_02: Pascal, tensile: Pascal) -> CodeCurve:
    """Constants of the vessel-code stress-strain curve of an austenitic steel.

        R = Sy/Su,  K = 1.5 R^1.5 - 0.5 R^2.5 - R^3.5,  m2 = 0.75 (1 - R),
        m1 = (ln R + ep - ey) / ln(ln(1 + ep) / ln(1 + ey)),  ey = 0.002,  ep = 2e-5,
        A1 = Sy (1 + ey) / ln(1 + ey)^m1,  A2 = Su exp(m2) / m2^m2

    Source: asme-viii-2, Annex 3-D (the same as VIII-3 KM-620), formulas as coded openly.
    Checked: tests/published/test_asme_annex_3d.py.
    """
    ratio = proof_02 / tensile
    proof, start = np.log1p(_PROOF_STRAIN), np.log1p(_NEGLIGIBLE_STRAIN)
    small = (np.log(ratio) + _NEGLIGIBLE_STRAIN - _PROOF_STRAIN) / np.log(start / proof)
    large = 0.75 * (1.0 - ratio)
    return CodeCurve(
        proof_02=proof_02,
        tensile=tensile,
        ratio=ratio,
        transition=1.5 * ratio**1.5 - 0.5 * ratio**2.5 - ratio**3.5,
        small_exponent=small,
        large_exponent=large,
        small_coefficient=proof_02 * (1.0 + _PROOF_STRAIN) / proof**small,
        large_coefficient=tensile * np.exp(large) / large**large,
        true_tensile=tensile * np.exp(large),
    )


def code_plastic_strain(stress: Pascal, code: CodeCurve) -> Strain:
    """Plastic true strain of the vessel-code curve at a true stress.

        x = (s/A1)^(1/m1) (1 - tanh H)/2 + (s/A2)^(1/m2) (1 + tanh H)/2,
        H = 2 (s - Sy - K (Su - Sy)) / (K (Su - Sy))

    Source: asme-viii-2, Annex 3-D (the same as VIII-3 KM-620), gamma 1 and gamma 2.
    Checked: tests/published/test_asme_annex_3d.py.
    """
    width = code.transition * (code.tensile - code.proof_02)
    weight = 0.5 * (1.0 + np.tanh(2.0 * (stress - code.proof_02 - width) / width))
    small = np.power(stress / code.small_coefficient, 1.0 / code.small_exponent)
    large = np.power(stress / code.large_coefficient, 1.0 / code.large_exponent)
    return np.asarray(small * (1.0 - weight) + large * weight, dtype=np.float64)


def code_strain(stress: Pascal, code: CodeCurve, youngs_modulus: Pascal) -> Strain:
    """Total true strain of the vessel-code curve: elastic s/E and the plastic part.

    Source: asme-viii-2, Annex 3-D (the same as VIII-3 KM-620), total strain.
    Checked: tests/published/test_asme_annex_3d.py.
    """
    return stress / youngs_modulus + code_plastic_strain(stress, code)


def code_stress(plastic_strain: Strain, code: CodeCurve) -> Pascal:
    """True stress of the vessel-code curve at a plastic true strain, from a fine table.

    Straight lines between 4001 points; flat beyond the true tensile strength, as in the code.

    Source: asme-viii-2, Annex 3-D (the same as VIII-3 KM-620), inverted by table.
    Checked: tests/published/test_asme_annex_3d.py.
    """
    stresses = np.linspace(0.0, float(code.true_tensile), _TABLE_POINTS)
    strains = code_plastic_strain(stresses, code)
    return np.asarray(np.interp(plastic_strain, strains, stresses), dtype=np.float64)


def true_proof(proof: Pascal, offset: Ratio, youngs_modulus: Pascal) -> tuple[Strain, Pascal]:
    """Plastic true strain and true stress of a proof strength on a certificate.

        s = R (1 + offset + R/E),  x = ln(1 + offset + R/E) - s/E

    Source: own-derivation, definition of proof strength and true stress.
    Checked: tests/unit/steel/test_properties.py (round trip through proof_strength).
    """
    growth = offset + proof / youngs_modulus
    stress = proof * (1.0 + growth)
    return np.log1p(growth) - stress / youngs_modulus, stress


def curve_from_certificate(
    certificate: Certificate, youngs_modulus: Pascal, where: str = "certificate"
) -> FittedCertificate:
    """Smooth law s0 + K x^n from the strengths of a certificate, and its misfit.

    Least squares of relative stress: 60 points of the vessel-code curve from 1 to 30 % plastic
    strain (or to its uniform strain) weigh as much together as each of Rp0.2, Rp1.0 (where
    given) and the true tensile strength. n is scanned; s0 and K are linear.

    Source: own-derivation, weighted least squares on asme-viii-2, Annex 3-D.
    Checked: tests/unit/steel/test_certificate.py, tests/published/test_measured_316l.py.
    Raises DataError for strengths that no annealed austenitic sheet has.
    """
    refuse_strange(certificate, where)
    code = code_curve(certificate.proof_02, certificate.tensile)
    limit = float(code.large_exponent)
    strains = np.linspace(_FIT_START, min(_FIT_END, limit), _FIT_POINTS)
    stresses = np.asarray(code_stress(strains, code), dtype=np.float64)
    points = _certificate_points(certificate, code, youngs_modulus)
    yield_stress, coefficient, exponent = _fit(
        np.concatenate([strains, points[:, 0]]),
        np.concatenate([stresses, points[:, 1]]),
        np.concatenate([np.full(_FIT_POINTS, _FIT_POINTS**-0.5), np.ones(len(points))]),
    )
    curve = Ludwik(yield_stress, coefficient, exponent, strain_limit=limit)
    misfit = np.asarray(curve.stress(strains), dtype=np.float64) / stresses - 1.0
    return FittedCertificate(
        curve=curve,
        rms=float(np.sqrt(np.mean(misfit**2))),
        largest=float(np.max(np.abs(misfit))),
    )


def _certificate_points(
    certificate: Certificate, code: CodeCurve, youngs_modulus: Pascal
) -> Array:
    points = [true_proof(certificate.proof_02, _PROOF_STRAIN, youngs_modulus)]
    if certificate.proof_10 is not None:
        points.append(true_proof(certificate.proof_10, 0.010, youngs_modulus))
    points.append((code_plastic_strain(code.true_tensile, code), code.true_tensile))
    return np.array(points, dtype=np.float64)


def _fit(strains: Array, stresses: Array, weights: Array) -> tuple[float, float, float]:
    """Best s0, K, n with s0 and K positive; n from a fixed scan, so the result never wanders."""
    best: tuple[float, float, float, float] | None = None
    relative = weights / stresses
    for exponent in _EXPONENTS:
        columns = np.column_stack([np.ones_like(strains), strains**exponent])
        scaled = columns * relative[:, None]
        (start, rise), *_ = np.linalg.lstsq(scaled, weights, rcond=None)
        rest = float(np.sum((scaled @ np.array([start, rise]) - weights) ** 2))
        if start > 0.0 and rise > 0.0 and (best is None or rest < best[0]):
            best = (rest, float(start), float(rise), float(exponent))
    if best is None:
        raise NoSolution(
            "certificate",
            "no smooth rising law passes through its strengths",
            'certificate = { proof_02 = "295 MPa", tensile = "650 MPa" } as on the paper',
        )
    return best[1:]


def refuse_strange(certificate: Certificate, where: str) -> None:
    """Refuse strengths outside those of annealed austenitic sheet.

    Source: own-derivation, judged limits wide around every standard grade.
    Checked: tests/unit/steel/test_certificate.py.
    Raises DataError with the value found and the values allowed.
    """
    proof, tensile = certificate.proof_02, certificate.tensile
    _refuse_range(where, "proof_02", proof, PROOF_RANGE)
    _refuse_range(where, "tensile", tensile, TENSILE_RANGE)
    if not tensile > LOWEST_RATIO * proof:
        raise DataError(
            where,
            f"tensile {_mpa(tensile)} is not {LOWEST_RATIO} times proof_02 {_mpa(proof)}: "
            "cold-worked sheet, or two values changed over",
            'annealed sheet, such as proof_02 = "295 MPa", tensile = "650 MPa"',
        )
    if tensile > _HIGHEST_RATIO * proof:
        raise DataError(
            where,
            f"tensile {_mpa(tensile)} is more than {_HIGHEST_RATIO:g} times proof_02 "
            f"{_mpa(proof)}: units mixed, or values of two steels",
            'both from one certificate, such as proof_02 = "295 MPa", tensile = "650 MPa"',
        )
    middle = certificate.proof_10
    if middle is not None and not (proof < middle < tensile):
        raise DataError(
            where,
            f"proof_10 {_mpa(middle)} does not lie between proof_02 {_mpa(proof)} "
            f"and tensile {_mpa(tensile)}",
            "the 1.0 % proof strength from the certificate, or leave proof_10 out",
        )


def _refuse_range(where: str, name: str, value: Pascal, allowed: tuple[float, float]) -> None:
    low, high = allowed
    if not low <= value <= high:
        raise DataError(
            where,
            f"{name} = {_mpa(value)} lies outside {_mpa(low)} to {_mpa(high)}",
            f'{name} = "{"295 MPa" if name == "proof_02" else "650 MPa"}", as on the paper',
        )


def _mpa(value: Pascal) -> str:
    return f"{value / 1e6:.4g} MPa"

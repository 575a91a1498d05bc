"""A fit for other programs: strict JSON, SI units, strains as fractions."""

import json
from collections.abc import Sequence
from typing import Any

import numpy as np

from stretchform import __version__
from stretchform.report.plan_json import finite
from stretchform.steel.grade import Steel
from stretchform.steel.spread import stress_band
from stretchform.steel.tensile import Finding

FORMAT = "stretchform fit 1"
_STRAINS = (0.005, 0.01, 0.015, 0.02, 0.03, 0.05, 0.08, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40)


def dumps(
    fit: str, steel: Steel, findings: Sequence[Finding] = (), written: Sequence[str] = ()
) -> str:
    """A fit as text; `fit` is the JSON text of the file that stands beside the steel file."""
    data = {
        "format": FORMAT,
        "version": __version__,
        "invented": steel.invented,
        "steel": _steel(steel),
        "findings": [[finding.code, finding.numbers] for finding in findings],
        "fit": json.loads(fit),
        "written": list(written),
    }
    return json.dumps(finite(data), indent=2, ensure_ascii=True, allow_nan=False)


def _steel(steel: Steel) -> dict[str, Any]:
    curve = steel.curve
    start, limit = float(curve.strain_start), float(curve.strain_limit)
    strains = np.array([x for x in _STRAINS if start <= x <= limit] or [start, limit])
    low, high = stress_band(
        curve, steel.strength_half_width, steel.steepness_half_width, strains
    )
    rows = zip(strains, np.asarray(curve.stress(strains)), low, high, strict=True)
    return {
        "key": steel.key,
        "basis": steel.basis.value,
        "proof_02": float(steel.proof_02),
        "tensile": float(steel.tensile),
        "strength_half_width": float(steel.strength_half_width),
        "range": [start, limit],
        "curve": [
            dict(zip(("strain", "stress", "low", "high"), map(float, row), strict=True))
            for row in rows
        ],
    }

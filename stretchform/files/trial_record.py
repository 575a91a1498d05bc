"""The joint result of a trial cylinder, read back from the fit file beside its steel file."""

import json
from math import isfinite
from pathlib import Path
from typing import Any

import numpy as np

from stretchform.errors import DataError
from stretchform.planning.trial_draws import TrialJoint

_FIX = "fit the trial again: it writes this file beside the steel file"


def read_trial_joint(steel_file: Path) -> TrialJoint | None:
    """Strength, slope, criterion and covariance of a trial steel; None where no fit file is.

    Raises DataError for a fit file that is damaged or not of a trial.
    """
    path = steel_file.with_name(f"{steel_file.stem}-fit.json")
    if not path.is_file():
        return None
    try:
        report = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, json.JSONDecodeError) as error:
        raise DataError(path.name, "damaged, no JSON text", _FIX) from error
    if not isinstance(report, dict) or report.get("kind") != "trial":
        raise DataError(path.name, "not the fit of a trial cylinder", _FIX)
    strength, steepness, criterion = (
        _number(report, name, path.name) for name in ("strength", "steepness", "criterion")
    )
    covariance = _covariance(report.get("covariance"), path.name)
    if not (0.3 < strength < 3.0 and 0.1 < steepness < 5.0 and 0.9 < criterion < 1.3):
        found = f"strength {strength:.3g}, slope {steepness:.3g}, C {criterion:.3g}"
        raise DataError(path.name, found, _FIX)
    return TrialJoint(strength, steepness, criterion, covariance)


def _number(report: dict[str, Any], name: str, where: str) -> float:
    value = report.get(name)
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
        raise DataError(where, f"{name} = {value!r}", _FIX)
    return float(value)


def _covariance(
    rows: object, where: str
) -> "np.ndarray[tuple[int, ...], np.dtype[np.float64]]":
    try:
        matrix = np.array(rows, dtype=np.float64)
    except (TypeError, ValueError) as error:
        raise DataError(where, "the covariance is no table of numbers", _FIX) from error
    sound = matrix.shape == (3, 3) and bool(np.all(np.isfinite(matrix)))
    if not (sound and np.allclose(matrix, matrix.T, rtol=1e-6, atol=1e-12)):
        raise DataError(where, "the covariance is not 3 by 3 and symmetric", _FIX)
    if float(np.min(np.linalg.eigvalsh(matrix))) < -1e-9:
        raise DataError(where, "the covariance is not positive", _FIX)
    return matrix

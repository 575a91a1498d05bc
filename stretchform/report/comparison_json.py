"""A comparison for other programs: strict JSON, SI units, growths as fractions."""

import json
from typing import Any

from stretchform import __version__
from stretchform.planning.compare import Compared, Comparison
from stretchform.report.plan_json import band, finite

FORMAT = "stretchform comparison 1"


def dumps(comparison: Comparison) -> str:
    """The comparison as text: strict JSON, two spaces a level."""
    return json.dumps(as_data(comparison), indent=2, ensure_ascii=True, allow_nan=False)


def as_data(comparison: Comparison) -> dict[str, Any]:
    """The comparison as plain numbers, texts, lists and dictionaries."""
    data = {
        "format": FORMAT,
        "version": __version__,
        "job": comparison.job.name,
        "invented_example": comparison.job.example,
        "pressure": comparison.pressure,
        "rows": [_row(row) for row in comparison.rows],
        "missing": list(comparison.missing),
        "near_head": list(comparison.near_head),
    }
    clean = finite(data)
    assert isinstance(clean, dict)
    return clean


def _row(row: Compared) -> dict[str, Any]:
    return {
        "station": row.station,
        "quantity": row.quantity,
        "before": row.before,
        "measured": row.measured,
        "predicted_growth": band(row.predicted_growth),
        "measured_growth": row.measured_growth,
        "difference": row.difference,
        "uncertainty": row.uncertainty,
        "difference_over_uncertainty": row.ratio,
        "wall": row.wall,
        "gained_yield_strength": band(row.gained_yield),
        "gained_from_pressure": (
            None if row.gained_from_pressure is None else band(row.gained_from_pressure)
        ),
    }

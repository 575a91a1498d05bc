"""The [curve] of a steel file: a law with its parameters, or measured points."""

import csv
from math import isfinite
from pathlib import Path
from typing import Any, Final

import numpy as np

from stretchform.errors import DataError
from stretchform.files import data
from stretchform.si import Array
from stretchform.sources import Datum
from stretchform.steel.curve import Curve, Hollomon, Ludwigson, Ludwik, Swift, Table, Voce

_COEFFICIENT: Final = {"strength_coefficient": "pressure", "hardening_exponent": data.NUMBER}
_LAWS: Final[dict[str, tuple[Any, dict[str, str]]]] = {
    "hollomon": (Hollomon, _COEFFICIENT),
    "ludwik": (Ludwik, {"yield_stress": "pressure", **_COEFFICIENT}),
    "swift": (Swift, {**_COEFFICIENT, "prestrain": "ratio"}),
    "voce": (
        Voce,
        {
            "yield_stress": "pressure",
            "saturation": "pressure",
            "rate": data.NUMBER,
            "linear": "pressure",
        },
    ),
    "ludwigson": (
        Ludwigson,
        {**_COEFFICIENT, "transient_logarithm": data.NUMBER, "transient_exponent": data.NUMBER},
    ),
}
_RANGE_KEYS: Final = ("strain_start", "strain_limit")
_POINT_COLUMNS: Final = ("true_strain", "true_stress_MPa")


def read_curve(
    record: data.Record, place: str, folder: Path, youngs_modulus: float
) -> tuple[Curve, tuple[tuple[str, Datum], ...]]:
    """The curve of one steel file and the numbers behind it, by name.

    Raises DataError for an unknown law, a missing parameter or a law that does not rise.
    """
    where = f"{place}: [curve]"
    law = data.text(record, "law", where)
    if law == "table":
        return _table(record, place, folder, youngs_modulus)
    if law not in _LAWS:
        known = ", ".join((*_LAWS, "table"))
        raise DataError(where, f'law = "{law}" is unknown', f'law = "ludwik"  # {known}')
    kind, parameters = _LAWS[law]
    wanted = {**parameters, **dict.fromkeys(_RANGE_KEYS, "ratio")}
    data.refuse_unknown(record, ("law", "points", *wanted), where)
    named = {
        name: data.datum(data.table(record, name, where), f"curve.{name}", dimension, place)
        for name, dimension in wanted.items()
    }
    curve: Curve = kind(**{name: number.value for name, number in named.items()})
    _refuse_falling(curve, where)
    return curve, tuple((f"curve.{name}", number) for name, number in named.items())


def _table(
    record: data.Record, place: str, folder: Path, youngs_modulus: float
) -> tuple[Table, tuple[tuple[str, Datum], ...]]:
    where = f"{place}: [curve]"
    data.refuse_unknown(record, ("law", "points", "source", "where", "how"), where)
    total, stresses = read_points(folder / data.text(record, "points", where))
    strains = total - stresses / youngs_modulus
    if strains[0] < 0.0 or np.any(np.diff(strains) <= 0.0):
        raise DataError(
            where,
            "the plastic strain (true strain less stress over Young's modulus) does not rise "
            "from point to point",
            "points from the plastic part of the test only, thinned until the strain rises",
        )
    curve = Table(strains, stresses, strain_start=float(strains[0]))
    _refuse_falling(curve, where)
    origin = {key: record.get(key) for key in ("source", "where", "how")}
    highest = {"value": f"{stresses[-1] / 1e6:.6g} MPa", **origin}
    return curve, (("curve.last_point", data.datum(highest, "curve", "pressure", place)),)


def read_points(path: Path) -> tuple[Array, Array]:
    """Total true strain and true stress (Pa) of a table of points.

    Lines that start with # are remarks; the first other line names the two columns.
    Raises DataError with the line that is not two numbers.
    """
    try:
        lines = path.read_text(encoding="utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError) as error:
        raise DataError(str(path), "cannot be read as text", "a CSV file in UTF-8") from error
    numbered = [(i, s) for i, s in enumerate(lines, 1) if s.strip() and not s.startswith("#")]
    rows = list(csv.reader(s for _, s in numbered))
    header = ",".join(_POINT_COLUMNS)
    if not rows or tuple(cell.strip() for cell in rows[0]) != _POINT_COLUMNS:
        raise DataError(path.name, "the columns are not named", header)
    pairs = [_pair(row, f"{path.name}:{numbered[i + 1][0]}") for i, row in enumerate(rows[1:])]
    if len(pairs) < 2:
        raise DataError(path.name, f"{len(pairs)} points", "two points or more")
    points = np.array(pairs, dtype=np.float64)
    return points[:, 0], 1e6 * points[:, 1]


def _pair(row: list[str], where: str) -> tuple[float, float]:
    try:
        strain, stress = (float(cell) for cell in row)
    except ValueError as error:
        raise DataError(where, f"{','.join(row)!r} is not two numbers", "0.02,337.5") from error
    if not (isfinite(strain) and isfinite(stress) and strain >= 0.0 and stress > 0.0):
        raise DataError(where, f"{','.join(row)!r} is not a tensile point", "0.02,337.5")
    return strain, stress


def _refuse_falling(curve: Curve, where: str) -> None:
    start, limit = curve.strain_start, curve.strain_limit
    if not 0.0 <= start < limit <= 2.0:
        raise DataError(
            where,
            f"strain_start {start:g} and strain_limit {limit:g} leave no range",
            'strain_start value = "0 %", strain_limit value = "40 %"',
        )
    strains = np.linspace(max(start, 1e-4), limit, 400)
    stresses = np.asarray(curve.stress(strains), dtype=np.float64)
    slopes = np.asarray(curve.slope(strains), dtype=np.float64)
    if not (np.all(np.isfinite(stresses)) and np.all(stresses > 0.0) and np.all(slopes > 0.0)):
        raise DataError(
            where,
            "the flow stress does not rise all the way from strain_start to strain_limit",
            "check the units of its parameters, or shorten the range",
        )
    if float(stresses[-1]) > 5e9 or float(stresses[0]) < 20e6:
        raise DataError(
            where,
            f"flow stress from {stresses[0] / 1e6:.3g} to {stresses[-1] / 1e6:.3g} MPa",
            "check the units of its parameters: a few hundred MPa are usual",
        )

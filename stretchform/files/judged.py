"""The judged factors of materials/forming.toml as the planner's Judged."""

from functools import cache
from pathlib import Path
from typing import Any

from stretchform.errors import DataError
from stretchform.files import data
from stretchform.planning.likely import Judged, Range
from stretchform.sources import Datum

_RANGES = ("criterion", "rate", "springback", "gained", "creep")
_SINGLES = {
    "spread_coupon": "ratio",
    "spread_trial": "ratio",
    "spread_certificate": "ratio",
    "spread_typical": "ratio",
    "spread_steepness": "ratio",
    "share_of_pressure": "ratio",
    "share_of_growth_care": "ratio",
    "share_of_growth_block": "ratio",
    "growth_allowance": "growth",
    "step_growth": "growth",
    "diameter_tolerance": "ratio",
    "softening": data.NUMBER,
    "gauge_height": "length",
    "overshoot": "ratio",
    "arrival_rate": data.NUMBER,
    "wall_map": "length",
    "hose_swelling": data.NUMBER,
    "reaction_growth": "growth",
    "stations_apart": "growth",
    "compliance_off": "ratio",
    "water_tolerance": data.NUMBER,
}
_HIGHEST = {"water_tolerance": 20.0}  # all the others are shares, below 1


@cache
def load_judged() -> Judged:
    """The shipped judged factors."""
    return read_judged(data.data_dir() / "forming.toml")


def read_judged(path: Path) -> Judged:
    """The judged factors of one file. Raises DataError for a missing or unsourced number."""
    record, place = data.read_record(path), path.name
    data.refuse_unknown(record, (*_RANGES, *_SINGLES), place)
    found: dict[str, Any] = {name: _range(record, name, place) for name in _RANGES}
    for name, dimension in _SINGLES.items():
        found[name] = _single(record, name, dimension, place)
    return Judged(**found)


def _range(record: dict[str, Any], name: str, place: str) -> Range:
    written = data.table(record, name, place)
    where = f"{place}: [{name}]"
    data.refuse_unknown(written, ("low", "likely", "high"), where)
    low, likely, high = (
        data.datum(data.table(written, key, where), f"{name}.{key}", data.NUMBER, place)
        for key in ("low", "likely", "high")
    )
    if not 0.0 < low.value <= likely.value <= high.value:
        found = f"{low.value:g}, {likely.value:g}, {high.value:g} do not rise"
        raise DataError(where, found, "low, likely and high in rising order, above zero")
    return Range(low, likely, high)


def _single(record: dict[str, Any], name: str, dimension: str, place: str) -> Datum:
    found = data.datum(data.table(record, name, place), name, dimension, place)
    if not 0.0 < found.value < _HIGHEST.get(name, 1.0):
        raise DataError(f"{place}: [{name}]", f"{found.value:g}", 'value = "10 %"')
    return found

"""A plan or a comparison as plain tables for spreadsheets: units in the headers.

They are made from the JSON, so that every number equals it and what a block caution withholds
there is empty here.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from stretchform import units
from stretchform.planning.plan import Plan
from stretchform.report.html import printable
from stretchform.si import Number

Cell: TypeAlias = str | float | int | bool | None
Sheet: TypeAlias = tuple[str, tuple[str, ...], list[tuple[Cell, ...]]]
Data: TypeAlias = Mapping[str, Any]

_UNITS = {  # of each kind: unit, and the second one of a job in inches
    "length": ("mm", "in"),
    "pressure": ("MPa", "psi"),
    "stress": ("MPa", "ksi"),
    "share": ("%", None),
    "volume": ("l", None),
    "time": ("min", None),
    "energy": ("kJ", None),
    "force": ("kN", None),
    "mass": ("kg", None),
    "temperature": ("°C", "°F"),
}
_SI = {
    "metre": "m",
    "strain": "1",
    "newton": "N",
    "newton_metre": "N m",
    "pascal": "Pa",
    "radian": "rad",
    "ratio": "1",
    "kilogram": "kg",
}
_DIGITS = 12  # significant ones that a table keeps
_BAND = ("low", "likely", "high")


@dataclass(frozen=True, slots=True)
class Column:
    """One number or text of each row: head, place in the JSON, kind of quantity."""

    head: str
    place: str
    kind: str = ""


def _band(head: str, place: str, kind: str) -> tuple[Column, ...]:
    return tuple(Column(f"{head}, {part}", f"{place}.{part}", kind) for part in _BAND)


_PRESSURES = (
    Column("pressure", "name"),
    *_band("gauge at the top of the tank", "band", "pressure"),
)
_STATIONS = (
    Column("station", "name"),
    Column("course", "course"),
    Column("height", "height", "length"),
    Column("near a head", "near_head"),
    Column("circumference before", "before.outside_circumference", "length"),
    Column("wall before", "before.wall", "length"),
    *_band(
        "circumference under pressure", "under_pressure.outside_circumference_band", "length"
    ),
    *_band("growth under pressure", "under_pressure.growth", "share"),
    Column("wall under pressure", "under_pressure.wall", "length"),
    *_band("circumference released", "released.outside_circumference_band", "length"),
    *_band("growth released", "released.growth", "share"),
    Column("wall released", "released.wall", "length"),
    Column("yield strength before", "released.yield_before", "stress"),
    *_band("gained yield strength", "released.gained_yield_strength", "stress"),
)
_STEPS = (
    Column("step", "number"),
    Column("pressure to set", "pressure", "pressure"),
    Column("gauge shows", "gauge_reading", "pressure"),
    Column("hold at least", "hold_s", "time"),
    Column("hold until growth is slow", "hold_until_rate"),
    Column("wall may yield", "yielding"),
    Column("chance over target", "chance_over_target", "share"),
    Column("chance of overshoot", "chance_of_overshoot", "share"),
    *_band("water in", "water_in", "volume"),
    Column("strokes so far", "strokes"),
    Column("pumping so far", "pumping_s", "time"),
)
_TAPE = (
    Column("step", "step"),
    Column("station", "name"),
    *_band("circumference under pressure", "circumference", "length"),
    *_band("circumference if released", "released", "length"),
    Column("go on below", "go_on_below", "length"),
    Column("stop above", "stop_above", "length"),
)
_PLATES = (
    Column("plate", "name"),
    Column("height", "height", "length"),
    Column("near a head", "near_head"),
    Column("travel", "travel", "length"),
    Column("tab clearance before", "tab_clearance.before", "length"),
    Column("tab clearance after", "tab_clearance.after", "length"),
    Column("arm", "arm.kind"),
    Column("arm depth", "arm.depth", "length"),
    Column("arm length", "arm.length", "length"),
    Column("arm root strain", "arm.root_strain", "share"),
    Column("force of a tab", "arm.force", "force"),
    Column("slot length", "slot.length", "length"),
    Column("slot width", "slot.width", "length"),
    Column("slot end radius", "slot.end_radius", "length"),
    Column("governs", "governs"),
    Column("method", "method"),
    Column("refused", "refused"),
)
_CHECKS = (
    Column("plate", "plate"),
    Column("height", "height", "length"),
    Column("check", "name"),
    Column("value, SI", "value"),
    Column("limit, SI", "limit"),
    Column("unit", "unit"),
    Column("result", "result"),
)
_HEADS = (
    Column("head", "name"),
    Column("shape", "shape"),
    Column("first yield", "first_yield_pressure", "pressure"),
    Column("deeper under pressure", "depth_change", "length"),
    Column("deeper released", "depth_change_released", "length"),
    Column("lowest hoop stress", "lowest_hoop_stress", "stress"),
    Column("largest strain", "largest_strain", "share"),
    Column("forming pressure over wrinkling limit", "wrinkling.forming_over_limit"),
)
_OPENINGS = (
    Column("opening", "name"),
    Column("in", "place"),
    Column("push on its cover", "thrust", "force"),
    Column("keep out above and below", "keep_out", "length"),
    Column("stations within", "stations"),
    Column("plates within", "plates"),
)
_PROFILE = (
    Column("height", "height", "length"),
    *_band("growth released", "growth", "share"),
    Column("growth under pressure", "pressed", "share"),
)
_CURVE = (
    Column("gauge pressure at the top of the tank", "pressure", "pressure"),
    *_band("largest growth released", "growth", "share"),
)
_DRIVERS = (
    Column("unknown", "input"),
    Column("courses", "courses"),
    Column("share of the variance of the target pressure", "share", "share"),
    Column("share of the variance of growth", "share_of_growth", "share"),
)
_HOLD_POINTS = (
    Column("point", "title"),
    Column("when", "when"),
    Column("must be true", "must"),
    Column("if not", "otherwise"),
)
_CAUTIONS = (
    Column("level", "level"),
    Column("code", "code"),
    Column("what", "text"),
    Column("means", "means"),
    Column("why", "why"),
    Column("do", "do"),
    Column("accepted", "accepted"),
)
_SOURCES = (Column("source", "key"), Column("how", "how"), Column("title", "title"))
_WATER = (
    Column("temperature", "temperature", "temperature"),
    Column("volume before", "volume_before", "volume"),
    *_band("volume after", "volume_after", "volume"),
    *_band("pumped to the target", "in_total", "volume"),
    *_band("comes back on release", "returned", "volume"),
    Column("air at most", "air_limit", "volume"),
    Column("filled mass", "filled_mass", "mass"),
)
_ENERGY = (
    Column("water", "water", "energy"),
    Column("wall", "wall", "energy"),
    Column("trapped air", "air", "energy"),
    Column("let loose at once", "recoverable", "energy"),
    Column("let loose at the relief pressure", "at_relief", "energy"),
    Column("spent in the wall, does not come back", "plastic_work", "energy"),
    Column("filled with gas instead", "gas_instead", "energy"),
    Column("end thrust", "end_thrust", "force"),
    Column("jet speed, m/s", "jet_speed"),
)
_COMPARISON = (
    Column("station", "station"),
    Column("growth", "quantity"),
    Column("circumference before", "before", "length"),
    Column("circumference measured", "measured", "length"),
    *_band("growth forecast", "predicted_growth", "share"),
    Column("growth measured", "measured_growth", "share"),
    Column("difference", "difference", "share"),
    Column("standard uncertainty", "uncertainty", "share"),
    Column("difference over uncertainty", "difference_over_uncertainty"),
    Column("wall", "wall", "length"),
    *_band("gained yield strength", "gained_yield_strength", "stress"),
)


def of_plan(plan: Plan, data: Data, inches: bool = False) -> list[Sheet]:
    """Every table of a plan; `data` is its JSON."""
    made = (
        ("pressures", _PRESSURES, _pressures(data)),
        ("stations", _STATIONS, data["stations"]),
        ("steps", _STEPS, _numbered(data["steps"])),
        ("tape", _TAPE, _tape(data)),
        ("plates", _PLATES, data["plates"]),
        ("plate-checks", _CHECKS, _checks(plan, data)),
        ("heads", _HEADS, data["heads"]),
        ("openings", _OPENINGS, data["openings"]),
        ("profile", _PROFILE, _profile(data)),
        ("growth-curve", _CURVE, _curve(data)),
        ("drivers", _DRIVERS, data["drivers"] or []),
        ("water", _WATER, [data["water"]]),
        ("energy", _ENERGY, [data["energy"]]),
        ("hold-points", _HOLD_POINTS, data["hold_points"]),
        ("cautions", _CAUTIONS, data["cautions"]),
        ("sources", _SOURCES, data["sources"]),
    )
    about = ("about", ("what", "value"), _facts(_about(data)))
    return [
        about,
        *(_sheet(name, columns, rows, inches) for name, columns, rows in made if rows),
    ]


def of_comparison(data: Data, inches: bool = False) -> list[Sheet]:
    """The tables of a comparison; `data` is its JSON."""
    about = [
        {"what": "job", "value": data["job"]},
        {"what": "invented example", "value": data["invented_example"]},
        {"what": "stations without a reading", "value": data["missing"]},
    ]
    return [
        ("about", ("what", "value"), _facts(about)),
        _sheet("growths", _COMPARISON, data["rows"], inches),
    ]


def _facts(rows: Sequence[Data]) -> list[tuple[Cell, ...]]:
    return [(_plain(row["what"]), _plain(row["value"])) for row in rows]


def _about(data: Data) -> list[dict[str, Any]]:
    """Danger first, then whose plan it is and what withholds it."""
    found: list[dict[str, Any]] = [
        {"what": "danger", "value": said} for said in data["danger"]["statements"]
    ]
    job = data["job"]
    found += [
        {"what": "job", "value": job["name"]},
        {"what": "note", "value": job["note"]},
        {"what": "invented example", "value": job["invented_example"]},
        {"what": "fingerprint", "value": data["fingerprint"]},
        {"what": "version", "value": data["version"]},
        {"what": "model", "value": data["model"]},
        {"what": "withheld by", "value": data["withheld_by"]},
    ]
    return found + [
        {"what": f"accepted: {code}", "value": why} for code, why in data["accepted"].items()
    ]


def _pressures(data: Data) -> list[dict[str, Any]]:
    return [
        {"name": "forming pressure", "band": data["forming_pressure"]},
        {"name": "maximum pressure", "band": data["maximum_pressure"]},
    ]


def _numbered(steps: Sequence[Data]) -> list[dict[str, Any]]:
    return [{"number": number, **step} for number, step in enumerate(steps, 1)]


def _tape(data: Data) -> list[dict[str, Any]]:
    return [
        {"step": number, **station}
        for number, step in enumerate(data["steps"], 1)
        for station in step["stations"]
    ]


def _checks(plan: Plan, data: Data) -> list[dict[str, Any]]:
    found = []
    for plate, written in zip(plan.plates, data["plates"], strict=True):
        for check, row in zip(plate.result.checks, written["checks"], strict=True):
            unit = _SI[check.unit_kind]
            found.append(
                {"plate": plate.name, "height": written["height"], "unit": unit, **row}
            )
    return found


def _curve(data: Data) -> list[dict[str, Any]]:
    curve = data["growth_curve"]
    if curve is None:
        return []
    growth = curve["released_growth"]
    sides = zip(*(growth[part] for part in _BAND), strict=True)
    return [
        {"pressure": pressure, "growth": dict(zip(_BAND, side, strict=True))}
        for pressure, side in zip(curve["pressure"], sides, strict=True)
    ]


def _profile(data: Data) -> list[dict[str, Any]]:
    profile = data["profile"]
    if profile is None:
        return []
    growth = profile["released_growth"]
    sides = zip(*(growth[part] for part in _BAND), strict=True)
    return [
        {"height": height, "growth": dict(zip(_BAND, side, strict=True)), "pressed": pressed}
        for height, side, pressed in zip(
            profile["height"], sides, profile["growth_under_pressure"], strict=True
        )
    ]


def _sheet(name: str, columns: Sequence[Column], rows: Sequence[Data], inches: bool) -> Sheet:
    shown = [(column, unit) for column in columns for unit in _shown_units(column, inches)]
    header = tuple(f"{column.head} [{unit}]" if unit else column.head for column, unit in shown)
    cells = [
        tuple(_cell(_at(row, column.place), unit) for column, unit in shown) for row in rows
    ]
    return name, header, cells


def _shown_units(column: Column, inches: bool) -> tuple[str, ...]:
    if not column.kind:
        return ("",)
    first, second = _UNITS[column.kind]
    return (first, second) if inches and second else (first,)


def _at(row: Data, place: str) -> Any:
    """What stands at a place; nothing where a part on the way was withheld."""
    found: Any = row
    for part in place.split("."):
        if found is None:
            return None
        found = found[part]
    return found


def _cell(value: Any, unit: str) -> Cell:
    if unit and value is not None:
        return _rounded(float(units.convert(value, unit)))
    return _rounded(value) if isinstance(value, float) else _plain(value)


def _rounded(value: Number) -> float:
    return float(f"{value:.{_DIGITS}g}")


def _plain(value: Any) -> Cell:
    if isinstance(value, list):
        return ", ".join(map(str, value))
    if isinstance(value, str):
        return printable(value)
    return value if isinstance(value, float | int | bool | None) else str(value)

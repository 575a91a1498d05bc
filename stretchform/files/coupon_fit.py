"""From tensile records or trial readings on disk to a fit; the actions `fit` is made of."""

import re
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from stretchform import units
from stretchform.errors import InputError, InputErrors, StretchformError
from stretchform.files.coupon import Coupon, read_coupon
from stretchform.files.coupon_columns import CouponOptions
from stretchform.files.coupon_table import CellTable, Repair, column, read_table
from stretchform.files.judged import load_judged
from stretchform.files.steels import load_steel
from stretchform.planning.trial import TrialCylinder, TrialFit, TrialReadings, fit_trial
from stretchform.si import Array, Metre, Pascal, Ratio
from stretchform.steel.fit import Instruments
from stretchform.steel.grade import Certificate, Steel
from stretchform.steel.pool import Pooled, pool
from stretchform.steel.tensile import Tensile, evaluate

_CLASS_ONE = 0.005  # standard error of a class 1 load cell or extensometer: half its limit


@dataclass(frozen=True, slots=True)
class FitOptions:
    """How coupons are read and weighed."""

    coupon: CouponOptions = field(default_factory=CouponOptions)
    like: str = "1.4404"  # the steel whose modulus, density and expansion are taken over
    force_error: Ratio = _CLASS_ONE
    extension_error: Ratio = _CLASS_ONE
    section_error: Ratio = _CLASS_ONE
    invented: bool = False  # demo data: says so in the steel file


@dataclass(frozen=True, slots=True)
class FitResult:
    """The fit of one coil's coupons."""

    coupons: tuple[Coupon, ...]
    tensiles: tuple[Tensile, ...]
    pooled: Pooled
    options: FitOptions


@dataclass(frozen=True, slots=True)
class TrialOptions:
    """The trial cylinder and what was known of its steel before."""

    outside_circumference: (
        Metre | None
    )  # before forming; None: the first reading at no pressure
    wall: Metre
    steel: str
    certificate: Certificate | None = None
    folder: Path | None = None
    closed: bool = True
    wall_std: Metre = 0.02e-3
    pressure_std: Pascal | None = None  # None: 0.5 % of the highest reading
    circumference_std: Metre = 0.5e-3
    unit: dict[str, str] = field(default_factory=dict)  # pressure, circumference
    invented: bool = False


@dataclass(frozen=True, slots=True)
class TrialResult:
    """The fit of one trial cylinder."""

    fit: TrialFit
    steel: Steel  # as known before
    readings: TrialReadings
    repairs: tuple[Repair, ...]
    path: str
    options: TrialOptions


def fit_coupons(paths: tuple[Path, ...], options: FitOptions) -> FitResult:
    """Read, evaluate and fit the coupons of one coil; all mistakes of all files at once.

    Raises InputError or InputErrors.
    """
    if not paths:
        raise InputError("fit", "no file given", "stretchform fit coupon-1.csv coupon-2.csv")
    coupons: list[Coupon] = []
    tensiles: list[Tensile] = []
    errors: list[StretchformError] = []
    for path in paths:
        try:
            coupon = read_coupon(path, options.coupon)
            tensiles.append(evaluate(coupon.record))
            coupons.append(coupon)
        except StretchformError as error:
            errors.append(error)
    if errors:
        raise errors[0] if len(errors) == 1 else InputErrors(errors)
    instruments = Instruments(
        options.force_error, options.extension_error, options.section_error
    )
    return FitResult(
        tuple(coupons), tuple(tensiles), pool(tuple(tensiles), instruments), options
    )


def fit_trial_file(path: Path, options: TrialOptions) -> TrialResult:
    """Read the pressures and circumferences of a trial cylinder and fit its coil.

    The file has two named columns, pressure and circumference, each with its unit.
    Raises InputError for a file that is not that, NoSolution where no fit is found.
    """
    table = read_table(path)
    pressure, around, repairs = _trial_columns(table, options, path.name)
    first = options.outside_circumference
    if first is None:
        first = _first_circumference(pressure, around, path.name)
    loaded = pressure > 0.02 * float(np.max(pressure))
    std = options.pressure_std
    readings = TrialReadings(
        pressure[loaded],
        around[loaded],
        0.005 * float(np.max(pressure)) if std is None else std,
        options.circumference_std,
    )
    judged = load_judged()
    steel = load_steel(
        options.steel, options.certificate, f"{path.name}: steel", judged, options.folder
    )
    cylinder = TrialCylinder(first, options.wall, options.closed, options.wall_std)
    fit = fit_trial(cylinder, readings, steel, judged)
    return TrialResult(fit, steel, readings, repairs, str(path), options)


def _trial_columns(
    table: CellTable, options: TrialOptions, where: str
) -> tuple[Array, Array, tuple[Repair, ...]]:
    places = {}
    for role, words in (
        ("pressure", ("pressure", "druck")),
        ("circumference", ("circumference", "umfang", "girth")),
    ):
        found = [i for i, n in enumerate(table.names) if any(w in n.lower() for w in words)]
        if len(found) != 1:
            raise InputError(
                f"{where}: columns {', '.join(table.names) or '(not named)'}",
                f"{len(found)} columns are named {role}",
                "Pressure (bar);Circumference (mm)",
            )
        places[role] = found[0]
    values, repairs = [], list(table.repairs)
    for role, dimension, sample in (
        ("pressure", "pressure", "bar"),
        ("circumference", "length", "mm"),
    ):
        numbers, more = column(table, places[role], where)
        repairs.extend(more)
        name = table.names[places[role]]
        unit = options.unit.get(role) or _bracket(name)
        if unit is None:
            raise InputError(
                f'{where}: column "{name}"', f"no unit of {role}", f"--unit {role}={sample}"
            )
        values.append(numbers * units.read(f"1 {unit}", dimension, f'{where}: column "{name}"'))
    good = np.isfinite(values[0]) & np.isfinite(values[1])
    if not np.all(good):
        line = table.lines[int(np.argmin(good))]
        raise InputError(f"{where}:{line}", "not two numbers", "24.0;1893.5")
    return values[0], values[1], tuple(repairs)


def _bracket(name: str) -> str | None:
    found = re.findall(r"[\[(]([^\])]*)[\])]", name)
    return str(found[-1]).strip() if found else None


def _first_circumference(pressure: Array, around: Array, where: str) -> float:
    without = np.flatnonzero(pressure <= 0.0)
    if not len(without) or without[0] != 0:
        raise InputError(
            where,
            "no reading at zero pressure before forming",
            '--circumference "1885.0 mm", or a first line 0;1885.0',
        )
    return float(around[0])

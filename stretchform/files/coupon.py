"""A tensile record on disk to a Record: units settled, signs turned, loops and tails cut.

Each mend is reported as a Repair; what cannot be mended without guessing is refused with a line
that settles it.
"""

from dataclasses import dataclass
from pathlib import Path
from typing import TypeAlias

import numpy as np

from stretchform.errors import InputError
from stretchform.files.coupon_columns import Chosen, CouponOptions, choose
from stretchform.files.coupon_table import CellTable, Repair, column, read_table
from stretchform.si import Array
from stretchform.steel.tensile import Record

Mask: TypeAlias = "np.ndarray[tuple[int, ...], np.dtype[np.bool_]]"
_LOST_SHARE = 0.05  # rows without numbers that may be dropped
_LOOP = 0.0015  # strain by which a reading may fall behind before it is an unloading
_LOOP_SHARE = 0.4
_LEAST_STRESS, _MOST_STRAIN = 150e6, 1.5  # both passed: the columns are changed over
_BROKEN = 0.5  # of the highest load: below it the specimen has broken


@dataclass(frozen=True, slots=True)
class Coupon:
    """A record and how it was read."""

    record: Record
    repairs: tuple[Repair, ...]
    path: str


def read_coupon(path: Path, options: CouponOptions = CouponOptions()) -> Coupon:  # noqa: B008
    """One tensile test from a CSV, text or XLSX file.

    Raises InputError with the place and a line that settles what the file leaves open.
    """
    table = read_table(path, options.sheet)
    where = path.name
    chosen = choose(table, options, where)
    load, commas = column(table, chosen.load, where)
    stretch, more_commas = column(table, chosen.stretch, where)
    repairs = [*table.repairs, *(commas or more_commas)]
    load, stretch = _whole(table, load, stretch, chosen, where, repairs)
    stress = load * chosen.load_factor / _section(chosen, options, where)
    strain = stretch * chosen.stretch_factor / _gauge_length(chosen, options, where)
    strain, stress = _ordered(strain, stress, where, repairs)
    strain, stress = _unbroken(strain, stress, where, repairs)
    record = Record(path.stem, strain, stress, chosen.true, options.proof_02)
    return Coupon(record, tuple(repairs), str(path))


def _section(chosen: Chosen, options: CouponOptions, where: str) -> float:
    if chosen.load_role == "stress":
        return 1.0
    if options.section is not None:
        section = float(options.section)
    elif options.width is not None and options.thickness is not None:
        section = float(options.width * options.thickness)
    else:
        raise InputError(
            where,
            "a force without the section of the specimen",
            '--width "20.0 mm" --thickness "2.02 mm", as measured before the test',
        )
    if not 1e-7 <= section <= 1e-2:
        raise InputError(
            where,
            f"a section of {section * 1e6:.4g} mm²",
            '--width "20.0 mm" --thickness "2 mm"',
        )
    return section


def _gauge_length(chosen: Chosen, options: CouponOptions, where: str) -> float:
    if chosen.stretch_role == "strain":
        return 1.0
    if options.gauge_length is None:
        raise InputError(
            where,
            "an extension in a unit of length without the gauge length",
            '--gauge-length "50 mm"',
        )
    length = float(options.gauge_length)
    if not 1e-3 <= length <= 1.0:
        raise InputError(
            where, f"a gauge length of {length * 1e3:.4g} mm", '--gauge-length "50 mm"'
        )
    return length


def _whole(
    table: CellTable,
    load: Array,
    stretch: Array,
    chosen: Chosen,
    where: str,
    repairs: list[Repair],
) -> tuple[Array, Array]:
    """Rows with both numbers; a few others are dropped, a repeated header is a second test."""
    good = np.isfinite(load) & np.isfinite(stretch)
    lost = np.flatnonzero(~good)
    wordy = [i for i in lost if any(c.isalpha() for c in "".join(table.rows[i]))]
    for i in wordy:
        if _is_header(table.rows[i], table, chosen):
            raise _two_tests(f"{where}:{table.lines[i]}", "the header comes a second time")
    tail = len(lost) > 0 and bool(np.all(lost >= len(load) - len(lost)))
    if not tail and len(lost) > max(_LOST_SHARE * len(load), 2):
        line = table.lines[int(lost[0])]
        raise InputError(
            f"{where}:{line}",
            f"{len(lost)} of {len(load)} rows are not two numbers",
            "delete these rows, or export the readings again",
        )
    if len(lost):
        repairs.append(
            Repair("rows_dropped", f"{len(lost)}, first in line {table.lines[int(lost[0])]}")
        )
    return load[good], stretch[good]


def _is_header(row: tuple[str, ...], table: CellTable, chosen: Chosen) -> bool:
    own = row[chosen.load].strip().lower()
    return bool(own) and own in table.names[chosen.load].lower()


def _two_tests(where: str, problem: str) -> InputError:
    return InputError(where, f"{problem}: two tests in one file", "one file for each test")


def _ordered(
    strain: Array, stress: Array, where: str, repairs: list[Repair]
) -> tuple[Array, Array]:
    """Signs of tension, columns in their place, readings in the order of the test."""
    if len(strain) < 2 or float(np.ptp(strain)) == 0.0 or float(np.ptp(stress)) == 0.0:
        raise InputError(where, "a column does not change", "choose the columns: --column ...")
    if _large(stress) < _LEAST_STRESS and _large(strain) > _MOST_STRAIN:
        raise InputError(
            where,
            f"stress up to {_large(stress) / 1e6:.3g} MPa and strain up to "
            f"{100 * _large(strain):.4g} %: the columns are changed over, or a unit is wrong",
            "--column stress=... --column strain=..., --unit stress=MPa --unit strain=%",
        )
    if float(np.max(stress)) < -float(np.min(stress)):
        stress = -stress
        repairs.append(Repair("load_sign_turned", "pull was written as negative load"))
    if float(np.max(strain)) < -float(np.min(strain)):
        strain = -strain
        repairs.append(Repair("stretch_sign_turned", "stretch was written as negative"))
    if _backwards(strain, stress):
        strain, stress = strain[::-1].copy(), stress[::-1].copy()
        repairs.append(Repair("order_turned", "the last reading stood first"))
    return strain, stress


def _large(values: Array) -> float:
    return float(np.max(np.abs(values)))


def _backwards(strain: Array, stress: Array) -> bool:
    falling = float(np.mean(np.diff(strain) <= 0.0)) > 0.9
    return falling and float(stress[-1]) < 0.5 * float(np.max(stress))


def _unbroken(
    strain: Array, stress: Array, where: str, repairs: list[Repair]
) -> tuple[Array, Array]:
    """The test up to the break, without unloading loops; a second test is refused."""
    top = int(np.argmax(stress))
    low = np.flatnonzero(stress[top:] < _BROKEN * stress[top])
    if len(low):
        end = top + int(low[0])
        after_strain, after = strain[end:], stress[end:]
        if _starts_again(after_strain, after, float(strain[top]), float(stress[top])):
            raise _two_tests(where, "the load falls and rises again from the start")
        repairs.append(Repair("tail_cut", f"{len(after)} readings after the break"))
        strain, stress = strain[:end], stress[:end]
    _refuse_restart(strain, stress, where)
    behind = _loops(strain, stress)
    count = int(np.count_nonzero(behind))
    if count > _LOOP_SHARE * len(strain):
        raise InputError(
            where,
            f"the strain falls behind in {count} of {len(strain)} readings",
            "readings in the order of the test, strain rising; choose the columns: --column ...",
        )
    if count:
        repairs.append(Repair("loops_cut", f"{count} readings of unloading and reloading"))
    return strain[~behind], stress[~behind]


def _loops(strain: Array, stress: Array) -> Mask:
    """Readings of unloading and reloading: from where the load leaves the curve to its return."""
    behind = strain < np.maximum.accumulate(strain) - _LOOP
    highest = np.maximum.accumulate(stress)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], behind, [False]]).astype(np.int8)))
    loops = behind.copy()
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        full = stress >= 0.98 * highest[first]
        before, after = np.flatnonzero(full[:first]), np.flatnonzero(full[last:])
        if len(before) and len(after):
            loops[int(before[-1]) + 1 : last + int(after[0])] = True
    return loops


def _starts_again(strain: Array, stress: Array, top: float, highest: float) -> bool:
    rising = stress[int(np.argmin(stress)) :]
    return bool(np.any(rising > 0.7 * highest)) and float(np.min(strain)) < 0.3 * top


def _refuse_restart(strain: Array, stress: Array, where: str) -> None:
    """Before the highest load: load and strain both fall back to the start."""
    reach = np.maximum.accumulate(strain)
    load = np.maximum.accumulate(stress)
    back = (strain < 0.3 * reach) & (stress < 0.2 * load) & (reach > 0.02)
    if np.any(back):
        raise _two_tests(where, f"reading {int(np.argmax(back)) + 1} starts from the beginning")

"""Tensile records in the dialects of test machines all give the same curve."""

from pathlib import Path

import numpy as np
import openpyxl
import pytest
from fit_files import GAUGE, LAW, SECTION, plain, rows, text

from stretchform.files.coupon import read_coupon
from stretchform.files.coupon_columns import CouponOptions
from stretchform.steel.fit import fit_tensile
from stretchform.steel.tensile import evaluate, true_from_engineering

STRAIN, STRESS = rows()
EXTENSION, FORCE = STRAIN * GAUGE * 1e3, STRESS * SECTION * 1e3  # mm, kN
SIZED = CouponOptions(width=20e-3, thickness=2e-3, gauge_length=GAUGE)
PAIR = ["Engineering strain (%)", "Engineering stress (MPa)"]
FORCES = ["Extension (mm)", "Force (kN)"]


def loop():
    """One unloading and reloading at 10 % strain."""
    at = int(np.argmax(STRAIN > 0.10))
    back = np.linspace(1.0, 0.1, 20)
    down = STRAIN[at] - (1 - back) * STRESS[at] / 196e3, STRESS[at] * back
    both = [np.concatenate([d, d[::-1]]) for d in down]
    return (
        np.concatenate([STRAIN[:at], both[0], STRAIN[at:]]),
        np.concatenate([STRESS[:at], both[1], STRESS[at:]]),
    )


TRUE = true_from_engineering(STRAIN[STRAIN < 0.6], STRESS[STRAIN < 0.6])
LOOP = loop()
PSI = 0.006894757293168  # MPa

DIALECTS = {
    "plain": (plain().encode(), CouponOptions(), ()),
    "semicolon and decimal comma": (
        plain(separator=";", decimal=",").encode(),
        CouponOptions(),
        ("decimal_comma",),
    ),
    "tab": (plain(separator="\t").encode(), CouponOptions(), ("separator",)),
    "byte order mark": (b"\xef\xbb\xbf" + plain().encode(), CouponOptions(), ()),
    "UTF-16": (plain(separator=";").encode("utf-16"), CouponOptions(), ("encoding",)),
    "Windows-1252, German": (
        text(
            [100 * STRAIN, STRESS],
            ["Dehnung [%]", "Spannung [N/mm²]"],
            separator=";",
            decimal=",",
            before=["Prüfmaschine für Bleche", "Prüfer;Müller", ""],
        ).encode("cp1252"),
        CouponOptions(kind="engineering"),
        ("encoding", "lines_above"),
    ),
    "units on a second line": (
        text([100 * STRAIN, STRESS], ["Strain", "Stress"], units=["[%]", "[MPa]"]).encode(),
        CouponOptions(kind="engineering"),
        (),
    ),
    "units given by the user": (
        text([STRAIN, STRESS], ["Strain", "Stress"]).encode(),
        CouponOptions(kind="engineering", unit={"strain": "mm/mm", "stress": "MPa"}),
        (),
    ),
    "psi": (
        text([STRAIN, STRESS / PSI], ["Strain (in/in)", '"Stress, psi"']).encode(),
        CouponOptions(kind="engineering"),
        (),
    ),
    "force and extension": (text([EXTENSION, FORCE], FORCES).encode(), SIZED, ()),
    "force in N, extension in µm": (
        text([EXTENSION * 1e3, FORCE * 1e3], ["Extension [µm]", "Load [N]"]).encode(),
        SIZED,
        (),
    ),
    "strain column in mm with a gauge length": (
        text([EXTENSION, STRESS], ["Strain (mm)", "Stress (MPa)"]).encode(),
        CouponOptions(gauge_length=GAUGE),
        (),
    ),
    "time column first": (
        text([STRAIN * 600, 100 * STRAIN, STRESS], ["Time (s)", *PAIR]).encode(),
        CouponOptions(),
        (),
    ),
    "extensometer beside the crosshead": (
        text(
            [EXTENSION * 1.4, EXTENSION, FORCE],
            ["Crosshead (mm)", "Extension (mm)", "Force (kN)"],
        ).encode(),
        SIZED,
        (),
    ),
    "engineering beside true": (
        text(
            [100 * STRAIN, STRESS, 90 * STRAIN, STRESS * 1.2],
            [*PAIR, "True strain (%)", "True stress (MPa)"],
        ).encode(),
        CouponOptions(),
        (),
    ),
    "true values": (
        text([*TRUE], ["True strain (-)", "True stress (MPa)"]).encode(),
        CouponOptions(),
        (),
    ),
    "columns chosen by number": (
        text([STRESS, 100 * STRAIN], ["b", "a"]).encode(),
        CouponOptions(
            kind="engineering",
            column={"stress": "1", "strain": "2"},
            unit={"stress": "MPa", "strain": "%"},
        ),
        (),
    ),
    "compression sign": (
        text([-EXTENSION, -FORCE], FORCES).encode(),
        SIZED,
        ("load_sign_turned", "stretch_sign_turned"),
    ),
    "last reading first": (
        text([100 * STRAIN[::-1], STRESS[::-1]], PAIR).encode(),
        CouponOptions(),
        ("order_turned",),
    ),
    "readings after the break": (
        (plain() + "66.1,20.0\n66.2,10.0\n66.3,5.0\n").encode(),
        CouponOptions(),
        ("tail_cut",),
    ),
    "an unloading loop": (
        text([100 * LOOP[0], LOOP[1]], PAIR).encode(),
        CouponOptions(),
        ("loops_cut",),
    ),
    "a remark among the readings": (
        plain().replace("\n10.", "\nspeed changed,\n10.", 1).encode(),
        CouponOptions(),
        ("rows_dropped",),
    ),
    "slack": (
        text([EXTENSION + 0.25, FORCE], FORCES).encode(),
        SIZED,
        (),
    ),
    "missing toe": (
        text([100 * STRAIN[20:], STRESS[20:]], PAIR).encode(),
        CouponOptions(),
        (),
    ),
}


@pytest.mark.parametrize("name", list(DIALECTS))
def test_a_dialect_gives_the_same_curve(name, tmp_path):
    content, options, repairs = DIALECTS[name]
    path = tmp_path / "coupon.csv"
    path.write_bytes(content)
    coupon = read_coupon(path, options)
    assert set(repairs) <= {repair.code for repair in coupon.repairs}
    curve = fit_tensile(evaluate(coupon.record)).chosen.curve
    strain = np.array([0.02, 0.05, 0.10, 0.25])
    # noiseless; the modulus and zero of the elastic line move the curve by up to 0.3 %
    np.testing.assert_allclose(curve.stress(strain), LAW.stress(strain), rtol=4e-3)


def book(path: Path, cells, extra=None):
    made = openpyxl.Workbook()
    sheet = made.active
    sheet.title = "Test 1"
    for row in cells:
        sheet.append(row)
    if extra is not None:
        other = made.create_sheet("Notes")
        for row in extra:
            other.append(row)
    made.save(path)


def test_a_workbook_gives_the_same_curve(tmp_path):
    path = tmp_path / "coupon.xlsx"
    cells = [["Sheet 4711"], [], PAIR, *zip(100 * STRAIN, STRESS, strict=True)]
    book(path, cells, extra=[["operator", "A. Nonymous"]])
    coupon = read_coupon(path)
    np.testing.assert_allclose(coupon.record.stress, STRESS * 1e6, rtol=1e-12)
    np.testing.assert_allclose(coupon.record.strain, STRAIN, rtol=1e-12, atol=1e-15)


def test_one_of_several_sheets_is_chosen_by_name(tmp_path):
    path = tmp_path / "coupon.xlsx"
    cells = [PAIR, *zip(100 * STRAIN, STRESS, strict=True)]
    book(path, cells, extra=[PAIR, [0, 0], [1, 300], [2, 330], [3, 350]])
    coupon = read_coupon(path, CouponOptions(sheet="Test 1"))
    assert len(coupon.record.strain) == len(STRAIN)

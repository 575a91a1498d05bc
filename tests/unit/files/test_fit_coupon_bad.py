"""Bad coupons: a clear error with a place and a line that settles it, never a silent guess."""

import numpy as np
import openpyxl
import pytest
from fit_files import plain, rows, text

from stretchform.errors import InputError, InputErrors
from stretchform.files.coupon import read_coupon
from stretchform.files.coupon_columns import CouponOptions
from stretchform.files.coupon_fit import FitOptions, fit_coupons
from stretchform.steel.tensile import evaluate

STRAIN, STRESS = rows()
PAIR = ["Engineering strain (%)", "Engineering stress (MPa)"]
ENGINEERING = CouponOptions(kind="engineering")
NONE = CouponOptions()


def pair(strain, stress, header=None):
    return text([strain, stress], header or PAIR)


def two_tests():
    return pair(np.tile(100 * STRAIN, 2), np.tile(STRESS, 2))


def first_unbroken():
    short = STRAIN < 0.3
    return pair(
        np.concatenate([100 * STRAIN[short], 100 * STRAIN]),
        np.concatenate([STRESS[short], STRESS]),
    )


JITTER = np.random.default_rng(1).permutation(len(STRAIN))

BAD = {
    "empty": ("", NONE, "empty"),
    "blank lines": ("\n\n  \n", NONE, "empty"),
    "only words": ("a letter\nfrom the laboratory\n", NONE, "no table"),
    "only a header": (",".join(PAIR) + "\n", NONE, "no table"),
    "three points": (pair([0.0, 1.0, 20.0], [0.0, 300.0, 500.0]), NONE, "3 points"),
    "columns changed over": (pair(STRESS, 100 * STRAIN), NONE, "changed over"),
    "columns changed over, units of their own": (
        pair(STRESS, STRAIN, ["Strain (-)", "Stress (MPa)"]),
        ENGINEERING,
        "changed over",
    ),
    "ksi called MPa": (pair(100 * STRAIN, STRESS / 6.895), NONE, "unit of stress"),
    "MPa called ksi": (
        pair(100 * STRAIN, STRESS, ["Strain (%)", "Stress (ksi)"]),
        ENGINEERING,
        "unit of stress",
    ),
    "millipascal": (
        pair(100 * STRAIN, STRESS, ["Strain (%)", "Stress (mPa)"]),
        ENGINEERING,
        "millipascal",
    ),
    "per cent called a fraction": (
        pair(100 * STRAIN, STRESS, ["Strain (-)", "Stress (MPa)"]),
        ENGINEERING,
        "unit of strain",
    ),
    "fraction called per cent": (pair(STRAIN, STRESS), NONE, "unit of strain"),
    "strain in mm without gauge length": (
        pair(50 * STRAIN, STRESS, ["Strain (mm)", "Stress (MPa)"]),
        NONE,
        "gauge length",
    ),
    "force without section": (
        pair(50 * STRAIN, 40 * STRESS, ["Extension (mm)", "Force (N)"]),
        CouponOptions(gauge_length=50e-3),
        "section",
    ),
    "section in square metres": (
        pair(50 * STRAIN, 40 * STRESS, ["Extension (mm)", "Force (N)"]),
        CouponOptions(gauge_length=50e-3, section=40.0),
        "a section of",
    ),
    "gauge length in mm": (
        pair(50 * STRAIN, 40 * STRESS, ["Extension (mm)", "Force (N)"]),
        CouponOptions(gauge_length=50.0, section=40e-6),
        "a gauge length of",
    ),
    "no unit of stress": (
        pair(100 * STRAIN, STRESS, ["Strain (%)", "Stress"]),
        ENGINEERING,
        "no unit of stress",
    ),
    "no unit of strain": (
        pair(100 * STRAIN, STRESS, ["Strain", "Stress (MPa)"]),
        ENGINEERING,
        "no unit of strain",
    ),
    "unknown unit": (
        pair(100 * STRAIN, STRESS, ["Strain (%)", "Stress (furlong)"]),
        ENGINEERING,
        "unknown unit",
    ),
    "engineering or true not said": (
        pair(100 * STRAIN, STRESS, ["Strain (%)", "Stress (MPa)"]),
        NONE,
        "engineering or true",
    ),
    "true stress beside engineering strain": (
        pair(100 * STRAIN, STRESS, ["Engineering strain (%)", "True stress (MPa)"]),
        NONE,
        "one column is true",
    ),
    "true stress beside an extension": (
        pair(50 * STRAIN, STRESS, ["Extension (mm)", "True stress (MPa)"]),
        CouponOptions(gauge_length=50e-3),
        "beside a force or an extension",
    ),
    "columns without names": (
        "\n".join(f"{e:.5f},{s:.3f}" for e, s in zip(STRAIN, STRESS, strict=True)),
        NONE,
        "no column is named",
    ),
    "names that say nothing": (pair(STRAIN, STRESS, ["A", "B"]), NONE, "no column is named"),
    "two tests one after the other": (two_tests(), NONE, "two tests"),
    "two tests, the first not broken": (first_unbroken(), NONE, "two tests"),
    "two tests with the header again": (plain() + plain(), NONE, "two tests"),
    "two tests side by side": (
        text([100 * STRAIN, STRESS, STRESS], [*PAIR, "Engineering stress 2 (MPa)"]),
        NONE,
        "two tests",
    ),
    "readings shuffled": (pair(100 * STRAIN[JITTER], STRESS[JITTER]), NONE, "two tests"),
    "a constant column": (pair(np.full_like(STRAIN, 5.0), STRESS), NONE, "does not change"),
    "many rows of text": (
        plain().replace("\n2", "\npause,pause\n2"),
        NONE,
        "are not two numbers",
    ),
    "commas twice": (
        plain(decimal=",", digits=2),
        NONE,
        "in two ways",
    ),
    "comma and point mixed": (
        plain(separator=";").replace("612.", "612,", 1).replace("500.", "500,", 3),
        NONE,
        "mixed",
    ),
    "thousands set apart": (
        pair(100 * STRAIN, STRESS * 1e3, ["Engineering strain (%)", "Engineering stress (kPa)"])
        .replace(",300", ";300")
        .replace(",", ";")
        .replace(";600", ";600'", 2),
        NONE,
        "thousands set apart",
    ),
    "a spring instead of a specimen": (
        pair(100 * STRAIN, STRAIN * 1000.0),
        NONE,
        "plastic points",
    ),
    "a test of a few strains": (
        pair(100 * STRAIN[STRAIN < 0.01], STRESS[STRAIN < 0.01]),
        NONE,
        "strain runs to",
    ),
    "infinity and nan": (
        "\n".join([",".join(PAIR), *["nan,inf"] * 40]),
        NONE,
        "no table",
    ),
    "unknown column asked for": (
        plain(),
        CouponOptions(column={"stress": "sigma", "strain": "1"}),
        'no column "sigma"',
    ),
    "unknown role": (plain(), CouponOptions(column={"tension": "1"}), "is none of"),
    "unknown kind": (plain(), CouponOptions(kind="nominal"), 'kind "nominal"'),
}


@pytest.mark.parametrize("name", list(BAD))
def test_a_bad_coupon_is_refused_with_a_line_that_settles_it(name, tmp_path):
    content, options, problem = BAD[name]
    path = tmp_path / "bad coupon.csv"
    path.write_text(content, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        evaluate(read_coupon(path, options).record)
    assert problem in caught.value.problem + caught.value.fix
    assert "bad coupon" in caught.value.where
    assert caught.value.fix


def test_there_are_enough_kinds():
    assert len(BAD) >= 25


@pytest.mark.parametrize(
    ("name", "content", "problem"),
    [
        ("binary.csv", bytes(range(256)) * 20, "not a text file"),
        ("torn.xlsx", b"PK\x03\x04 torn", "not an XLSX workbook"),
        ("report.pdf", b"%PDF-1.7", "cannot be read"),
        ("old.xls", b"\xd0\xcf\x11\xe0", "cannot be read"),
    ],
)
def test_a_file_of_another_kind_is_refused(name, content, problem, tmp_path):
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(InputError, match=problem):
        read_coupon(path)


def test_a_folder_and_a_missing_file_are_refused(tmp_path):
    with pytest.raises(InputError, match="a folder"):
        read_coupon(tmp_path)
    with pytest.raises(InputError, match="no such file"):
        read_coupon(tmp_path / "nothing.csv")


def test_two_sheets_with_tables_are_refused_and_named(tmp_path):
    path = tmp_path / "two.xlsx"
    book = openpyxl.Workbook()
    for name in ("A", "B"):
        sheet = book.create_sheet(name)
        for row in [PAIR, [0, 0], [1, 300], [2, 330], [3, 350]]:
            sheet.append(row)
    book.save(path)
    with pytest.raises(InputError, match="2 sheets: A, B"):
        read_coupon(path)
    with pytest.raises(InputError, match='no sheet "C"'):
        read_coupon(path, CouponOptions(sheet="C"))


def test_the_mistakes_of_all_coupons_come_together(tmp_path):
    for name in ("one", "two"):
        (tmp_path / f"{name}.csv").write_text("")
    paths = (tmp_path / "one.csv", tmp_path / "two.csv")
    with pytest.raises(InputErrors) as caught:
        fit_coupons(paths, FitOptions())
    assert len(caught.value.errors) == 2
    with pytest.raises(InputError, match="no file given"):
        fit_coupons((), FitOptions())

"""Tables as files: read back equal, harmless to a spreadsheet, the same bytes every time."""

import csv
import zipfile
from io import BytesIO

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stretchform.errors import InputError
from stretchform.files import tables

SHEETS = (
    ("first", ("name", "length [mm]", "ok"), (("a", 1.5, True), ("Ünïcode 水", None, False))),
    ("second", ("=head", "n"), (("=SUM(A1)", -2), ("@x", 3))),
)
FORMULAS = ["=1+1", "+1", "-1+2", "@SUM(A1)", "  =1", "\t=1", "\x00=1", "\n=1"]


def test_a_csv_opens_in_a_spreadsheet_and_reads_back(tmp_path):
    written = tables.write_tables(tmp_path / "t", "plan", SHEETS)
    assert [path.name for path in written] == ["plan-first.csv", "plan-second.csv", "plan.xlsx"]
    content = written[0].read_bytes()
    assert content.startswith(b"\xef\xbb\xbf")
    found = list(csv.reader(content.decode("utf-8-sig").splitlines()))
    assert found == [
        ["name", "length [mm]", "ok"],
        ["a", "1.5", "yes"],
        ["Ünïcode 水", "", "no"],
    ]


def test_a_workbook_keeps_numbers_as_numbers_and_texts_as_texts(tmp_path):
    written = tables.write_tables(tmp_path, "plan", SHEETS)
    book = openpyxl.load_workbook(written[-1])
    assert book.sheetnames == ["first", "second"]
    assert book["first"]["B2"].value == 1.5
    assert book["first"]["B3"].value is None
    assert book["second"]["B2"].value == -2
    assert all(cell.data_type != "f" for sheet in book for row in sheet for cell in row)
    assert book["second"]["A2"].value == "'=SUM(A1)"


@pytest.mark.parametrize("text", FORMULAS)
def test_a_text_that_looks_like_a_formula_is_made_harmless(text):
    assert str(tables.harmless(text)).startswith("'")


@given(st.text(max_size=20))
def test_no_text_ever_begins_like_a_formula(text):
    cell = tables.harmless(text)
    assert not str(cell).lstrip().startswith(("=", "+", "-", "@"))
    assert tables.as_workbook((("s", ("h",), ((text,),)),))


def test_numbers_are_left_alone():
    assert [tables.harmless(cell) for cell in (-1.5, 0, None, True)] == [-1.5, 0, None, True]


def test_the_same_tables_give_the_same_bytes_and_tell_no_time():
    book = tables.as_workbook(SHEETS)
    assert book == tables.as_workbook(SHEETS)
    with zipfile.ZipFile(BytesIO(book)) as inside:
        assert {entry.date_time[0] for entry in inside.infolist()} == {1980}
        assert b"T" not in b"".join(
            line for line in inside.read("docProps/core.xml").split(b">") if b":" in line[:4]
        )
        assert b"dcterms" not in inside.read("docProps/core.xml").replace(b"xmlns:dcterms", b"")


def test_older_tables_are_replaced_and_nothing_stays_beside_them(tmp_path):
    first = tables.write_tables(tmp_path, "plan", SHEETS)
    again = tables.write_tables(tmp_path, "plan", SHEETS[:1])
    assert set(again) < set(first)
    assert sorted(tmp_path.iterdir()) == sorted(set(first))


def test_a_place_that_is_no_folder_is_refused(tmp_path):
    (tmp_path / "file").write_text("kept", encoding="utf-8")
    for place in (tmp_path / "file", tmp_path / "no" / "such"):
        with pytest.raises(InputError):
            tables.write_tables(place, "plan", SHEETS)
    assert (tmp_path / "file").read_text(encoding="utf-8") == "kept"

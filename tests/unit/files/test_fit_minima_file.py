"""The table of minima on disk: complete, and refused where a row is not."""

import pytest

from stretchform.errors import DataError
from stretchform.files.data import data_dir
from stretchform.files.minima import load_minima, read_minima

TEXT = (data_dir() / "minima.csv").read_text(encoding="utf-8")


def test_three_standards_and_both_ways_of_knowing_are_in_it():
    rows = load_minima()
    assert {row.standard for row in rows} == {"EN 10088-2", "EN 10028-7", "ASTM A240"}
    assert {row.strengths_how for row in rows} == {"seen", "memory"}
    assert len(rows) >= 60


def test_every_row_is_in_order():
    for row in load_minima():
        assert 150e6 < row.proof_02 < row.tensile < 1000e6
        assert row.proof_10 is None or row.proof_02 < row.proof_10 < row.tensile
        assert row.tensile_highest is None or row.tensile < row.tensile_highest
        assert row.elongation is None or 0.25 <= row.elongation <= 0.60


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        (",memory,memory,en-10088-2,", ",,memory,en-10088-2,", "status"),
        (",memory,memory,en-10088-2,", ",memory,heard,en-10088-2,", "status"),
        (",memory,memory,en-10088-2,", ",memory,memory,,", "bibliography"),
        ("EN 10088-2,1.4310", ",1.4310", "standard is empty"),
        (",250,280,600,950,", ",,280,600,950,", "is empty"),
        (",250,280,600,950,", ",many,280,600,950,", "proof_02_MPa"),
        (",250,280,600,950,", ",-250,280,600,950,", "proof_02_MPa"),
        (",250,280,600,950,", ",250,280,600,", "columns"),
        ("standard,grade", "norm,grade", "columns"),
    ],
)
def test_an_incomplete_row_is_refused(tmp_path, old, new, problem):
    path = tmp_path / "minima.csv"
    assert old in TEXT
    path.write_text(TEXT.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(DataError) as caught:
        read_minima(path)
    assert problem in caught.value.problem
    assert "minima.csv" in caught.value.where

"""Lists of tape readings: the ways a workshop writes them, and what is refused."""

from pathlib import Path

import pytest

from stretchform.errors import InputError, InputErrors
from stretchform.files.circumferences import read_circumferences

EXAMPLES = Path(__file__).parents[3] / "examples"
PLAIN = "station,before [mm],under_pressure [mm],released [mm]\nmiddle,1897.5,1995.0,1990.5\n"
ROUNDING = 1e-14  # relative: a product with the unit's factor


def _read(tmp_path, content, unit=None):
    path = tmp_path / "readings.csv"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return read_circumferences(path, unit)


@pytest.mark.parametrize(
    "content",
    [
        PLAIN,
        PLAIN.replace("\n", "\r\n"),
        b"\xef\xbb\xbf" + PLAIN.encode(),
        "# a remark\n\n" + PLAIN,
        "Station;Before [mm];Under Pressure [mm];Released [mm]\nmiddle;1897,5;1995,0;1990,5\n",
        "sep=;\nstation;before (mm);under-pressure (mm);released (mm)\nmiddle;1897.5;1995;1990.5",
        "station\tbefore [cm]\tunder_pressure [m]\treleased [mm]\nmiddle\t189,75\t1,995\t1990,5",
        'station,before [mm],under_pressure [mm],released [mm]\n"middle","1897.5",1995,1990.5\n',
        "released [mm],station,under_pressure [mm],before [mm]\n1990.5,middle,1995,1897.5\n",
        "station,before [mm],under_pressure [mm],released [mm]\nmiddle,1.8975 m,1995 mm,1990.5\n",
    ],
)
def test_the_same_readings_in_another_writing_are_the_same(tmp_path, content):
    (reading,) = _read(tmp_path, content)
    found = (reading.before, reading.under_pressure, reading.released)
    assert reading.station == "middle"
    assert found == pytest.approx((1.8975, 1.9950, 1.9905), rel=ROUNDING)


def test_a_unit_given_apart_serves_a_header_without_units(tmp_path):
    (reading,) = _read(tmp_path, "station,before,released\nmiddle,68.4,71.02\n", "in")
    assert reading.released == pytest.approx(71.02 * 0.0254, rel=ROUNDING)
    assert reading.under_pressure is None


def test_the_name_of_a_station_in_an_older_encoding_is_read(tmp_path):
    content = PLAIN.replace("middle", "Mitte über dem Boden").encode("cp1252")
    assert _read(tmp_path, content)[0].station == "Mitte über dem Boden"


def test_a_dash_or_an_empty_cell_was_not_read(tmp_path):
    (reading,) = _read(tmp_path, PLAIN.replace("1995.0", "-").replace("1990.5", ""))
    assert (reading.under_pressure, reading.released) == (None, None)


def test_a_column_of_remarks_is_allowed(tmp_path):
    content = "station,before [mm],released [mm],remark\nmiddle,1897.5,1990.5,windy\n"
    assert len(_read(tmp_path, content)) == 1


def test_the_line_of_each_reading_is_kept(tmp_path):
    content = "# invented\n" + PLAIN + "# more\nupper,1897.0,1994.0,1989.5\n"
    assert [reading.line for reading in _read(tmp_path, content)] == [3, 5]


@pytest.mark.parametrize(
    "path", sorted(EXAMPLES.glob("*-readings.csv")), ids=lambda path: path.name
)
def test_the_readings_of_an_example_are_read(path):
    assert len(read_circumferences(path)) >= 2
    assert path.read_text(encoding="utf-8").startswith("# Invented example")


@pytest.mark.parametrize(
    ("content", "line", "problem"),
    [
        ("station,before,released\nmiddle,1,2\n", 1, "no unit in the header"),
        ("station,before [bar],released [mm]\nmiddle,1,2\n", 1, "not a length"),
        ("station,befor [mm],released [mm]\nmiddle,1,2\n", 1, "did you mean before?"),
        ("before [mm],released [mm]\n1,2\n", 1, "no column station"),
        ("station,released [mm]\nmiddle,1990\n", 1, "no column before"),
        ("station,before [mm]\nmiddle,1990\n", 1, "neither under_pressure nor released"),
        ("station,before [mm],before [mm],released [mm]\na,1,2,3\n", 1, "stands twice"),
        (PLAIN.replace("1995.0", "1995,0"), 2, "a decimal comma needs semicolons"),
        (PLAIN.replace("1995.0", '"1,995.0"'), 2, "thousands"),
        (PLAIN.replace("1995.0", "nan"), 2, "not a finite number"),
        (PLAIN.replace("1995.0", "abc"), 2, "not a number"),
        (PLAIN.replace("1995.0", "19950"), 2, "against before"),
        (PLAIN.replace("1995.0", "635.0"), 2, "against before"),
        (PLAIN.replace("1995.0", "-1995.0"), 2, "between 120 mm and 40 m"),
        (PLAIN.replace("1995.0", "1995.0 bar"), 2, "not a length"),
        (PLAIN.replace(",1990.5", ""), 2, "3 cells where the header has 4"),
        (PLAIN.replace("middle", ""), 2, "no name of a station"),
        (PLAIN + "middle,1897.5,1995.0,1990.5\n", 3, "stands in line 2 already"),
        (PLAIN.replace("middle", '"mid'), 2, "quotation marks"),
    ],
)
def test_a_wrong_list_is_refused_with_its_line(tmp_path, content, line, problem):
    with pytest.raises(InputError) as caught:
        _read(tmp_path, content)
    assert f"readings.csv:{line}" in caught.value.where
    assert problem in str(caught.value)
    assert caught.value.fix


@pytest.mark.parametrize(
    ("content", "problem"),
    [
        (b"", "an empty list of readings"),
        (PLAIN.encode("utf-16"), "UTF-16"),
        (b"# only\n# remarks\n", "remarks and no readings"),
        (PLAIN.split("\n")[0].encode(), "a header and no readings"),
    ],
)
def test_a_file_without_readings_is_refused(tmp_path, content, problem):
    with pytest.raises(InputError, match=problem):
        _read(tmp_path, content)


def test_all_wrong_lines_are_told_together(tmp_path):
    content = PLAIN + "upper,1897.5,abc,1990\nthird,1897.5,1995\n"
    with pytest.raises(InputErrors) as caught:
        _read(tmp_path, content)
    assert [error.where.split(":")[1] for error in caught.value.errors] == ["3", "4"]

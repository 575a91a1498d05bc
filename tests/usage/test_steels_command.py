"""The command steels: list, search, one steel, curves compared, pictures."""

import re
import xml.etree.ElementTree as ET

import pytest

from stretchform import actions
from stretchform.__main__ import run

OWN = """
key = "coil 7"
title = "Invented coil"
names = []
basis = "coupon"
[youngs_modulus]
value = "200 GPa"
source = "invented"
where = "this test"
how = "invented"
[poisson_ratio]
value = 0.3
source = "invented"
where = "this test"
how = "invented"
[density]
value = "7900 kg/m3"
source = "invented"
where = "this test"
how = "invented"
[thermal_expansion]
value = "16 µm/m/K"
source = "invented"
where = "this test"
how = "invented"
[curve]
law = "table"
points = "coil.csv"
source = "invented"
where = "this test"
how = "invented"
"""
POINTS = "# invented\ntrue_strain,true_stress_MPa\n0.003,250\n0.02,330\n0.10,500\n0.40,900\n"


@pytest.fixture
def steels(capsys):
    def ran(*arguments, code=0):
        assert run(["steels", *map(str, arguments)]) == code
        out, complaint = capsys.readouterr()
        return out if code == 0 else complaint

    return ran


@pytest.fixture
def own(tmp_path):
    (tmp_path / "coil.toml").write_text(OWN, encoding="utf-8")
    (tmp_path / "coil.csv").write_text(POINTS, encoding="utf-8")
    return tmp_path / "coil.toml"


def test_the_list_has_fourteen_steels_and_more(steels):
    out = steels()
    rows = [line.split("  ")[0] for line in out.splitlines() if re.match(r"1\.4\d{3}", line)]
    assert len(rows) >= 14
    assert rows == sorted(rows)
    assert all(len(line) <= 80 for line in out.splitlines())


@pytest.mark.parametrize(
    ("words", "key"),
    [
        (["304L"], "1.4307"),
        (["AISI", "316Ti"], "1.4571"),
        (["UNS S34700"], "1.4550"),
        (["EN 1.4404"], "1.4404"),
        (["1.4307", "hot", "rolled"], "1.4307 hot rolled"),
        (["1.4318-plate"], "1.4318 plate"),
        (["x5crni18-10"], "1.4301"),
        (["heat-resisting"], "1.4845"),
    ],
)
def test_a_steel_is_found_by_any_of_its_names(steels, words, key):
    assert steels(*words).startswith(f"Steel {key}\n")


def test_a_part_of_a_name_lists_all_that_fit(steels):
    out = steels("hot", "rolled")
    assert [key in out for key in ("1.4307 hot", "1.4318 hot", "1.4404 hot")] == [True] * 3
    assert "1.4845" not in out


def test_one_steel_shows_curve_spread_and_where_each_number_comes_from(steels):
    out = " ".join(steels("1.4307").split())
    steel = actions.steel_with_curve(actions.steel_card("1.4307"))
    assert f"10 % 478 MPa {float(steel.curve.stress(0.10)) / 1e6:.0f} MPa 634 MPa" in out
    assert "295 MPa seen mill-typical" in out
    assert "strength within 15 %" in out
    assert "other conditions: 1.4307 hot rolled, 1.4307 plate" in out
    assert "Typical strengths of the grade are used" in out


def test_a_grade_without_a_curve_gets_one_from_a_certificate(steels):
    assert "None without the values" in steels("1.4571")
    out = steels("1.4571", "--proof-02", "280 MPa", "--tensile", "590 MPa")
    assert "certificate of this coil" in out
    assert re.search(r"certificate: tensile +590 MPa +seen", out)


@pytest.mark.parametrize("ending", ["svg", "png"])
def test_a_picture_of_one_steel_is_written(steels, tmp_path, ending):
    place = tmp_path / f"curve.{ending}"
    assert f"written: {place}" in steels("1.4404", "--picture", place)
    first = place.read_bytes()
    steels("1.4404", "--picture", place)
    assert place.read_bytes() == first
    if ending == "svg":
        words = [e.text or "" for e in ET.fromstring(first).iter() if e.tag.endswith("text")]
        assert "160 measured points" in words
    else:
        assert first.startswith(b"\x89PNG")


def test_curves_are_compared_in_a_table_and_a_picture(steels, tmp_path):
    place = tmp_path / "both.svg"
    out = steels("--compare", "1.4307", "1.4307-plate", "textbook-304", "--picture", place)
    one, two = (
        float(actions.steel_with_curve(actions.steel_card(name)).curve.stress(0.10)) / 1e6
        for name in ("1.4307", "1.4307 plate")
    )
    assert re.search(rf"^1\.4307 +.* {one:.0f} ", out, re.MULTILINE)
    assert re.search(rf"^1\.4307 plate .*{100 * (two / one - 1):+.0f} %", out, re.MULTILINE)
    assert "–" in out  # the textbook pair holds from 3 % on only
    words = place.read_text(encoding="utf-8")
    assert "1.4307 plate" in words and "textbook-304" in words


def test_an_own_steel_file_is_shown_and_compared(steels, own, tmp_path):
    out = steels(own, "--picture", tmp_path / "own.svg")
    assert out.startswith("Steel coil 7")
    assert "INVENTED" in out
    assert "coil 7, invented" in (tmp_path / "own.svg").read_text(encoding="utf-8")
    assert "coil 7" in steels("--compare", "1.4404", own)


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (["nosuch"], 2, "no steel is called"),
        (["3O4L"], 2, "304L"),
        (["--picture", "a.svg"], 2, "no steel is named"),
        (["hot rolled", "--picture", "a.svg"], 2, "fits several"),
        (["1.4404", "--picture", "a.jpg"], 2, "a.svg"),
        (["1.4404", "--picture", "nowhere/a.svg"], 2, "does not exist"),
        (["1.4301", "--picture", "a.svg"], 3, "--proof-02"),
        (["1.4301", "--proof-02", "280 MPa"], 2, "--tensile is missing"),
        (["1.4301", "--proof-02", "280", "--tensile", "600 MPa"], 2, "280 MPa"),
        (["1.4301", "--proof-02", "600 MPa", "--tensile", "280 MPa"], 2, "tensile"),
        (["--compare", "1.4307"], 2, "2 to 6"),
        (["--compare", *["1.4307"] * 7], 2, "2 to 6"),
        (["--compare", "1.4307", "1.4301"], 3, "1.4301"),
        (["--compare", "1.4307", "plate"], 2, "fits several"),
        (
            ["--compare", "1.4307", "1.4404", "--proof-02", "1 MPa", "--tensile", "2 MPa"],
            2,
            "coil",
        ),
        (["missing.toml"], 2, "no such steel file"),
    ],
)
def test_mistakes_get_a_line_that_works_and_leave_no_file(
    steels, tmp_path, monkeypatch, arguments, code, said
):
    monkeypatch.chdir(tmp_path)
    complaint = steels(*arguments, code=code)
    assert said in complaint
    assert "\n  try: " in complaint
    assert not list(tmp_path.iterdir())

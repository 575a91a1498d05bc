"""stretchform fit on the examples: screens, files, pictures, the way to a plan, and mistakes."""

import json
import re
import xml.etree.ElementTree as ElementTree

import pytest
from command_runs import BOAT, CISTERN, CODES, ROOT, run, run_on_terminal

COUPON = ROOT / "examples/rain-cistern-coupon.csv"
CYLINDER = ROOT / "examples/survey-boat-deck-tank-trial.csv"
SIZES = ("--width", "0.5 in", "--thickness", "0.078 in", "--gauge-length", "2.00 in")
PULLED = ("fit", COUPON, *SIZES, "--like", "316L", "--invented")
PAPER = ("--proof-02", "288 MPa", "--proof-10", "322 MPa", "--tensile", "641 MPa")
FORMED = (
    "fit",
    "--trial",
    CYLINDER,
    "--like",
    "1.4307",
    "--wall",
    "2.0 mm",
    *PAPER,
    "--invented",
)


def planned(folder, job, steel, own, *more):
    """The plan of an example whose first course takes its steel from the file just written."""
    lines = job.read_text(encoding="utf-8").splitlines()
    place = lines.index(f'steel = "{steel}"')
    lines[place : place + 2] = [f'steel = "{own}"']  # the certificate goes too
    (folder / job.name).write_text("\n".join(lines) + "\n", encoding="utf-8")
    return run("plan", job.name, "--json", *more, folder=folder)


def width(band):
    return (band["high"] - band["low"]) / band["likely"]


@pytest.mark.parametrize("arguments", [PULLED, FORMED], ids=["tensile", "trial"])
def test_a_fit_shows_itself_in_eighty_plain_columns(arguments):
    done = run(*arguments)
    assert done.code == 0, done.err
    assert done.err == ""
    assert [line for line in done.lines if len(line) > 80] == []
    assert not CODES.search(done.out)
    for words in ("INVENTED", "How good this basis is", "No steel file is written"):
        assert words in done.out
    assert run(*arguments, PYTHONIOENCODING="ascii").out.isascii()


def test_a_fit_on_a_terminal_keeps_its_width():
    done = run_on_terminal(*PULLED)
    assert done.code == 0
    assert [line for line in done.lines if len(CODES.sub("", line)) > 80] == []


def test_a_tensile_fit_names_strengths_laws_and_what_was_assumed():
    out = run(*PULLED).out
    # made from K 1465 MPa, x0 0.055, n 0.565; see test_fit_examples
    for words in ("289 MPa", "633 MPa", "swift", "CHOSEN", "corrected", "misses the start"):
        assert words in out
    assert "Strain is counted from 0.04 %" in out
    assert "One test: how much the coil scatters is not known" in out


def test_several_tests_show_their_scatter(tmp_path):
    lines = COUPON.read_text(encoding="utf-8").splitlines()
    start = next(i for i, line in enumerate(lines) if line.startswith("Extension")) + 1
    rows = [line.split(",") for line in lines[start:]]
    stronger = [f"{stretch},{1.04 * float(load):.1f}" for stretch, load in rows]
    other = tmp_path / "second.csv"
    other.write_text("\n".join([*lines[:start], *stronger]) + "\n", encoding="utf-8")
    done = run("fit", COUPON, other, *PULLED[2:])
    assert done.code == 0, done.err
    block = done.out.split("Scatter between the tests")[1]
    # two levels 4 % apart: standard deviation 0.04/1.02/sqrt(2) = 2.77 %
    found = [float(text) for text in re.findall(r"(\d\.\d\d) %", block.split("How good")[0])]
    # read as one steel each: the elastic line, known to 2 %, shifts the strains a little
    assert found == pytest.approx([2.77] * len(found), abs=0.1) and len(found) >= 4
    assert "2 tensile tests of one coil" in done.out
    assert "mean" in done.out


def test_from_a_tensile_test_by_commands_to_a_narrower_plan(tmp_path):
    done = run(
        *PULLED, "--output", tmp_path / "own-316L.toml", "--picture", tmp_path / "own.svg"
    )
    assert done.code == 0, done.err
    names = {path.name for path in tmp_path.iterdir()}
    assert names == {"own-316L.toml", "own-316L-points.csv", "own-316L-fit.json", "own.svg"}
    picture = ElementTree.parse(tmp_path / "own.svg").getroot()
    text = " ".join(picture.itertext())
    assert "own-316L, invented" in text and "groups of readings" in text
    shown = run("steels", "own-316L.toml", folder=tmp_path)
    assert shown.code == 0 and "own tensile test of this coil" in " ".join(shown.out.split())
    plan = planned(tmp_path, CISTERN, "316L", "own-316L.toml", "--quick")
    assert plan.code == 0, plan.err
    own = json.loads(plan.out)
    paper = json.loads(run("plan", CISTERN, "--quick", "--json").out)
    assert width(own["forming_pressure"]) < 0.8 * width(paper["forming_pressure"])


def test_a_trial_cylinder_narrows_the_plan_of_its_tank_far_more(tmp_path):
    done = run(*FORMED, "--output", tmp_path / "own-1.4307.toml")
    assert done.code == 0, done.err
    plan = planned(tmp_path, BOAT, "1.4307", "own-1.4307.toml")
    assert plan.code == 0, plan.err
    own = json.loads(plan.out)
    paper = json.loads(run("plan", BOAT, "--json").out)
    assert width(own["forming_pressure"]) < 0.4 * width(paper["forming_pressure"])
    names = [item["input"] for item in own["drivers"]]
    assert "what the trial left" in names and "yield rule" not in names
    assert sum(item["share"] for item in own["drivers"]) < 1.2


def test_a_fit_for_other_programs_is_strict_json(tmp_path):
    found = json.loads(run(*FORMED, "--json").out, parse_constant=pytest.fail)
    assert found["format"] == "stretchform fit 1"
    assert found["steel"]["basis"] == "trial" and found["invented"] is True
    assert found["fit"]["criterion"] == pytest.approx(1.10, abs=0.03)  # made with 1.10
    assert found["written"] == []
    coupon = json.loads(run(*PULLED, "--json").out)
    assert {law["law"] for law in coupon["fit"]["laws"]} >= {"swift", "voce", "ludwik"}


def test_an_older_file_is_left_alone_unless_told(tmp_path):
    output = tmp_path / "own.toml"
    assert run(*PULLED, "--output", output).code == 0
    before = {path: path.read_bytes() for path in tmp_path.iterdir()}
    again = run(*FORMED, "--output", output)
    assert again.code == 2 and "--replace" in again.err
    assert {path: path.read_bytes() for path in tmp_path.iterdir()} == before
    assert run(*FORMED, "--output", output, "--replace").code == 0
    assert "trial" in output.read_text(encoding="utf-8")


MISTAKES = {
    "no file": (("fit", "--like", "316L"), "no file given"),
    "no such file": (("fit", "none.csv", "--like", "316L"), "no such"),
    "no grade": (("fit", COUPON, *SIZES), '--like "1.4307"'),
    "unknown grade": (("fit", COUPON, *SIZES, "--like", "9.9999"), "no such steel"),
    "no section": (("fit", COUPON, "--like", "316L", "--gauge-length", "2 in"), "--width"),
    "no gauge length": (("fit", COUPON, *SIZES[:4], "--like", "316L"), "--gauge-length"),
    "bare number": (("fit", COUPON, "--width", "0.5", "--like", "316L"), "--width"),
    "nothing": (("fit", COUPON, "--width", "0 mm", "--like", "316L"), "not above zero"),
    "strange role": ((*PULLED, "--unit", "colour=red"), "--unit stress=MPa"),
    "role twice": ((*PULLED, "--unit", "stress=MPa", "--unit", "stress=ksi"), "twice"),
    "strange class": ((*PULLED, "--machine-class", "7"), "--machine-class 1"),
    "strange kind": ((*PULLED, "--kind", "both"), "kind"),
    "trial option": ((*PULLED, "--wall", "2 mm"), "--wall goes with --trial"),
    "trial paper": ((*PULLED, "--tensile", "650 MPa"), "--tensile goes with --trial"),
    "tensile option": ((*FORMED, "--width", "20 mm"), "leave --width out"),
    "no wall": (("fit", "--trial", CYLINDER, "--like", "1.4307"), '--wall "2.0 mm"'),
    "half a paper": (
        ("fit", "--trial", CYLINDER, "--like", "1.4307", "--wall", "2 mm", *PAPER[:2]),
        "--tensile is missing",
    ),
    "two trials": (("fit", "--trial", CYLINDER, CYLINDER, "--like", "1.4307"), "one file"),
    "no table": (("fit", BOAT, "--like", "1.4307"), "try:"),
    "strange output": ((*PULLED, "--output", "own.txt"), "own.toml"),
    "no folder": ((*PULLED, "--output", "nowhere/own.toml"), "folder"),
    "strange name": ((*PULLED, "--output", "my own.toml"), "letters, digits"),
    "strange picture": ((*PULLED, "--picture", "own.jpg"), "own.svg"),
}


@pytest.mark.parametrize("name", list(MISTAKES))
def test_a_mistake_ends_with_its_place_and_cure_and_leaves_nothing(name, tmp_path):
    arguments, said = MISTAKES[name]
    done = run(*arguments, folder=tmp_path)
    assert done.code == 2, done.out + done.err
    assert done.out == ""
    assert said in done.err
    assert "\n  try: " in done.err and "Traceback" not in done.err
    assert list(tmp_path.iterdir()) == []


def test_mistakes_of_several_files_are_told_together(tmp_path):
    for name in ("first.csv", "second.csv"):
        (tmp_path / name).write_text("Stress (MPa);Strain (%)\n1;2\n", encoding="utf-8")
    done = run("fit", "first.csv", "second.csv", "--like", "1.4307", folder=tmp_path)
    assert done.code == 2
    assert "first.csv" in done.err and "second.csv" in done.err

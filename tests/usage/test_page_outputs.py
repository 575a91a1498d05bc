"""Page, card and tables as a person gets them: the numbers of the JSON, the same bytes again.

The golden pages hold what a page says and how it is built, every number as # and pictures by
their titles only: numbers are held to the JSON, pictures to their own rules. After a wanted
change of words or order look at the new pages, then renew them with

    STRETCHFORM_RENEW_GOLDEN=1 python -m pytest tests/usage/test_page_outputs.py
"""

import csv
import hashlib
import json
import os
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import openpyxl
import page_reading
import pytest
from command_runs import BOAT, CISTERN, READINGS, ROOT, edited, environment, run

GOLDEN = Path(__file__).parent / "golden"
RENEW = "STRETCHFORM_RENEW_GOLDEN"
JOBS = {"boat": BOAT, "cistern": CISTERN}
PSI = 6894.757293168
COLD = {BOAT: ('"16 °C"', '"2 °C"'), CISTERN: ('"64 °F"', '"36 °F"')}


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Function: everything that a run of plan writes, and what it shows as JSON."""

    @cache
    def once(name, seed="1"):
        place = tmp_path_factory.mktemp(f"{name}-{seed}")
        files = {"page": place / "plan.html", "card": place / "card.html"}
        files["tables"] = place / "tables"
        options = [part for key, path in files.items() for part in (f"--{key}", path)]
        done = run("plan", JOBS[name], "--json", *options, PYTHONHASHSEED=seed)
        assert done.code == 0, done.err
        assert done.err.count("written: ") == len(list(files["tables"].iterdir())) + 2
        return json.loads(done.out), files

    return once


@cache
def screen_of(name):
    return " ".join(run("plan", JOBS[name]).out.split())


def words(path):
    return page_reading.said(page_reading.body(path.read_text(encoding="utf-8")))


def table(files, name):
    path = files["tables"] / f"invented-plan-{name}.csv"
    with path.open(encoding="utf-8-sig", newline="") as opened:
        return list(csv.DictReader(opened))


def pressure(value, name):
    """As people read it: MPa, and bar or psi in brackets."""
    places = 3
    first = f"{value / 1e6:.{places}f}"
    second = value / (PSI if name == "cistern" else 1e5)
    return first, second


@pytest.mark.parametrize("name", JOBS)
def test_every_pressure_and_size_is_that_of_the_json_everywhere(name, made):
    data, files = made(name)
    screen = screen_of(name)
    page, card = words(files["page"]), words(files["card"])
    cells = {row["pressure"]: row for row in table(files, "pressures")}
    for kind in ("forming pressure", "maximum pressure"):
        band = data[kind.replace(" ", "_")]
        for part in ("low", "likely", "high"):
            first, _ = pressure(band[part], name)
            for output in (screen, page, card):
                assert re.search(rf"(?<![\d.]){re.escape(first)} \(", output), (kind, part)
            column = f"gauge at the top of the tank, {part} [MPa]"
            # 12 digits are kept in tables
            assert float(cells[kind][column]) == pytest.approx(band[part] / 1e6, rel=1e-11)
    for step, row in zip(data["steps"], table(files, "steps"), strict=True):
        for key, column in (("pressure", "pressure to set"), ("gauge_reading", "gauge shows")):
            first, second = pressure(step[key], name)
            # on a screen of an inch job the second unit stands in a line of its own
            assert re.search(rf"(?<![\d.]){re.escape(first)}(?!\d)", screen)
            for output in (page, card):
                found = re.findall(rf"(?<![\d.]){re.escape(first)}(?: MPa)? \(([\d.]+)", output)
                # four digits of the second unit, or one place of psi
                near = pytest.approx(second, abs=0.06)
                assert any(float(other) == near for other in found), (key, first)
            assert float(row[f"{column} [MPa]"]) == pytest.approx(step[key] / 1e6, rel=1e-11)


@pytest.mark.parametrize("name", JOBS)
def test_every_circumference_is_that_of_the_json_everywhere(name, made):
    data, files = made(name)
    screen = screen_of(name)
    page, card = words(files["page"]), words(files["card"])
    for station, row in zip(data["stations"], table(files, "stations"), strict=True):
        released = station["released"]["outside_circumference_band"]
        under = station["under_pressure"]["outside_circumference"]
        for value in (*released.values(), under, station["before"]["outside_circumference"]):
            for output in (screen, page, card):
                assert f"{1e3 * value:.1f}" in output
        assert float(row["circumference released, likely [mm]"]) == pytest.approx(
            1e3 * released["likely"], rel=1e-11
        )
        for part in ("low", "likely", "high"):
            assert f"{100 * station['released']['growth'][part]:.2f}" in page
            strength = station["released"]["gained_yield_strength"][part]
            assert f"{strength / 1e6:.0f}" in page
    rows = iter(table(files, "tape"))
    for step in data["steps"]:
        for station in step["stations"]:
            row = next(rows)
            for key, column in (("go_on_below", "go on below"), ("stop_above", "stop above")):
                if station[key] is None:
                    assert row[f"{column} [mm]"] == ""
                    continue
                for output in (card, page):
                    assert f"{1e3 * station[key]:.1f}" in output
                assert float(row[f"{column} [mm]"]) == pytest.approx(
                    1e3 * station[key], rel=1e-11
                )
            for part, value in station["circumference"].items():
                assert f"{1e3 * value:.1f}" in card, part


@pytest.mark.parametrize("name", JOBS)
def test_energies_water_and_plates_are_those_of_the_json(name, made):
    data, files = made(name)
    page, card = words(files["page"]), words(files["card"])
    for key in ("water", "wall", "recoverable"):
        shown = f"{data['energy'][key] / 1e3:#.3g} kJ"
        assert shown in page
        assert shown in card
    (energy,) = table(files, "energy")
    assert float(energy["let loose at once [kJ]"]) == pytest.approx(
        data["energy"]["recoverable"] / 1e3, rel=1e-11
    )
    assert f"{1e3 * data['stops']['water']:.1f} l" in card
    assert f"{1e3 * data['stops']['drum']:.1f} l" in page
    for plate in data["plates"]:
        for value in (plate["travel"], plate["tab_clearance"]["after"], plate["arm"]["length"]):
            assert f"{1e3 * value:.2f}" in page
    checks = sum(len(plate["checks"]) for plate in data["plates"])
    assert not checks or len(table(files, "plate-checks")) == checks


@pytest.mark.parametrize("name", JOBS)
def test_a_workbook_holds_the_same_as_its_lists(name, made):
    _, files = made(name)
    book = openpyxl.load_workbook(files["tables"] / "invented-plan.xlsx")
    assert len(book.sheetnames) == len(list(files["tables"].glob("*.csv")))
    for title in ("stations", "steps", "tape"):
        header, *rows = book[title].iter_rows(values_only=True)
        for row, listed in zip(rows, table(files, title), strict=True):
            for head, cell in zip(header, row, strict=True):
                if isinstance(cell, int | float):
                    assert float(listed[head]) == cell
                else:
                    assert listed[head] == (cell or "")


def digests(files):
    paths = [files["page"], files["card"], *sorted(files["tables"].iterdir())]
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in paths}


def test_a_second_run_gives_the_same_bytes(made):
    _, first = made("boat")
    _, second = made("boat", "77")
    assert first["page"] != second["page"]
    assert digests(first) == digests(second)


@pytest.mark.parametrize("name", JOBS)
def test_files_are_valid_small_and_keep_to_themselves(name, made):
    _, files = made(name)
    for kind in ("page", "card"):
        text = files[kind].read_text(encoding="utf-8")
        assert page_reading.faults(text) == []
        assert len(text.encode()) < 600_000


@pytest.mark.parametrize("job", list(COLD), ids=["boat", "cistern"])
def test_a_block_withholds_every_pressure_in_every_file(job, tmp_path, made):
    name = next(key for key, path in JOBS.items() if path == job)
    open_data, _ = made(name)
    cold = edited(job, tmp_path, COLD[job])
    done = run(
        "plan", cold, "--page", tmp_path / "p.html", "--card", tmp_path / "c.html", "--tables",
        tmp_path / "t",
    )  # fmt: skip
    assert done.code == 3
    values = [open_data[kind][part] for kind in ("forming_pressure", "maximum_pressure")
              for part in ("low", "likely", "high")]  # fmt: skip
    values += [step["pressure"] for step in open_data["steps"]]
    files = [tmp_path / "p.html", tmp_path / "c.html", *(tmp_path / "t").glob("*.csv")]
    for path in files:
        text = path.read_text(encoding="utf-8-sig")
        kept = text if path.suffix == ".csv" else " ".join(page_reading.read(text).itertext())
        for value in values:
            number = f"{value / 1e6:.3f}".replace(".", r"\.")
            assert not re.search(rf"(?<![\d.]){number}(?!\d)", kept), path.name
    assert "WITHHELD" in words(tmp_path / "p.html")
    assert "Do not pump" in words(tmp_path / "c.html")
    assert not list((tmp_path / "t").glob("*growth-curve*"))


def test_a_comparison_has_its_page_and_tables(tmp_path):
    page, folder = tmp_path / "c.html", tmp_path / "t"
    done = run("compare", BOAT, READINGS[BOAT], "--json", "--page", page, "--tables", folder)
    assert done.code == 0
    data = json.loads(done.out)
    assert page_reading.faults(page.read_text(encoding="utf-8")) == []
    said = words(page)
    with (folder / "invented-comparison-growths.csv").open(
        encoding="utf-8-sig", newline=""
    ) as f:
        rows = list(csv.DictReader(f))
    for item, row in zip(data["rows"], rows, strict=True):
        assert f"{1e3 * item['measured']:.1f} mm" in said
        assert f"{100 * item['difference']:+.2f}" in said
        assert float(row["growth measured [%]"]) == pytest.approx(
            100 * item["measured_growth"], rel=1e-11
        )
    assert "INVENTED EXAMPLE" in said
    check_golden("boat-comparison", page)


@pytest.mark.parametrize(
    ("options", "problem"),
    [
        (["--page", "plan.pdf"], "no kind of page"),
        (["--card", "card"], "no kind of page"),
        (["--page", "no/such/plan.html"], "does not exist"),
        (["--tables", "job.toml"], "need a folder"),
        (["--page", "a.html", "--card", "./a.html"], "the same file"),
    ],
)
def test_a_place_that_cannot_be_written_is_refused_before_anything(options, problem, tmp_path):
    job = edited(BOAT, tmp_path).rename(tmp_path / "job.toml")
    before = job.read_bytes()
    done = run("plan", job, *options, folder=tmp_path)
    assert (done.code, done.out) == (2, "")
    assert problem in done.err
    assert "try: " in done.err
    assert list(tmp_path.iterdir()) == [job]
    assert job.read_bytes() == before


def skeleton(path):
    """A page with numbers as #, pictures by their titles, and without its style."""
    text = path.read_text(encoding="utf-8")
    text = re.sub(r"<style>.*?</style>", "<style></style>", text, flags=re.DOTALL)
    title = re.compile(r"<svg .*?(<title[^>]*>.*?</title>).*?</svg>", re.DOTALL)
    text = title.sub(lambda found: f"<svg>{found[1]}</svg>", text)
    text = re.sub(r"\b[0-9a-f]{16}\b", "#", text)
    text = re.sub(r"\d+(?:\.\d+)+|\d+", "#", text)
    return re.sub(r"[-+]?#(?:/[-+]?#)*", "#", text)


def check_golden(name, path):
    golden = GOLDEN / f"{name}.html"
    if os.environ.get(RENEW):
        golden.write_text(skeleton(path), encoding="utf-8")
    assert skeleton(path) == golden.read_text(encoding="utf-8"), f"to renew: {RENEW}=1"


@pytest.mark.parametrize("kind", ["page", "card"])
@pytest.mark.parametrize("name", JOBS)
def test_pages_say_what_the_golden_pages_say(name, kind, made):
    _, files = made(name)
    check_golden(f"{name}-{kind}", files[kind])


def test_the_example_script_draws_the_pictures_of_the_page(tmp_path, made):
    script = ROOT / "examples/pictures_of_a_plan.py"
    done = subprocess.run(
        [sys.executable, script, tmp_path], env=environment(), capture_output=True, timeout=120
    )
    assert done.returncode == 0, done.stderr.decode()
    page = made("boat")[1]["page"].read_text(encoding="utf-8")
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names == [f"invented-{name}.svg" for name in ("energy", "growth", "profile", "tank")]
    for path in tmp_path.iterdir():
        description = re.search(r"<desc[^>]*>(.*?)</desc>", path.read_text(encoding="utf-8"))[1]
        assert description in page
        assert "invented" in path.read_text(encoding="utf-8")

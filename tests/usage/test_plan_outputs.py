"""The outputs of plan as a person and a program get them: danger first, numbers equal."""

import json
import re

import danger_first
import pytest
from command_runs import BOAT, CISTERN, READINGS, edited, run, run_on_terminal

JOBS = [BOAT, CISTERN]
COLD = {BOAT: ('"16 °C"', '"2 °C"'), CISTERN: ('"64 °F"', '"36 °F"')}


def ids(path):
    return path.stem


def row(text, start):
    """The numbers of the first line that starts with some words."""
    line = next(line for line in text.split("\n") if line.startswith(start))
    return [float(number) for number in re.findall(r"-?\d+\.?\d*", line.removeprefix(start))]


@pytest.mark.parametrize("job", JOBS, ids=ids)
def test_the_danger_stands_first_piped_drawn_and_in_json(job):
    assert danger_first.faults_of_screen(run("plan", job).out) == []
    assert danger_first.faults_of_screen(run_on_terminal("plan", job).out) == []
    assert danger_first.faults_of_json(run("plan", job, "--json").out) == []


@pytest.mark.parametrize("job", JOBS, ids=ids)
def test_the_screen_and_the_json_show_the_same_numbers(job):
    text, data = run("plan", job).out, json.loads(run("plan", job, "--json").out)
    second = 1e5 if job == BOAT else 6894.757
    for name, key in (("forming pressure  ", "forming"), ("maximum pressure  ", "maximum")):
        band = data[f"{key}_pressure"]
        shown = row(text, name)
        for index, part in enumerate(("low", "likely", "high")):
            assert shown[2 * index] == pytest.approx(band[part] / 1e6, abs=5e-4)  # 3 places
            assert shown[2 * index + 1] == pytest.approx(
                band[part] / second, abs=0.06
            )  # 1 or 2
    shares = data["share_of_maximum"]
    assert f"{100 * shares['pressure']:.0f} % of the pressure" in " ".join(text.split())
    mises = data["likely_basis"]["mises_at_test_rate"] / 1e6
    assert f"{mises:.3f} MPa" in text
    energy = data["energy"]["recoverable"]
    assert f"{energy / 1e3:#.3g} kJ" in text


def test_the_stations_of_screen_and_json_agree():
    text, data = run("plan", BOAT).out, json.loads(run("plan", BOAT, "--json").out)
    for station in data["stations"]:
        shown = row(text, station["name"])
        released = station["released"]["outside_circumference_band"]
        wanted = [
            station["height"],
            station["before"]["outside_circumference"],
            station["under_pressure"]["outside_circumference"],
            *(released[part] for part in ("low", "likely", "high")),
        ]
        millimetres = [1e3 * value for value in wanted]
        assert shown == pytest.approx(millimetres, abs=0.051)  # one place


def test_the_steps_of_screen_and_json_agree():
    text, data = run("plan", BOAT).out, json.loads(run("plan", BOAT, "--json").out)
    table = text.split("Steps, from the low side")[1]
    for number, step in enumerate(data["steps"], start=1):
        label = f"* {number}" if step["yielding"] else str(number)
        shown = row(table, f"{label:>4} ")
        assert shown[0] == pytest.approx(step["pressure"] / 1e6, abs=5e-4)  # 3 places
        assert shown[2] == pytest.approx(step["gauge_reading"] / 1e6, abs=5e-4)
        assert shown[4] == step["hold_s"] / 60.0
        read = row(table.split("What the tape reads")[1], f"{label:>6} ")
        station = step["stations"][0]
        likely, below = station["circumference"]["likely"], station["go_on_below"]
        assert read[0] == pytest.approx(1e3 * likely, abs=0.051)  # one place
        if below is not None:
            assert read[1] == pytest.approx(1e3 * below, abs=0.051)


@pytest.mark.parametrize("job", JOBS, ids=ids)
def test_a_withheld_plan_gives_no_pressure_anywhere(job, tmp_path):
    pressures = json.loads(run("plan", edited(job, tmp_path), "--json").out)
    cold = edited(job, tmp_path, COLD[job])
    text, piped = run("plan", cold), run("plan", cold, "--json")
    assert text.code == piped.code == 3
    data = json.loads(piped.out)
    assert data["forming_pressure"] is None
    assert data["withheld_by"] == ["cold_water"]
    assert danger_first.faults_of_screen(text.out, withheld=True) == []
    assert danger_first.faults_of_json(piped.out, withheld=True) == []
    for part in ("low", "likely", "high"):
        assert f"{pressures['forming_pressure'][part] / 1e6:.3f}" not in text.out
    assert not re.search(r"\d (bar|psi)\b", text.out)
    assert "BLOCK cold_water" in text.out


def test_an_accepted_block_is_shown_with_its_reason(tmp_path):
    line = '[accepted]\ncold_water = "no ice, shop foreman, 2026-02-03"\n[water]'
    done = run("plan", edited(BOAT, tmp_path, COLD[BOAT], ("[water]", line)))
    assert done.code == 0
    assert "accepted: no ice, shop foreman, 2026-02-03" in done.out
    assert "forming pressure " in done.out


def test_plates_of_a_withheld_plan_leave_with_its_code(tmp_path):
    done = run("plates", edited(BOAT, tmp_path, COLD[BOAT]))
    assert done.code == 3
    assert "BLOCK cold_water" in done.out
    assert not re.search(r"\d (bar|psi)\b", done.out)


def test_a_block_that_nothing_lifts_says_so(tmp_path):
    shut = ("[supply]", "[supply]\nvent = false")
    done = run("plan", edited(BOAT, tmp_path, shut))
    assert done.code == 3
    assert "no [accepted] line lifts this one" in done.out
    asked = ("[water]", '[accepted]\nno_vent = "it is fine, foreman, 2026-02-03"\n[water]')
    tried = run("plan", edited(BOAT, tmp_path, shut, asked))
    assert tried.code in (2, 3)  # refused, or withheld all the same
    assert "forming pressure  " not in tried.out


def test_compare_gives_the_same_numbers_to_people_and_programs():
    text = run("compare", BOAT, READINGS[BOAT]).out
    data = json.loads(run("compare", BOAT, READINGS[BOAT], "--json").out)
    assert data["invented_example"] is True
    assert {item["quantity"] for item in data["rows"]} == {"under pressure", "released"}
    for item in data["rows"]:
        assert f"{1e3 * item['measured']:.1f} mm" in text
        assert f"{100 * item['difference']:+.2f}" in text


def test_a_reading_far_off_is_marked_and_explained(tmp_path):
    text = READINGS[BOAT].read_text(encoding="utf-8")
    worst = re.sub(r"21\d\d\.\d", lambda number: f"{float(number[0]) + 30:.1f}", text)
    assert worst != text
    (tmp_path / "readings.csv").write_text(worst, encoding="utf-8")
    done = run("compare", BOAT, tmp_path / "readings.csv")
    assert done.code == 0
    assert "does not follow the forecast" in " ".join(done.out.split())

"""Every command on the examples: exit code, words, width, and nothing left behind."""

import pytest
from command_runs import BOAT, CISTERN, CODES, READINGS, ROOT, edited, run, run_on_terminal

from stretchform.commands.group import COMMANDS, group

DONE = {
    "steels": ("steels",),
    "one steel": ("steels", "304L"),
    "a steel that needs a certificate": ("steels", "1.4301"),
    "check boat": ("check", BOAT),
    "check cistern": ("check", CISTERN),
    "plan boat": ("plan", BOAT),
    "plan cistern": ("plan", CISTERN),
    "plates": ("plates", BOAT),
    "plates by name": ("plates", BOAT, "--plate", "ring"),
    "compare boat": ("compare", BOAT, READINGS[BOAT]),
    "compare cistern": ("compare", CISTERN, READINGS[CISTERN]),
    "compare at a pressure": ("compare", BOAT, READINGS[BOAT], "--pressure", "25.5 bar"),
    "help": ("--help",),
    "version": ("--version",),
}


@pytest.mark.parametrize("name", list(DONE))
def test_a_command_does_its_work_in_eighty_plain_columns(name):
    done = run(*DONE[name])
    assert done.code == 0, done.err
    assert done.err == ""
    assert done.out.strip()
    assert [line for line in done.lines if len(line) > 80] == []
    assert not CODES.search(done.out)


@pytest.mark.parametrize("name", ["plan boat", "plan cistern", "steels", "compare boat"])
def test_a_screen_without_unicode_gets_plain_letters(name):
    done = run(*DONE[name], PYTHONIOENCODING="ascii")
    assert done.code == 0, done.err
    assert done.out.isascii()
    assert [line for line in done.lines if len(line) > 80] == []


def test_the_c_locale_is_enough():
    done = run(
        "plan", BOAT, LC_ALL="C", PYTHONCOERCECLOCALE=0, PYTHONUTF8=0, PYTHONIOENCODING=""
    )
    assert done.code == 0, done.err
    assert "16 deg C" in done.out


@pytest.mark.parametrize("name", ["plan boat", "check cistern", "steels", "compare cistern"])
def test_a_terminal_gets_drawn_tables_within_its_width(name):
    done = run_on_terminal(*DONE[name])
    assert done.code == 0
    assert CODES.search(done.out)
    assert "─" in done.out
    assert [line for line in done.lines if len(CODES.sub("", line)) > 80] == []


def test_without_colour_the_screen_says_the_same():
    coloured = run_on_terminal("plan", BOAT)
    plain = run_on_terminal("plan", BOAT, NO_COLOR=1)
    dumb = run_on_terminal("plan", BOAT, TERM="dumb")
    assert CODES.sub("", coloured.out) == CODES.sub("", plain.out)
    assert not CODES.search(dumb.out)
    assert dumb.out == run("plan", BOAT).out


@pytest.mark.parametrize("name", COMMANDS)
def test_a_command_has_help_and_stands_in_the_readme(name):
    help_text = run(name, "--help").out
    assert f"stretchform {name}" in help_text
    assert len(help_text.split()) > 15  # more than its usage line
    assert f"stretchform {name}" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_list_of_commands_is_the_folder_of_commands():
    inner = {"__init__", "group", "output", "screen", "usage"}
    files = {path.stem for path in (ROOT / "stretchform/commands").glob("*.py")}
    assert files - inner == set(COMMANDS)
    assert all(group.get_command(None, name).name == name for name in COMMANDS)


def test_new_writes_a_job_that_can_be_planned(tmp_path):
    made = run("new", "tank.toml", folder=tmp_path)
    assert made.code == 0
    assert "stretchform check tank.toml" in made.out
    assert run("check", "tank.toml", folder=tmp_path).code == 0
    assert run("plan", "tank.toml", folder=tmp_path).code == 0


def test_new_leaves_an_existing_file_alone(tmp_path):
    kept = tmp_path / "tank.toml"
    kept.write_text("mine", encoding="utf-8")
    done = run("new", "tank.toml", folder=tmp_path)
    assert done.code == 2
    assert "try: stretchform new tank-2.toml" in done.err
    assert kept.read_text(encoding="utf-8") == "mine"


def test_check_reports_every_mistake_of_a_file(tmp_path):
    changes = (('"900 mm"', '"900"'), ('"3 mm"', '"3,0 mm"'), ('"16 °C"', '"16 degrees"'))
    done = run("check", edited(BOAT, tmp_path, *changes))
    assert done.code == 2
    assert done.out == ""
    assert done.err.count("\n  try: ") == 3
    assert "Traceback" not in done.err


def test_a_job_of_another_language_is_shown_on_an_ascii_screen(tmp_path):
    job = edited(BOAT, tmp_path, ("Deck tank 2", "Cuve n° 2 – Ägir"))
    done = run("check", job, PYTHONIOENCODING="ascii")
    assert done.code == 0
    assert "Cuve ndeg  2 - ?gir" in done.out


def test_steels_shows_the_source_and_the_way_of_every_number():
    out = run("steels", "1.4404").out
    for word in ("youngs modulus", "nbsir-80-1627", "seen", "derived", "memory", "stress316l"):
        assert word in out


def test_a_part_of_a_name_lists_the_steels_that_fit():
    out = run("steels", "316").out  # one steel is called exactly so
    assert "Steel 1.4401" in out
    several = run("steels", "nitrogen").out
    assert "1.4311" in several
    assert "1.4318" in several
    assert "1.4404" not in several


def test_an_unknown_steel_is_refused_with_a_near_one():
    done = run("steels", "1.4370")
    assert done.code == 2
    assert "try: stretchform steels 1.43" in done.err


def test_plates_of_an_unknown_name_are_refused_with_the_known_ones():
    done = run("plates", BOAT, "--plate", "disc")
    assert done.code == 2
    assert "there are: ring\n  try: stretchform plates" in done.err


def test_a_tank_without_plates_is_refused_where_plates_are_asked_for():
    done = run("plates", CISTERN)
    assert done.code == 2
    assert "no plates inside" in done.err


def test_examples_say_that_they_are_invented():
    for arguments in (("check", BOAT), ("plan", BOAT), ("plates", BOAT), DONE["compare boat"]):
        assert "INVENTED EXAMPLE" in run(*arguments).out

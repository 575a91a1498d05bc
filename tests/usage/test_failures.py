"""What goes wrong ends in one message and a code: mistakes, faults, closed pipes, Ctrl-C."""

import subprocess
import sys

import pytest
from command_runs import BOAT, ROOT, environment, run

from stretchform import __main__ as program
from stretchform import actions

HEAVY = ("numpy", "scipy", "pint", "rich", "pydantic", "pandas")
WRONG = {
    "an unknown command": (("plna", "tank.toml"), "try: stretchform plan tank.toml"),
    "no job": (("plan",), "try: stretchform plan tank.toml"),
    "one argument too many": (("check", "a", "b"), "try: stretchform check tank.toml"),
    "an unknown option": (("plan", "a", "--jason"), "try: stretchform plan tank.toml"),
    "no command": (("--frobnicate",), "try: stretchform plan tank.toml"),
    "a job that is not there": (("plan", "nothing.toml"), "\n  try: "),
    "a folder": (("check", "."), "\n  try: "),
    "a pressure without unit": (("compare", "a", "b", "--pressure", "26"), '"26'),
}


@pytest.mark.parametrize("name", list(WRONG))
def test_a_wrong_call_is_answered_with_place_problem_and_a_cure(name):
    arguments, cure = WRONG[name]
    done = run(*arguments)
    assert done.code == 2
    assert done.out == ""
    assert cure in done.err
    assert "Traceback" not in done.err


@pytest.mark.parametrize("argument", ["--help", "--version"])
def test_help_and_version_load_nothing_heavy(argument):
    code = (
        "import sys; sys.argv = ['stretchform', sys.argv[1]]\n"
        "from stretchform.__main__ import main\n"
        "try: main()\n"
        f"finally: sys.stderr.write(repr([m for m in {HEAVY!r} if m in sys.modules]))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, argument],
        cwd=ROOT,
        env=environment(),
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0
    assert done.stderr == "[]"


def test_a_fault_of_ours_is_one_sentence_and_code_1(monkeypatch, capsys):
    def broken(path, quick):
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr(actions, "plan", broken)
    monkeypatch.delenv("STRETCHFORM_TRACEBACK", raising=False)
    assert program.run(["plan", str(BOAT)]) == 1
    said = capsys.readouterr().err
    assert said.startswith("this is a fault of stretchform, not of your input")
    assert "Traceback" not in said


def test_the_traceback_of_a_fault_is_shown_to_who_asks_for_it(monkeypatch, capsys):
    def broken(path, quick):
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr(actions, "plan", broken)
    monkeypatch.setenv("STRETCHFORM_TRACEBACK", "1")
    assert program.run(["plan", str(BOAT)]) == 1
    assert "Traceback" in capsys.readouterr().err


def test_ctrl_c_ends_without_a_traceback(monkeypatch, capsys):
    def stopped(path, quick):
        raise KeyboardInterrupt

    monkeypatch.setattr(actions, "plan", stopped)
    assert program.run(["plan", str(BOAT)]) == 130
    assert capsys.readouterr().err.startswith("stopped")


@pytest.mark.parametrize("arguments", [("plan", str(BOAT)), ("steels",), ("--help",)])
def test_a_reader_that_leaves_early_is_no_trouble(arguments):
    process = subprocess.Popen(
        [sys.executable, "-m", "stretchform", *arguments],
        cwd=ROOT,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    process.stdout.close()
    assert process.stderr.read() == b""
    assert process.wait(timeout=60) == 0
    process.stderr.close()

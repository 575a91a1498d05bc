"""Run the command line as a person does, in a process of its own, and see what comes back."""

import os
import pty
import re
import subprocess
import sys
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
BOAT = ROOT / "examples/survey-boat-deck-tank.toml"
CISTERN = ROOT / "examples/rain-cistern.toml"
READINGS = {job: job.with_name(f"{job.stem}-readings.csv") for job in (BOAT, CISTERN)}
_READ_ONLY = {"plan", "plates", "compare", "check", "--json", "--quick"} | {
    str(path) for path in (BOAT, CISTERN, *READINGS.values())
}
CODES = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")
_TERMINAL_KEYS = ("TERM", "NO_COLOR", "COLORTERM", "COLUMNS", "FORCE_COLOR", "PYTHONUTF8")


@dataclass(frozen=True, slots=True)
class Result:
    code: int
    out: str
    err: str

    @property
    def lines(self):
        return self.out.split("\n")


def environment(**more):
    """The environment without what shapes a screen, and with what the test asks for."""
    kept = {key: value for key, value in os.environ.items() if key not in _TERMINAL_KEYS}
    kept |= {"PYTHONIOENCODING": "utf-8", "PYTHONPATH": str(ROOT)}
    return kept | {key: str(value) for key, value in more.items()}


def run(*arguments, folder=ROOT, **more):
    """One command, piped; one that only reads the examples is run once for all tests."""
    words = tuple(map(str, arguments))
    if folder == ROOT and all(word in _READ_ONLY for word in words):
        return _once(words, tuple(sorted(more.items())))
    return _run(words, folder, more)


@cache
def _once(words, more):
    return _run(words, ROOT, dict(more))


def _run(arguments, folder, more):
    done = subprocess.run(
        [sys.executable, "-m", "stretchform", *map(str, arguments)],
        cwd=folder,
        env=environment(**more),
        capture_output=True,
        timeout=60,
    )
    encoding = more.get("PYTHONIOENCODING") or "utf-8"
    return Result(done.returncode, done.stdout.decode(encoding), done.stderr.decode(encoding))


def run_on_terminal(*arguments, **more):
    """One command on a terminal of 80 columns that draws and colours."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "stretchform", *map(str, arguments)],
        cwd=ROOT,
        env=environment(COLUMNS=80, **{"TERM": "xterm-256color", **more}),
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
    )
    os.close(theirs)
    parts = []
    while True:
        try:
            part = os.read(ours, 65536)
        except OSError:  # the other end is closed
            break
        if not part:
            break
        parts.append(part)
    os.close(ours)
    text = b"".join(parts).decode("utf-8").replace("\r\n", "\n")
    return Result(process.wait(timeout=60), text, "")


def edited(path, folder, *changes):
    """A copy of an example with some of its text replaced."""
    text = path.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new, 1)
    copy = folder / path.name
    copy.write_text(text, encoding="utf-8")
    return copy

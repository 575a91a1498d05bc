"""Time ratios against a reference in the same run: a report, never a timed assertion.

Run:  python -m pytest tests/benchmarks -m benchmark -s
Each row gives the ratio and the one we want; what is asserted is only that the work timed was
the right work. Best of several runs, since other programs only ever make a run slower.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest
from laws import LAWS

from stretchform.forming import criterion, membrane
from stretchform.forming.criterion import Shape

ROOT = Path(__file__).resolve().parents[2]
COUNT = 1_000_000
BATCH = 10_000  # fits the cache; draws are worked on in batches of about this size
STEEL = membrane.Elastic(193e9, 0.29)
STATE = criterion.mises(Shape.CLOSED)
RADIUS, WALL = 0.5, 0.003
BARE_START = (
    "import numpy, scipy.optimize, click, rich.console, rich.table, pydantic, pint; "
    "pint.UnitRegistry()"
)

pytestmark = pytest.mark.benchmark


def best(work, repeats):
    """Shortest of several runs, in seconds, and what the last one returned."""
    times, result = [], None
    for _ in range(repeats):
        start = time.perf_counter()
        result = work()
        times.append(time.perf_counter() - start)
    return min(times), result


@pytest.fixture
def report(request):
    """Write one row of the table on the terminal, captured or not."""
    writer = request.config.get_terminal_writer()
    capture = request.config.pluginmanager.getplugin("capturemanager")

    def row(what, ours, reference, wanted):
        with capture.global_and_fixture_disabled():
            writer.line(
                f"\n{what:<44}{1e3 * ours:>10.1f} ms{1e3 * reference:>10.1f} ms"
                f"{ours / reference:>8.1f} times   wanted: at most {wanted}"
            )

    return row


def in_batches(work, values):
    return np.concatenate([work(part) for part in np.split(values, len(values) // BATCH)])


@pytest.fixture(scope="module")
def strains():
    return np.random.default_rng(1).uniform(0.02, 0.20, COUNT)


@pytest.fixture(scope="module")
def bare_power(strains):
    """Seconds for numpy.power on the same numbers, in the same batches."""
    return best(lambda: in_batches(lambda part: np.power(part, 0.45), strains), 7)[0]


def pressures(strains):
    return membrane.pressure(RADIUS, WALL, strains, LAWS["H"], STATE, STEEL)


def test_a_million_pressures_of_a_power_law(report, strains, bare_power):
    ours, found = best(lambda: in_batches(pressures, strains), 5)
    report("1e6 pressures in batches / numpy.power", ours, bare_power, 12)
    whole = best(lambda: np.power(strains, 0.45), 5)[0]
    report(
        "1e6 pressures at once / numpy.power", best(lambda: pressures(strains), 5)[0], whole, 12
    )
    one = float(membrane.pressure(RADIUS, WALL, float(strains[7]), LAWS["H"], STATE, STEEL))
    assert found[7] == pytest.approx(one, rel=1e-14)


def test_a_million_growths_from_pressure(report, strains, bare_power):
    given = pressures(strains)
    top = membrane.maximum(RADIUS, WALL, LAWS["H"], STATE, STEEL)

    def growths(part):
        strain = membrane.strain_at_pressure(part, RADIUS, WALL, LAWS["H"], STATE, STEEL, top)
        return np.expm1(STATE.hoop_strain * strain)

    ours, found = best(lambda: in_batches(growths, given), 3)
    report("1e6 growths in batches / numpy.power", ours, bare_power, 120)
    whole = best(lambda: np.power(strains, 0.45), 5)[0]
    report("1e6 growths at once / numpy.power", best(lambda: growths(given), 2)[0], whole, 120)
    np.testing.assert_allclose(found, np.expm1(STATE.hoop_strain * strains), rtol=1e-9)


def run(*arguments):
    """A fresh process of this interpreter; its output, after it ended well."""
    environment = {**os.environ, "NO_COLOR": "1", "COLUMNS": "80"}
    done = subprocess.run(
        [sys.executable, *arguments],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
    assert done.returncode in (0, 3), done.stdout + done.stderr  # 3: a plan withheld
    return done.stdout


def example_jobs():
    found = sorted((ROOT / "examples").rglob("*.toml"))
    return [path for path in found if "[target]" in path.read_text(encoding="utf-8")]


def test_a_fresh_plan(report):
    jobs = example_jobs()
    assert jobs, "examples/ holds no job to plan"
    bare = best(lambda: run("-c", BARE_START), 5)[0]
    for job in jobs:
        for options, wanted in ((["--quick"], 2), ([], 4)):  # closed form; whole tank
            words = ["-m", "stretchform", "plan", *options, str(job)]
            ours, printed = best(lambda given=tuple(words): run(*given), 5)
            name = " ".join(["plan", *options, str(job.relative_to(ROOT))])
            report(f"{name} / bare imports", ours, bare, wanted)
            assert "pressure" in printed


def test_fresh_help(report):
    bare = best(lambda: run("-c", "pass"), 7)[0]
    ours, printed = best(lambda: run("-m", "stretchform", "--help"), 7)
    report("--help / python -c pass", ours, bare, 6)
    assert "plan" in printed

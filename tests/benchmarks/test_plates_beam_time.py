"""Time of one arm by the beam and of a set of plates: a report, never a timed assertion.

Run:  python -m pytest tests/benchmarks -m benchmark -s
What is asserted is that the timed mesh is accurate enough to count.
"""

import time
from dataclasses import replace

import pytest

from stretchform.plates.beam import Strip, solve
from stretchform.plates.case import PlateCase
from stretchform.plates.design import size
from stretchform.plates.options import propose
from stretchform.steel.curve import Ludwik

pytestmark = pytest.mark.benchmark
STEEL = Ludwik(230e6, 1256e6, 0.66)  # invented
E = 195e9
RING = PlateCase(
    kind="single",
    radius=0.3515,
    wall=3e-3,
    growth_under_pressure=0.0518,
    springback=0.0018,
    pressure=3.3e6,
    thickness=1.5e-3,
    depth=7e-3,
    length=None,
    tabs=3,
    clearance=3e-3,
    tab_length=20e-3,
    curve=STEEL,
    ring_width=60e-3,
)


@pytest.fixture
def say(request):
    writer = request.config.get_terminal_writer()
    capture = request.config.pluginmanager.getplugin("capturemanager")

    def line(text):
        with capture.global_and_fixture_disabled():
            writer.line(text)

    return line


def timed(work, repeats=3):
    times, result = [], None
    for _ in range(repeats):
        start = time.process_time()
        result = work()
        times.append(time.process_time() - start)
    return min(times), result


def test_one_beam_and_twenty_plates(say):
    arm = Strip(10e-3, 1.5e-3, 95e-3, True)
    one, coarse = timed(lambda: solve(arm, 17.5e-3, STEEL, E))
    fine = solve(arm, 17.5e-3, STEEL, E, elements=160, steps=30)
    assert coarse.root_strain == pytest.approx(fine.root_strain, rel=0.03)  # the asked accuracy
    say(f"\nbridge by the beam {1e3 * one:.0f} ms   wanted: at most 150 ms")
    growths = [0.03 + 0.001 * index for index in range(20)]
    cases = [replace(RING, growth_under_pressure=growth) for growth in growths]
    many, found = timed(lambda: [size(case, exact=True) for case in cases], repeats=1)
    assert all(result.method == "beam" for result in found)
    say(f"twenty different plates by the beam {many:.1f} s   wanted: at most 3 s")
    choice, proposal = timed(lambda: propose(RING), repeats=1)
    assert proposal.chosen is not None
    say(f"one proposal with its table {choice:.1f} s")

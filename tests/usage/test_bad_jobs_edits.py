"""Random edits of the examples end in a job or in an error that names place and cure.

The seeds are fixed. A handful runs with every test; the campaign runs
5000 times STRETCHFORM_CAMPAIGN edits.
"""

from math import isfinite
from pathlib import Path

import pytest
from bad_jobs import GOOD
from job_edits import edited

from stretchform.errors import InputErrors, StretchformError
from stretchform.files.job import read_job
from stretchform.files.judged import load_judged
from stretchform.planning.build import build
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.plan import Plan
from stretchform.planning.tank import HeadShape

EXAMPLES = Path(__file__).parents[2] / "examples"
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.toml"))] + [GOOD]
FULL = 5000


def outcome(text: str, path: Path) -> Job | StretchformError:
    """What reading a text ends in; anything but these two is a fault of ours and escapes."""
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    try:
        return read_job(path)
    except StretchformError as error:
        return error


def _assert_told(result: Job | StretchformError, text: str) -> None:
    if isinstance(result, Job):
        return
    assert result.exit_code in (2, 3)
    for one in result.errors if isinstance(result, InputErrors) else (result,):
        assert one.where and one.problem and one.fix, text
        assert str(one).isprintable() or all(c.isprintable() or c == "\n" for c in str(one)), (
            str(one)
        )


def _run(count: int, folder: Path) -> tuple[int, int]:
    """Numbers of jobs read and of errors told."""
    read = 0
    for seed in range(count):
        text = edited(TEXTS[seed % len(TEXTS)], seed)
        result = outcome(text, folder / "tank.toml")
        _assert_told(result, text)
        read += isinstance(result, Job)
    return read, count - read


def test_a_few_hundred_random_edits_end_in_a_job_or_an_error_with_place_and_cure(tmp_path):
    read, told = _run(250, tmp_path)
    assert read > 25  # a tenth: the edits must not all be so coarse that nothing is read
    assert told > 25


@pytest.mark.campaign
def test_thousands_of_random_edits_end_in_a_job_or_an_error_with_place_and_cure(
    tmp_path, scaled_campaign
):
    count = scaled_campaign(FULL)
    read, told = _run(count, tmp_path)
    assert read + told == count
    assert min(read, told) > 0.1 * count


def _planned(text: str, path: Path, judged: Judged) -> Plan | StretchformError:
    """What the quick plan of a text ends in."""
    job = outcome(text, path)
    if not isinstance(job, Job):
        return job
    try:
        return build(job, judged, quick=True)
    except StretchformError as error:
        return error


def _assert_sense(found: Plan) -> None:
    """A stated pressure that makes no sense for this wall is told."""
    told = {name for c in found.cautions if c.code == "stated_pressure" for name in c.names}
    station = found.stations[0]
    course = next(c for c in found.job.tank.courses if c.name == station.course)
    relief = found.job.supply.relief_pressure
    growth, wall = station.growth_released.likely, station.wall_released
    if relief is None or not (isfinite(growth) and isfinite(wall)):
        return
    ends = (found.job.tank.bottom.shape, found.job.tank.top.shape)
    if HeadShape.TIED in ends or course.radius / course.wall < 10.0:
        return
    hoop = float(relief) * float(course.radius) * (1.0 + growth) / float(wall)
    ratio = hoop / (station.gained_yield.likely / 0.95)
    if ratio < 0.65 or ratio > 1.6:  # 0.7 and 1.5, less what the factors between may move
        assert "relief pressure" in told, ratio


@pytest.mark.campaign
@pytest.mark.timeout(3600)
def test_accepted_edits_end_in_a_plan_or_a_reason_and_senseless_pressures_are_told(
    tmp_path, scaled_campaign
):
    judged, plans = load_judged(), 0
    for seed in range(scaled_campaign(FULL)):
        text = edited(TEXTS[seed % len(TEXTS)], seed)
        found = _planned(text, tmp_path / "tank.toml", judged)
        if isinstance(found, Plan):
            plans += 1
            _assert_sense(found)
        else:
            _assert_told(found, text)
    assert plans > 0

"""Random edits of the examples end in a job or in an error that names place and cure.

The seeds are fixed. A handful runs with every test; the campaign runs
5000 times STRETCHFORM_CAMPAIGN edits.
"""

from pathlib import Path

import pytest
from bad_jobs import GOOD
from job_edits import edited

from stretchform.errors import InputErrors, StretchformError
from stretchform.files.job import read_job
from stretchform.planning.job import Job

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

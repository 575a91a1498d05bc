"""What the job says of a plate that is not as usual."""

import planning_jobs as jobs
import pytest

from stretchform.planning.tank import Arm, ArmKind, Hand, PlateHole
from stretchform.report import tables, terminal_job


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"arm": Arm(ArmKind.SINGLE, 7e-3, None, 1, True, Hand.MIXED)}, "mixed hand"),
        ({"span": 2.0943951, "tabs": 2}, "segment of 120°"),
        ({"relieved": 1, "tabs": 2}, "1 of 2 tabs relieved"),
        ({"annealed": False}, "not annealed"),
        ({"holes": (PlateHole(0.02, 0.1, 0.0),)}, "holes: 1"),
    ],
)
def test_the_job_says_what_is_not_as_usual(fields, words):
    job = jobs.job(plates=(jobs.plate(**fields),))
    text = tables.plain(terminal_job.summary(job), 200)
    assert words in text
    assert words not in tables.plain(
        terminal_job.summary(jobs.job(plates=(jobs.plate(),))), 200
    )

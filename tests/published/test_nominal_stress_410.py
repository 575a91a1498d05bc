"""Against en-13458-2 and cold-stretching-slides: growth at a nominal hoop stress of 410 MPa.

Sources: the design stress 273 N/mm² for 304 and the factor 1.5 to the strengthening pressure were
seen in cold-stretching-review-2015; 273 x 1.5 = 410 N/mm² is en-13458-2's K, itself from memory.
That the diameter grows by up to 7 % was seen in cold-stretching-slides. The three certificates
are typical values that were seen on a producer's grade pages (mill-typical).
Frame: a closed cylinder without ends or water at p = 410 MPa t0/r0; growth under pressure of the
outside circumference, since the vessel is measured while it is held (the source does not say).
Bounds: 7 % is the most that practice reports, for all grades and coils; so the likely growth of
each grade lies from "it yields" (0.5 %) to 7 % and two points for the coil, and every band
reaches below 7 %. The bounds are set wide: the source gives no curve.
Counts, but weakly. Would fail for: the diameter taken for the radius, the design stress 273 taken
for 410, the factor 1.5 applied twice, and any stress a third too high or a fifth too low (the last
two tests show it); a wrong criterion or rate alone stays within these bounds.
"""

from functools import cache

import numpy as np
import planning_jobs as jobs
import pytest

from stretchform.planning import outcome, walls
from stretchform.steel.grade import Certificate

MPA = 1e6
NOMINAL = 410.0 * MPA
TYPICAL = {  # Rp0.2, Rp1.0, Rm in MPa, seen
    "1.4307": (295.0, 325.0, 650.0),
    "1.4404": (300.0, 325.0, 625.0),
    "1.4318": (360.0, 400.0, 750.0),
}


@cache
def band(grade, nominal=NOMINAL):
    """Growth under pressure over all draws; a draw that bursts counts as endless."""
    proof, proof_10, tensile = TYPICAL[grade]
    coil = Certificate(proof * MPA, tensile * MPA, proof_10 * MPA)
    one = jobs.course(steel=jobs.steel(grade, coil), length=3.0)
    found = jobs.closed(jobs.job(courses=[one]))
    pressure = np.array([nominal * one.wall / one.radius])
    return outcome.band(walls.growth_at_pressure(found.walls[0], pressure)[0][:, 0])


def test_the_nominal_stress_is_the_seen_design_stress_times_the_seen_factor():
    assert pytest.approx(410.0, abs=0.75) == 273.0 * 1.5  # 273 is a whole number: 0.5 x 1.5


@pytest.mark.parametrize("grade", list(TYPICAL))
def test_likely_growth_at_410_lies_between_half_a_point_and_nine(grade):
    assert 0.005 < band(grade).likely < 0.09


@pytest.mark.parametrize("grade", list(TYPICAL))
def test_the_band_at_410_reaches_below_the_seven_per_cent_of_practice(grade):
    assert band(grade).low < 0.07


def test_the_strongest_grade_grows_least():
    assert band("1.4318").likely < min(band("1.4307").likely, band("1.4404").likely)


@pytest.mark.parametrize(
    ("factor", "grade"),
    [(1.3, "1.4307"), (1.5, "1.4404"), (0.8, "1.4318"), (0.5, "1.4307"), (1 / 1.5, "1.4404")],
)
def test_a_stress_a_third_too_high_or_a_fifth_too_low_leaves_the_bounds(factor, grade):
    """The bounds are wide, but they do notice a wrong stress."""
    assert not 0.005 < band(grade, factor * NOMINAL).likely < 0.09

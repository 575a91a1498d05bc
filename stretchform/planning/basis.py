"""What the likely pressure rests on: the factors, and the pressures of plain criteria beside it.

The tank as its nominal sizes and curve describe it, without any sampled factor, at the speed of
a tensile test; Tresca's maximum is the survival check.
"""

import numpy as np

from stretchform.forming import criterion
from stretchform.forming.criterion import State
from stretchform.planning import conditions, target, walls
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.places import target_points
from stretchform.planning.plan import Band, LikelyBasis
from stretchform.si import Growth, Pascal


def basis(job: Job, judged: Judged, made: Forecast, forming: Band) -> LikelyBasis:
    """The factors between the curve and the likely pressure, Mises and Tresca beside it.

    Source: own-derivation, the closed form at the medians of the draws.
    Checked: tests/unit/test_basis.py (factors by hand; judged between Tresca and Mises).
    """
    shape, draws = walls.shape_of(job), made.draws
    mises = _at_target(job, judged, made, criterion.mises(shape))
    state = criterion.general(shape, float(np.median(draws.criterion)))
    if job.model.criterion:
        state = criterion.named(job.model.criterion, shape) or state
    tresca = _tresca_maximum(job, made)
    return LikelyBasis(
        criterion=job.model.criterion or "judged",
        criterion_factor=_at_target(job, judged, made, state) / mises,
        rate_factor=float(np.median(draws.rate)),
        springback_factor=float(np.median(draws.springback)),
        mises_at_test_rate=mises,
        tresca_maximum=tresca,
        survives_tresca=bool(tresca > forming.likely),
        curves=tuple(course.steel.basis.value for course in job.tank.courses),
        water_factor=float(np.median(draws.warmth)),
        courses=conditions.conditions(job, judged, _growth(job, judged, made)),
    )


def _growth(job: Job, judged: Judged, made: Forecast) -> Growth:
    return float(np.nanmax(target.growths(job, made.walls, judged.gained.likely.value)))


def _at_target(job: Job, judged: Judged, made: Forecast, state: State) -> Pascal:
    """Target pressure of the unsampled tank at the test's rate under one criterion.

    NaN where the target lies beyond the maximum under this criterion.
    """
    wanted = target.growths(job, made.walls, judged.gained.likely.value)
    found = []
    for index in target_points(job, made.points):
        number = made.points[index].course
        one = walls.unsampled(job, job.tank.courses[number], state)
        local = walls.pressure_at_outside(one, wanted[number], job.target.under_pressure)
        found.append(float(local[0, 0]) - float(made.heads_of_water[index]))
    return float(np.min(found))


def _tresca_maximum(job: Job, made: Forecast) -> Pascal:
    """Maximum pressure of the likely curve under Tresca at the end of a hold, weakest course."""
    state, draws = criterion.tresca(walls.shape_of(job)), made.draws
    hold = float(np.median(draws.rate) * np.median(draws.warmth))
    strength = np.median(draws.strength, axis=0)  # 1, or what a trial found
    heads = made.heads_of_water[-len(job.tank.courses) :]
    tops = [
        hold
        * float(factor)
        * float(np.ravel(walls.unsampled(job, course, state).top.pressure)[0])
        - float(head)
        for course, head, factor in zip(job.tank.courses, heads, strength, strict=True)
    ]
    return min(tops)

"""Holds: at constant pressure the wall goes on growing with the logarithm of time.

Growth after a time t is A ln(1 + v t/A): A the growth for each e-fold of time, v the rate of
growth on arrival. The hold that counts ends when the mean rate over the last half hour is below
0.1 % an hour. A rate that no longer falls is no hold but a tank running away.
"""

import numpy as np

from stretchform.planning.likely import Judged
from stretchform.planning.plan import Band, HoldGrowth, HoldPlan
from stretchform.si import Growth, PerSecond, Second

RATE_LIMIT: PerSecond = 0.001 / 3600.0  # 0.1 % an hour
WINDOW: Second = 1800.0
ELASTIC: Second = 120.0  # shortest holds: before yield, after it, and where the target may be
YIELDING: Second = 900.0
TARGET: Second = 1800.0
_SHOWN: tuple[float, ...] = (300.0, 900.0, 1800.0, 3600.0, 7200.0, 14400.0)


def growth_in_hold(per_e_fold: Growth, arrival_rate: PerSecond, time: Second) -> Growth:
    """Growth since the pressure of a step was reached.

        A ln(1 + v t/A)

    Source: own-derivation, rate sensitivity S of the flow stress at constant pressure; A = S
    over the net hardening of the wall.
    Checked: tests/unit/test_holds.py (integral of the rate; early and late limits).
    """
    ratio = np.multiply(arrival_rate, time) / np.asarray(per_e_fold)
    return np.asarray(np.multiply(per_e_fold, np.log1p(ratio)))[()]


def until_kept(
    per_e_fold: Growth,
    arrival_rate: PerSecond,
    limit: PerSecond = RATE_LIMIT,
    window: Second = WINDOW,
) -> Second:
    """Time after which the mean rate over the last window is at the limit.

        A ln((c + t)/(c + t − w)) = r w, so t = w/(1 − exp(−r w/A)) − c, c = A/v; at least w

    Source: own-derivation, the law of `growth_in_hold`.
    Checked: tests/unit/test_holds.py (mean rate over the window found).
    """
    share = -np.expm1(-np.multiply(limit, window) / np.asarray(per_e_fold))
    return np.asarray(np.maximum(window / share - np.divide(per_e_fold, arrival_rate), window))[
        ()
    ]


def hold_plan(judged: Judged) -> HoldPlan:
    """The expected growth in a hold with the judged prior, to be fitted on the day."""
    low, likely, high = (
        judged.creep.low.value,
        judged.creep.likely.value,
        judged.creep.high.value,
    )
    rate = judged.arrival_rate.value

    shown = tuple(
        HoldGrowth(
            time, Band(*(float(growth_in_hold(a, rate, time)) for a in (low, likely, high)))
        )
        for time in _SHOWN
    )
    return HoldPlan(
        per_e_fold=Band(low, likely, high),
        arrival_rate=rate,
        rate_limit=RATE_LIMIT,
        window=WINDOW,
        until_kept=Band(*(float(until_kept(a, rate)) for a in (low, likely, high))),
        growth=shown,
    )

"""When to stop for good, told in water, pressure and differences; and what the drum may hold.

The drum that the pump draws from is the limiter of growth: it holds what the likely tank needs
to its target, and never more than brings a tank of the low side to its growth limit.
"""

import numpy as np

from stretchform.planning import outcome, pumping
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.plan import Stops
from stretchform.si import Array, Growth

_MILLILITRE_A_MINUTE = 1e-6 / 60.0  # m³/s


def stops(
    job: Job,
    judged: Judged,
    made: Forecast,
    target: Growth,
    limit: Growth,
    springback: Growth,
) -> Stops:
    """All limits at which the work ends, apart from the stop values of the stations.

    `target` counts as the job asks; `limit` is the released growth at which to stop.

    Source: own-derivation, the forecast's water against its growth.
    Checked: tests/unit/test_stopping.py (drum between target and limit; fall by hand).
    """
    meant = outcome.at_target(job, made, made.growth_released)
    largest = outcome.largest(made.growth_released)
    water = pumping.water_in(job, judged, made, made.pressures, made.growth_released)
    released = target - springback if job.target.under_pressure else target
    needed = _at_growth(water, meant, released)
    at_target = outcome.band(needed)
    ceiling = outcome.band(_at_growth(water, largest, limit)).low
    give = pumping.compliance(job, judged, made)
    return Stops(
        growth=limit + springback,
        water=ceiling,
        drum=min(at_target.likely, ceiling),
        water_at_target=at_target,
        rise_per_water=_rise(made, water, needed),
        stations_apart=judged.stations_apart.value,
        compliance=give,
        compliance_off=judged.compliance_off.value,
        leak_fall=_MILLILITRE_A_MINUTE / float(give),
        small_steps_from=judged.gained.low.value,
    )


def _at_growth(water: Array, growth: Array, wanted: Growth) -> Array:
    """Water of each draw at a growth; infinite where it never gets there."""
    found = np.full(len(growth), np.inf)
    for row in range(len(growth)):
        known = np.isfinite(growth[row]) & np.isfinite(water[row])
        if np.any(known) and growth[row, known][-1] >= wanted:
            found[row] = np.interp(float(wanted), growth[row, known], water[row, known])
    return found


def _rise(made: Forecast, water: Array, needed: Array) -> float:
    """Likely rise of pressure for each cubic metre on the levels around the target."""
    found = []
    for row in np.flatnonzero(np.isfinite(needed)):
        known = np.isfinite(water[row])
        level, amount = made.pressures[known], water[row, known]
        place = int(np.clip(np.searchsorted(amount, needed[row]), 1, len(amount) - 1))
        found.append((level[place] - level[place - 1]) / (amount[place] - amount[place - 1]))
    return float(np.median(found)) if found else 0.0

"""Gauges, relief valve and pump, each told in growth: what it is worth and what it lets pass."""

import numpy as np

from stretchform.planning import forecast, outcome, size
from stretchform.planning.forecast import Forecast
from stretchform.planning.job import Gauge, Job
from stretchform.planning.plan import Band, GaugeWorth, Instruments
from stretchform.planning.tank import Attitude
from stretchform.si import Growth, Pascal, Ratio, Second
from stretchform.water import supply

REACTION: Second = 10.0  # until a person has stopped the pump


def instruments(
    job: Job, made: Forecast, forming: Band, points_per_per_cent: Ratio
) -> Instruments:
    """What the stated gauges, relief valve and pump mean at the target.

    Source: own-derivation, water.supply on the slope of the forecast.
    Checked: tests/unit/test_instruments.py (gauges, relief and pump by hand).
    """
    slope = points_per_per_cent / forming.likely
    stated = (("first", job.gauge), ("second", job.second_gauge))
    line = job.supply
    share = None
    if line.relief_flow is not None and line.flow is not None:
        share = float(supply.relief_share(line.relief_flow, line.flow))
    return Instruments(
        gauges=tuple(
            _worth(job, name, gauge, forming, slope) for name, gauge in stated if gauge
        ),
        relief_growth=_relief_growth(job, made),
        relief_share=share,
        reaction_growth=_reaction(job),
    )


def gauge_head(job: Job, gauge: Gauge | None) -> Pascal:
    """Water between the top of the tank and a gauge; a lying tank's counts as on top.

    Source: own-derivation, water.supply.water_head.
    Checked: tests/unit/test_instruments.py (9.8 kPa a metre).
    """
    if gauge is None or job.tank.attitude is Attitude.LYING:
        return 0.0
    above = size.top_height(job.tank) - gauge.height
    return float(supply.water_head(above, job.water.temperature))


def _worth(job: Job, name: str, gauge: Gauge, forming: Band, slope: Ratio) -> GaugeWorth:
    limit = float(supply.gauge_limit(gauge.range, gauge.accuracy_class))
    return GaugeWorth(
        name=name,
        range_share=float(supply.range_share(gauge.range, forming.likely)),
        limit=limit,
        growth=float(supply.worth_in_growth(limit, slope)),
        head=gauge_head(job, gauge),
    )


def _relief_growth(job: Job, made: Forecast) -> Band | None:
    """Largest released growth at 1.1 times the relief pressure; infinite beyond the maximum."""
    setting = job.supply.relief_pressure
    if setting is None:
        return None

    def growth_at(pressure: Pascal) -> Growth:
        at = np.array([float(pressure)])
        return outcome.largest(forecast.growth_at(made, at)[1])[:, 0]

    return outcome.band(np.asarray(supply.growth_at_relief(setting, growth_at)))


def _reaction(job: Job) -> Growth | None:
    """Growth while a person reacts, for the pump's flow or a hand pump at a stroke a second."""
    line = job.supply
    flow = line.flow
    if flow is None and line.kind == "hand pump" and line.stroke is not None:
        flow = float(line.stroke)
    if flow is None:
        return None
    return float(supply.growth_in_reaction(flow, REACTION, size.volume(job.tank)))

"""From the steel's curve to the wall in this water: temperature, martensite, speed, each shown.

A curve is pulled in a warm room in minutes; the wall flows in the job's water for hours. A trial
cylinder was read under pressure at the end of holds, so speed and water are in it already; it
is taken to have stood in water like that of the job.
"""

from dataclasses import dataclass

import numpy as np

from stretchform.planning.job import Job
from stretchform.planning.likely import Judged
from stretchform.planning.tank import Course
from stretchform.si import Celsius, Growth, Ratio
from stretchform.steel import effects
from stretchform.steel.effects import Band as StressBand
from stretchform.steel.effects import Effect
from stretchform.steel.grade import Basis, Steel
from stretchform.steel.martensite import Transformation, transformation

SOURCES = ("own-derivation", "own-judgement")

TEST: Celsius = 20.0  # of the room where a coupon or a certificate's test piece was pulled


@dataclass(frozen=True, slots=True)
class CourseConditions:
    """What one course's curve goes through before it stands for the wall."""

    course: str
    half_width: Ratio  # 5 to 95 % half-width of the flow stress, martensite allowed for
    martensite: Transformation
    stresses: tuple[StressBand, ...]  # flow stress near the target after each effect in turn


def verdict(steel: Steel, water: Celsius) -> Transformation:
    """Whether this steel turns to martensite in this water, by its names and its analysis.

    Source: own-judgement, steel.martensite with the analysis of the job's certificate.
    Checked: tests/unit/planning/test_conditions.py (stable, lean and transforming grades).
    """
    analysis = {} if steel.certificate is None else steel.certificate.analysis
    names = (steel.key, steel.key.split()[0], *steel.names)
    return transformation(names, analysis, water)


def covered(steel: Steel, water: Celsius) -> bool:
    """Whether the curve of a slow test in a warm room holds in this water.

    Source: own-judgement, no martensite, or a trial cylinder formed in such water.
    Checked: tests/unit/planning/test_conditions.py (each basis).
    """
    if steel.basis is Basis.TRIAL:
        return True
    return verdict(steel, water).covered and not steel.transforms


def half_width(steel: Steel, water: Celsius, judged: Judged) -> Ratio:
    """5 to 95 % half-width of the flow stress in this water.

        that of the steel; at least the one of typical values where martensite is not excluded

    A grade that is known to transform is as wide already when it comes from its file.

    Source: own-judgement, spread_typical in materials/forming.toml.
    Checked: tests/unit/planning/test_conditions.py (both sides of 20 K).
    """
    own = float(steel.strength_half_width)
    known = steel.transforms or covered(steel, water)
    return own if known else max(own, judged.spread_typical.value)


def water_effect(steel: Steel, water: Celsius) -> Effect:
    """Factor on flow stress from the room of the test to this water, without martensite.

        temperature law of 304 with plus or minus 2 % beyond 2 K; 1 for a trial cylinder; water
        outside 5 to 40 degC counts as the nearer of the two, and a caution stands by

    Source: own-judgement, steel.effects.temperature_effect.
    Checked: tests/unit/planning/test_conditions.py (cold, warm, trial).
    """
    if steel.basis is Basis.TRIAL:
        return Effect("temperature", 1.0, 1.0, 1.0)
    within = float(np.clip(water, effects.COLDEST, effects.WARMEST))
    return effects.temperature_effect(within, TEST)


def tank_effect(job: Job) -> Effect:
    """The water's effect on the courses that need one: all have the same temperature law.

    Source: own-judgement, see water_effect; courses of trial steels are freed from it later.
    Checked: tests/unit/planning/test_conditions.py (a tank of trial steel has none).
    """
    water = job.water.temperature
    steels = [course.steel for course in job.tank.courses]
    needing = [steel for steel in steels if steel.basis is not Basis.TRIAL]
    return water_effect((needing or steels)[0], water)


def rate_effect(steel: Steel, judged: Judged) -> Effect:
    """Factor on flow stress from the test's speed to the end of a hold; known after a trial.

    Source: own-judgement, rate in materials/forming.toml.
    Checked: tests/unit/planning/test_conditions.py (trial without spread).
    """
    rate = judged.rate
    if steel.basis is Basis.TRIAL:
        likely = rate.likely.value
        return Effect("rate", likely, likely, likely)
    return effects.rate_effect(rate.low.value, rate.likely.value, rate.high.value)


def conditions(job: Job, judged: Judged, growth: Growth) -> tuple[CourseConditions, ...]:
    """Each course's curve near a growth, step by step on its way to the wall.

    Source: own-derivation, steel.effects.bands with the effects above.
    Checked: tests/unit/planning/test_conditions.py (products and widths by hand).
    """
    return tuple(_conditions(job, judged, course, growth) for course in job.tank.courses)


def _conditions(job: Job, judged: Judged, course: Course, growth: Growth) -> CourseConditions:
    steel, water = course.steel, job.water.temperature
    strain = judged.criterion.likely.value * float(np.log1p(growth))
    strain = float(np.clip(strain, steel.curve.strain_start, steel.curve.strain_limit))
    width = half_width(steel, water, judged)
    steps = (rate_effect(steel, judged), water_effect(steel, water))
    stress = float(np.asarray(steel.curve.stress(np.float64(strain))))
    return CourseConditions(
        course=course.name,
        half_width=width,
        martensite=verdict(steel, water),
        stresses=effects.bands(stress, width, steps),
    )

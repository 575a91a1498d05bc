"""Every caution has its words: what it means, why it matters, what to do, and a source."""

import re
from dataclasses import fields, replace
from string import Formatter

import pytest
import report_plans
from planning_jobs import job

from stretchform.planning import cautions
from stretchform.planning.cautions import CODES, Caution, Facts, Level, Means
from stretchform.planning.job import Gauge, Model, Supply, Water
from stretchform.report import words

KINDS = {"pressure", "temperature", "percent", "share", "milligrams", "number", "litres", ""}
WORST = Facts(
    forming_high=3e6,
    forming_likely=2.6e6,
    maximum_low=2.7e6,
    share_of_pressure=0.97,
    share_of_growth=0.5,
    no_answer=0.2,
    maximum_within_curve=False,
    survives_tresca=False,
    growth_limit=0.06,
    growth_over_relief=float("inf"),
    stress_over_flow={"relief pressure": 12.0},
    whole=False,
    short=True,
    wrinkling={"head.top": 1.2},
    ahead={"lower": 0.061},
    near_head=("waist",),
    plates_near_head=("ring",),
    plates_failing=("ring",),
    thinnest=8.0,
    means=Means(
        air_limit=0.001,
        air_under_plates=0.004,
        relief_share=0.9,
        reaction_growth=0.002,
        reaction_allowed=0.001,
        water_ceiling=0.05,
        collapse=60e3,
        gauge_growth=0.003,
    ),
)


def _raised():
    """Cautions as the rules raise them, from jobs that are wrong in all ways at once."""
    jobs = [
        job(
            supply=Supply("hand pump", relief_pressure=2.9e6, vent=False),
            gauge=Gauge(range=60e6, accuracy_class=1.6, height=0.0),
            water=Water(temperature=2.0, chloride=300e-6),
            model=Model(criterion="mises", spread=False),
        ),
        job(
            supply=Supply("motor pump"),
            gauge=None,
            water=Water(temperature=45.0, chloride=90e-6),
        ),
        job(supply=Supply(), water=Water()),
        job(supply=Supply("hand pump", relief_pressure=2.9e6, metered=0.07)),
    ]
    found = {}
    for one in jobs:
        found |= {caution.code: caution for caution in cautions.judge(one, WORST)}
    full_of_air = replace(WORST, means=replace(WORST.means, air_as_water=0.002))
    airy = cautions.judge(jobs[0], full_of_air)
    return found | {item.code: item for item in airy if item.code == "trapped_air_high"}


RAISED = _raised()


def test_every_code_has_a_text_and_every_text_a_code():
    assert set(words.TEXTS) == CODES


@pytest.mark.parametrize("code", sorted(CODES))
def test_a_text_has_all_headings_in_whole_sentences(code):
    text = words.TEXTS[code]
    assert {field.name for field in fields(text)} >= {"short", *words.HEADINGS}
    for heading in ("short", "means", "why", "do"):
        written = getattr(text, heading)
        assert written[0].isupper() or written[0] == "["
        assert written.endswith(".")
    assert len(text.short) <= 90  # with its level in at most two lines of a screen
    assert text.source in report_plans.SOURCES


@pytest.mark.parametrize("code", sorted(CODES))
def test_the_numbers_of_a_text_have_known_kinds(code):
    for _, name, kind, _ in Formatter().parse(words.TEXTS[code].detail):
        assert name is None or kind in KINDS


def test_the_rules_raise_enough_cautions_to_try_the_texts():
    assert len(RAISED) >= 25  # of 40: the others need another steel, shape or tank


@pytest.mark.parametrize("code", sorted(RAISED))
def test_a_raised_caution_fills_its_text(code):
    line = words.line(RAISED[code])
    assert "{" not in line
    assert "nan" not in line
    shown = set(re.findall(r"\{(\w+):", words.TEXTS[code].detail))
    assert shown <= set(RAISED[code].numbers)


def test_numbers_in_the_text_are_those_of_the_case():
    numbers = {"relief": 2.9e6, "maximum": 2.7e6}
    caution = Caution("relief_above_maximum", Level.BLOCK, numbers)
    assert "valve 2.900 MPa (29.00 bar)" in words.line(caution)
    assert "valve 2.900 MPa (420.6 psi)" in words.line(caution, inches=True)


def test_growth_beyond_the_maximum_is_said_in_words():
    assert "beyond the maximum" in words.line(RAISED["relief_growth"])


@pytest.mark.parametrize("code", [c for c, t in words.TEXTS.items() if t.tells_pressure])
def test_a_withheld_plan_keeps_numbers_that_tell_a_pressure(code):
    caution = RAISED[code]
    assert words.line(caution, withheld=True) == words.TEXTS[code].short
    assert words.line(caution) != words.TEXTS[code].short


def test_every_detail_with_a_pressure_of_the_forecast_is_kept_back():
    telling = {code for code, text in words.TEXTS.items() if ":pressure}" in text.detail}
    assert {code for code in telling if not words.TEXTS[code].tells_pressure} == set()

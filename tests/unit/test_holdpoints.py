"""Hold points: their order, the rule on coming near, their numbers and their words."""

from dataclasses import replace

import pytest

from stretchform.planning import holdpoints
from stretchform.planning.holdpoints import Facts, When
from stretchform.report import words_holdpoints

FACTS = Facts(  # invented
    first_yield=1.6e6,
    forming=2.9e6,
    relief=2.6e6,
    air_limit=1.4e-3,
    compliance=1.5e-9,
    compliance_off=0.15,
    drum=0.054,
    water_stop=0.065,
    step_growth=0.005,
    stations_apart=0.003,
    shortest_hold=1800.0,
    rate_limit=2.8e-7,
    returned=5e-3,
)
POINTS = holdpoints.hold_points(FACTS)
BY_CODE = {point.code: point for point in POINTS}


def test_hold_points_stand_in_the_order_of_the_work():
    order = list(When)
    places = [order.index(point.when) for point in POINTS]
    assert places == sorted(places) and set(places) == set(range(len(order)))
    assert len(BY_CODE) == len(POINTS)


def test_a_look_from_near_ends_at_half_of_the_earliest_first_yield():
    assert BY_CODE["leak_look"].numbers["pressure"] == 0.8e6
    codes = [point.code for point in POINTS]
    assert codes.index("leak_look") < codes.index("all_out") < codes.index("each_step")


def test_first_strokes_stay_low():
    assert BY_CODE["first_strokes"].numbers["pressure"] == 0.5e6
    weak = holdpoints.hold_points(replace(FACTS, first_yield=0.4e6))
    strokes = next(point for point in weak if point.code == "first_strokes")
    assert strokes.numbers["pressure"] == 0.2e6


def test_without_a_relief_valve_no_setting_is_shown():
    points = holdpoints.hold_points(replace(FACTS, relief=None))
    means = next(point for point in points if point.code == "means")
    assert "relief" not in means.numbers
    assert "set to" not in words_holdpoints.must(means)


def test_every_point_has_words_and_every_word_a_point():
    assert set(words_holdpoints.WORDS) == set(BY_CODE)


@pytest.mark.parametrize("code", list(BY_CODE))
def test_words_show_their_numbers_and_hide_what_is_withheld(code):
    shown = words_holdpoints.must(BY_CODE[code])
    assert "{" not in shown and shown.endswith(".")
    hidden = words_holdpoints.must(BY_CODE[code], withheld=True)
    if words_holdpoints.WORDS[code].tells_pressure:
        assert "MPa" not in hidden
    else:
        assert hidden == shown
    assert words_holdpoints.WORDS[code].otherwise


def test_nobody_comes_near_after_the_first_yield():
    rule = words_holdpoints.APPROACH
    assert "From then on nobody" in rule and "both gauges read zero" in rule

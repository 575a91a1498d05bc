"""Pictures of the tank, of growth along its shell and of a comparison."""

import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import numpy as np
import pytest
import report_plans
from planning_jobs import JUDGED
from test_chart import SVG, assert_words_stand_apart, texts

from stretchform.planning.compare import Reading, compare
from stretchform.report import chart, chart_tank
from stretchform.report import words_numbers as numbers


def compared():
    plan = report_plans.shown()
    readings = [
        Reading(
            item.name,
            item.circumference_before,
            item.circumference_under_pressure.likely,
            item.circumference_released.likely + 1e-3,
        )
        for item in plan.stations
    ]
    return compare(plan.job, JUDGED, tuple(readings))


DRAWN = {
    "tank": lambda inches: chart.tank(report_plans.shown(), inches),
    "profile": lambda inches: chart.profile(report_plans.shown(), inches),
    "comparison": lambda inches: chart.comparison(compared()),
}


@pytest.mark.parametrize("name", list(DRAWN))
@pytest.mark.parametrize("inches", [False, True])
def test_words_stand_apart_and_bytes_repeat(name, inches):
    picture = DRAWN[name](inches)
    assert_words_stand_apart(picture)
    assert picture.svg == DRAWN[name](inches).svg
    assert len(picture.svg) < 60_000
    assert any(text.endswith(("mm", "%")) for text in texts(picture.svg))


@pytest.mark.parametrize("name", list(DRAWN))
def test_names_of_anything_are_drawn_as_they_are(name):
    wild = report_plans.wild()
    if name == "comparison":
        found = compared()
        rows = tuple(replace(row, station="<b>&\"'</b> $x$ 水") for row in found.rows)
        picture = chart.comparison(replace(found, rows=rows))
        assert "<b>&\"'</b> $x$ 水" in texts(picture.svg)
    else:
        picture = getattr(chart, name)(wild)
        assert any("<script>" in text for text in texts(picture.svg))
    assert ET.fromstring(picture.svg).tag == f"{SVG}svg"


def test_eight_stations_and_courses_stand_apart():
    assert_words_stand_apart(chart.tank(report_plans.wild()))


def test_the_outline_after_is_drawn_larger_by_the_factor_that_is_stated():
    plan = report_plans.shown()
    picture = chart.tank(plan)
    factor = chart_tank.enlargement(plan.profile)
    assert factor > 1
    assert f"its movement drawn {factor} times too large" in " ".join(texts(picture.svg))
    moved = 1e3 * factor * (plan.profile.radius_released - plan.profile.radius_before)
    wanted = 1e3 * plan.profile.radius_before + moved
    drawn = [line.get_xdata() for line in picture.figure.axes[0].get_lines()]
    assert any(np.array_equal(line, wanted) for line in drawn)
    assert any(np.array_equal(line, -1e3 * plan.profile.radius_before) for line in drawn)
    width, height = picture.figure.axes[0].get_window_extent().size
    across, upward = (np.ptp(limits) for limits in _limits(picture))
    # a millionth: the same scale both ways but for rounding
    assert width / across == pytest.approx(height / upward, rel=1e-6)


def _limits(picture):
    axes = picture.figure.axes[0]
    return axes.get_xlim(), axes.get_ylim()


def test_a_tank_that_hardly_moves_is_drawn_as_it_is():
    still = replace(
        report_plans.shown().profile,
        radius_released=report_plans.shown().profile.radius_before,
        height_released=report_plans.shown().profile.height_before,
    )
    assert chart_tank.enlargement(still) == 1
    picture = chart.tank(replace(report_plans.shown(), profile=still))
    assert "drawn at true size" in " ".join(texts(picture.svg))


def test_the_profile_is_the_plan_s_own_with_its_band_target_stations_and_plates():
    plan = report_plans.shown()
    picture = chart.profile(plan)
    axes = picture.figure.axes[0]
    drawn = [line.get_xdata() for line in axes.get_lines()]
    shown = plan.profile
    for side in (shown.released_low, shown.released_likely, shown.released_high):
        assert any(np.array_equal(line, 100.0 * side[np.isfinite(side)]) for line in drawn)
    said = " ".join(texts(picture.svg))
    assert f"target {100 * plan.target_growth:.2f} %" in said
    for station in plan.stations:
        assert station.name in said
        assert numbers.percent(station.growth_released.likely) in said
    assert f"ring: {len(plan.plates)} plates" in said
    assert axes.collections  # the band


def test_without_a_profile_the_sheet_says_why():
    for picture in (chart.tank(report_plans.quick()), chart.profile(report_plans.quick())):
        assert not picture.figure.axes
        assert "--quick" in " ".join(texts(picture.svg))


def test_a_withheld_plan_shows_sizes_and_no_pressure():
    for picture in (
        chart.tank(report_plans.withheld()),
        chart.profile(report_plans.withheld()),
    ):
        assert not re.search(r"MPa|bar\b|psi", picture.svg)


def test_the_comparison_shows_every_reading_with_its_difference():
    found = compared()
    said = texts(chart.comparison(found).svg)
    for row in found.rows:
        wanted = f"{numbers.percent(row.measured_growth)} ({100 * float(row.difference):+.2f})"
        assert wanted in said
    nothing = chart.comparison(replace(found, rows=()))
    assert not nothing.figure.axes

"""Every picture: the same bytes each time, words that are text, readable in grey, nothing cut."""

import os
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from dataclasses import replace
from io import BytesIO
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stretchform import actions
from stretchform.files.judged import load_judged
from stretchform.planning.build import build
from stretchform.planning.plan import Band
from stretchform.report import chart
from stretchform.report import chart_look as look

EXAMPLE = Path(__file__).parents[3] / "examples" / "survey-boat-deck-tank.toml"
SIX = ("1.4307", "1.4307 hot rolled", "1.4307 plate", "1.4404", "1.4404 cold rolled", "1.4318")
DRIVERS = [("strength of the steel", 0.58), ("loading rate and end of the hold", 0.42)]
SVG = "{http://www.w3.org/2000/svg}"
NAMES = ["growth", "energy", "drivers", "steel", "typical", "steels"]


@pytest.fixture(scope="module")
def plan():
    return quick_plan(actions.check(EXAMPLE))


def quick_plan(job):
    """By the closed form: a picture shows the plan that it is given, whatever made it."""
    return build(job, load_judged(), quick=True)


def steel(name):
    return actions.steel_with_curve(actions.steel_card(name))


def drawn(plan):
    points = actions.measured_points(actions.steel_card("1.4404"))
    return {
        "growth": chart.growth(plan),
        "energy": chart.energy(plan),
        "drivers": chart.drivers(DRIVERS),
        "steel": chart.steel(steel("1.4404"), points),
        "typical": chart.steel(steel("1.4307")),
        "steels": chart.steels([steel(name) for name in SIX]),
    }


@pytest.fixture(scope="module")
def pictures(plan):
    return drawn(plan)


def texts(svg):
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("name", NAMES)
def test_a_picture_drawn_again_has_the_same_bytes(name, plan, pictures):
    again = drawn(plan)[name]
    assert pictures[name].svg == again.svg == again.svg
    assert pictures[name].png == again.png


def test_settings_of_the_user_and_the_hash_seed_change_nothing(tmp_path, pictures):
    settings = tmp_path / "matplotlibrc"
    settings.write_text(
        "font.size: 20\nlines.linewidth: 9\nsvg.fonttype: path\naxes.grid: False\n"
    )
    script = (
        "import sys; from stretchform import actions; from stretchform.report import chart;"
        "s = actions.steel_with_curve(actions.steel_card('1.4307'));"
        "sys.stdout.write(chart.steel(s).svg);"
        "assert 'matplotlib.pyplot' not in sys.modules"
    )
    surroundings = os.environ | {"MATPLOTLIBRC": str(settings), "PYTHONHASHSEED": "5"}
    ran = subprocess.run(
        [sys.executable, "-c", script], env=surroundings, capture_output=True, check=True
    )
    assert ran.stdout.decode() == pictures["typical"].svg


def test_drawing_leaves_the_settings_of_the_process_alone(plan):
    import matplotlib

    before = dict(matplotlib.rcParams)
    assert chart.growth(plan).svg
    assert dict(matplotlib.rcParams) == before


@pytest.mark.parametrize("name", NAMES)
def test_words_stay_text_and_say_the_units(name, pictures):
    found = texts(pictures[name].svg)
    assert any("%" in text for text in found)
    if name not in ("energy", "drivers"):
        assert any("MPa" in text for text in found)
    root = ET.fromstring(pictures[name].svg)
    assert root.find(f"{SVG}title").text == pictures[name].title
    assert len(root.find(f"{SVG}desc").text) > 40
    assert not re.search(r"\d{4}-\d\d-\d\d|[Mm]atplotlib", pictures[name].svg)


@pytest.mark.parametrize("name", NAMES)
def test_there_is_no_legend_and_no_picture_in_the_picture(name, pictures):
    assert all(axes.get_legend() is None for axes in pictures[name].figure.axes)
    assert "<image" not in pictures[name].svg


def boxes(picture):
    """Text and its box in dots, of all words that are shown."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.text import Text

    shown = set(texts(picture.svg))  # numbers of the axes outside of what is seen are not
    with look.drawing(picture.name):
        canvas = FigureCanvasAgg(picture.figure)
        canvas.draw()
        renderer = canvas.get_renderer()
        words = picture.figure.findobj(Text)
        seen = [word for word in words if shown.intersection(word.get_text().split("\n"))]
        return [(word.get_text(), Text.get_window_extent(word, renderer)) for word in seen]


def assert_words_stand_apart(picture):
    sheet = picture.figure.bbox
    found = [pair for pair in boxes(picture) if pair[1].width > 1]
    assert len(found) > 4
    for text, box in found:
        # one dot: letters are set on whole dots
        assert box.x0 >= -1 and box.y0 >= -1, text
        assert box.x1 <= sheet.x1 + 1 and box.y1 <= sheet.y1 + 1, text
    for (one, first), (other, second) in combinations(found, 2):
        across = min(first.x1, second.x1) - max(first.x0, second.x0)
        upward = min(first.y1, second.y1) - max(first.y0, second.y0)
        # two dots of height: a box holds the room of letters with tails
        assert across <= 1 or upward <= 2, f"{one!r} lies on {other!r}"


@pytest.mark.parametrize("name", NAMES)
def test_no_words_are_cut_or_lie_on_each_other(name, pictures):
    assert_words_stand_apart(pictures[name])


@pytest.mark.parametrize("growth", [0.006, 0.02, 0.07, 0.11])
@pytest.mark.parametrize("spread", [True, False])
def test_words_stand_apart_for_small_and_large_targets(growth, spread, plan):
    target = replace(plan.job.target, value=growth)
    job = replace(plan.job, target=target, model=replace(plan.job.model, spread=spread))
    planned = replace(quick_plan(job), withheld_by=())
    assert_words_stand_apart(chart.growth(planned, inches=True))


def luminance(colour):
    """Relative luminance of a colour as in the web's contrast rule."""
    from matplotlib.colors import to_rgb

    parts = [
        c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in to_rgb(colour)
    ]
    return float(np.dot([0.2126, 0.7152, 0.0722], parts))


def contrast(one, other):
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


ROLES = (look.LIKELY, look.TARGET, look.MAXIMUM, look.LIMIT)


@pytest.mark.parametrize("stroke", [*look.SERIES, *ROLES])
def test_every_line_stands_out_in_grey(stroke):
    # 4.5: what small print needs on its ground
    for ground in ("white", look.BAND.colour, look.DANGER_BAND.colour):
        assert contrast(stroke.colour, ground) >= 4.5


def test_lines_that_are_compared_differ_without_colour():
    dashes = [stroke.dashes for stroke in look.SERIES]
    assert len(set(dashes)) == len(dashes)
    assert len({stroke.dashes for stroke in ROLES}) == len(ROLES)


def test_the_dashes_reach_the_svg(pictures):
    curves = re.findall(r"stroke-dasharray: ([\d.,]+)", pictures["steels"].svg)
    assert len(set(curves)) == len(look.SERIES) - 1  # the first one is unbroken


def test_the_band_is_seen_on_a_grey_print(pictures):
    from PIL import Image

    grey = np.asarray(Image.open(BytesIO(pictures["typical"].png)).convert("L"))
    shades, counts = np.unique(grey, return_counts=True)
    common = {int(shade) for shade, count in zip(shades, counts, strict=True) if count > 5000}
    band = round(255 * np.dot([0.299, 0.587, 0.114], _rgb(look.BAND.colour)))
    # one step of grey: rounding of the conversion
    assert any(abs(shade - band) <= 1 for shade in common)
    assert 255 - band >= 20  # a twelfth of the way to black: seen on any printer


def _rgb(colour):
    from matplotlib.colors import to_rgb

    return to_rgb(colour)


def test_the_curve_drawn_is_the_plan_s_own(plan):
    axes = chart.growth(plan).figure.axes[0]
    known = np.isfinite(plan.growth.released_likely)
    wanted = 100.0 * plan.growth.released_likely[known]
    lines = [line for line in axes.get_lines() if line.get_linewidth() == look.LIKELY.width]
    assert any(np.array_equal(line.get_xdata(), wanted) for line in lines)
    shown = " ".join(texts(chart.growth(plan).svg))
    assert f"{plan.forming_pressure.likely / 1e6:.2f} MPa" in shown
    assert f"{plan.maximum_pressure.likely / 1e6:.2f} MPa" in shown


def test_measured_points_are_all_drawn(pictures):
    points = actions.measured_points(actions.steel_card("1.4404"))
    lines = pictures["steel"].figure.axes[0].get_lines()
    assert any(len(line.get_xdata()) == len(points[0]) for line in lines)
    assert f"{len(points[0])} measured points" in texts(pictures["steel"].svg)


def test_an_invented_example_says_so(plan, pictures):
    assert plan.job.example
    assert "invented" in pictures["growth"].title
    assert any("invented" in text for text in texts(pictures["energy"].svg))


def test_a_withheld_plan_draws_no_pressure_and_no_energy(plan):
    hidden = replace(plan, withheld_by=("no_vent",))
    for picture in (chart.growth(hidden), chart.energy(hidden)):
        assert not picture.figure.axes
        assert not re.search(r"MPa|bar|psi|\d+ k?J", picture.svg)
        assert any("no_vent" in text for text in texts(picture.svg))


def test_a_plan_without_an_answer_is_drawn_without_its_numbers(plan):
    nothing = Band(np.nan, np.nan, np.nan)
    lost = replace(plan, forming_pressure=nothing, maximum_pressure=nothing)
    shown = " ".join(texts(chart.growth(lost).svg))
    assert "nan" not in shown
    assert "forming pressure" not in shown


ODD_NAMES = ["<b>&\"'</b> ]]>", "$x_1$ 100 % \\alpha", "Σ Κύτος 水槽", "n" * 120]


@pytest.mark.parametrize("name", ODD_NAMES)
def test_any_name_of_a_job_is_shown_as_it_is(name, plan):
    job = replace(plan.job, name=name, example=False)
    picture = chart.growth(replace(plan, job=job))
    heading = max(texts(picture.svg), key=lambda text: "Pressure against" in text)
    assert heading.startswith(f"Pressure against growth - {name}"[:70])
    assert (
        ET.fromstring(picture.svg)
        .find(f"{SVG}title")
        .text.startswith(f"Pressure against growth - {name}")
    )
    assert picture.png.startswith(b"\x89PNG")


def test_two_pictures_can_stand_on_one_page(pictures):
    def names(picture):
        return set(re.findall(r'\bid="([^"]+)"', picture.svg))

    for one, other in combinations(("growth", "energy", "drivers", "steel", "steels"), 2):
        assert not names(pictures[one]) & names(pictures[other])
    for name in NAMES:
        found = re.findall(r'\bid="([^"]+)"', pictures[name].svg)
        assert len(found) == len(set(found))
        used = re.findall(r'(?:href="#|url\(#)([^")]+)', pictures[name].svg)
        assert set(used) <= set(found)


def test_a_notebook_shows_a_picture_by_itself(pictures):
    assert pictures["growth"]._repr_svg_() == pictures["growth"].svg


def test_pictures_stay_small_enough_for_a_page(pictures):
    # 600 kB is what a whole page may weigh; nine pictures of 60 kB leave room for its text
    assert all(len(picture.svg) < 60_000 for picture in pictures.values())


@given(
    wanted=st.lists(st.floats(-50.0, 150.0), min_size=1, max_size=8),
    step=st.floats(0.5, 12.0),
)
def test_names_at_line_ends_never_lie_on_each_other(wanted, step):
    places = look.apart(sorted(wanted), step, 0.0, 100.0)
    gaps = np.diff(places)
    # rounding only
    assert np.all(gaps >= step - 1e-9)
    assert max(places) <= 100.0
    assert min(places) >= -1e-9


def test_names_with_room_stay_where_they_are_wanted():
    assert look.apart([10.0, 40.0, 80.0], 5.0, 0.0, 100.0) == [10.0, 40.0, 80.0]

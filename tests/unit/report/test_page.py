"""The page: valid, whole, danger first, nothing fetched, nothing withheld shown."""

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

import danger_first
import page_reading
import pytest
import report_plans
from page_reading import HTML, SVG

from stretchform.report import html, page, terminal, words_basis, words_page
from stretchform.report.tables import Lines, Table

PLANS = ["shown", "withheld", "accepted", "overstretched", "quick", "endless", "wild"]


def plan(name):
    return getattr(report_plans, name)()


@cache
def made(name, inches=False):
    return page.page(plan(name), report_plans.SOURCES, inches)


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("inches", [False, True])
def test_a_page_is_valid_and_keeps_to_itself(name, inches):
    assert page_reading.faults(made(name, inches)) == []


def test_the_reader_of_pages_finds_what_is_wrong():
    whole = made("shown")
    for old, new, fault in (
        ("<main", '<img alt="" src="x.png"><main', "from outside"),
        ('id="steps"', 'id="water"', "twice"),
        ('scope="row"', "", "does not say"),
        ("<h1>", "<h4>x</h4><h1>", "heading 4 after"),
        ("<tr>", "<tr><td>x</td></tr><tr>", "different length"),
    ):
        assert any(fault in item for item in page_reading.faults(whole.replace(old, new, 1)))
    with pytest.raises(Exception, match=r"unexpected|expected|eof"):
        page_reading.read(whole.replace("</section>", "</b></section>", 1))


@pytest.mark.parametrize("name", PLANS)
def test_the_danger_stands_before_the_name_of_the_plan(name):
    words = page_reading.said(page_reading.body(made(name)))
    first = words.removeprefix(words_basis.EXAMPLE).strip()
    hidden = bool(plan(name).withheld_by)
    assert danger_first.faults_of_screen(first, withheld=hidden) == []


@pytest.mark.parametrize("name", ["shown", "accepted", "quick", "wild"])
def test_the_parts_stand_in_the_order_of_reading(name):
    found = [item.get("id") for item in page_reading.body(made(name)).iter(f"{HTML}h2")]
    named = [item for item in found if item]
    order = [key for key in words_page.SECTIONS if key in named]
    assert named == order
    needed = set(words_page.SECTIONS) - {"heads"}  # a quick plan of no opening has none
    assert needed <= set(named)


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("inches", [False, True])
def test_all_that_the_screen_says_stands_on_the_page(name, inches):
    body = page_reading.body(made(name, inches))
    words = page_reading.said(body)
    rows = page_reading.rows(body)
    for block in terminal.plan_blocks(plan(name), report_plans.SOURCES, inches):
        if isinstance(block, Lines):
            for line in block.lines:
                wanted = " ".join(html.printable(line).strip().removeprefix("- ").split())
                assert wanted in words, line
        else:
            assert isinstance(block, Table)
            for row in block.rows:
                assert [" ".join(cell.split()) for cell in row] in rows, row


def test_the_page_has_a_picture_for_everything_that_can_be_drawn():
    names = re.findall(r'aria-labelledby="([a-z0-9-]+)-title', made("shown"))
    assert names == ["tank", "growth", "profile", "steel-1", "energy", "drivers"]


def test_courses_of_different_coils_have_a_picture_each():
    first = plan("shown").job.tank.courses[0]
    other = replace(first, steel=replace(first.steel, tensile=1.01 * first.steel.tensile))
    tank = replace(plan("shown").job.tank, courses=(first, other))
    both = replace(plan("shown"), job=replace(plan("shown").job, tank=tank))
    text = page.page(both, report_plans.SOURCES)
    assert 'aria-labelledby="steel-1-title' in text
    assert 'aria-labelledby="steel-2-title' in text
    assert page_reading.faults(text) == []


@pytest.mark.parametrize("name", ["withheld", "overstretched"])
@pytest.mark.parametrize("inches", [False, True])
def test_a_withheld_plan_gives_no_pressure_on_its_page(name, inches):
    text = made(name, inches)
    hidden = plan(name)
    words = " ".join(page_reading.read(text).itertext())
    # what the steel's picture says is strength, and the law of draining is of the empty tank
    kept = words.replace("0.101 MPa", "").replace("MPa (ksi)", "")
    bands = (hidden.forming_pressure, hidden.maximum_pressure)
    told = [value for item in bands for value in (item.low, item.likely, item.high)]
    told += [value for step in hidden.steps for value in (step.pressure, step.gauge_reading)]
    for value in told:
        number = f"{value / 1e6:.3f}".replace(".", r"\.")
        assert not re.search(rf"(?<![\d.]){number}(?!\d)", kept)
    assert "can let loose" not in kept
    assert "Steps, from the low side" not in kept
    assert "WITHHELD" in kept


def test_an_example_says_so_at_the_head_of_every_printed_page():
    text = made("shown")
    running = page_reading.body(text).find(f".//{HTML}header")
    assert page_reading.said(running) == words_basis.EXAMPLE
    style = text[text.index("@media print") : text.index("</style>")]
    assert re.search(
        r"\.running \{ display: table-header-group; break-inside: avoid; \}", style
    )
    job = replace(plan("shown").job, example=False, name="own tank", note="")
    own = page_reading.body(page.page(replace(plan("shown"), job=job), report_plans.SOURCES))
    assert page_reading.said(own.find(f".//{HTML}header")) == ""
    words = page_reading.said(own).replace("invented = for examples only", "")
    assert "nvented" not in words


def test_print_rules_keep_rows_whole_and_repeat_heads():
    text = made("shown")
    style = text[text.index("@media print") : text.index("</style>")]
    assert "thead { display: table-header-group; }" in style
    assert re.search(r"tr, figure[^{]*\{ break-inside: avoid; \}", style)
    assert re.search(r"h1, h2, h3, caption[^{]*\{ break-after: avoid; \}", style)


def test_names_with_markup_stay_names():
    body = page_reading.body(made("wild"))
    words = page_reading.said(body)
    for name in report_plans.WILD_NAMES:
        assert name in words
    title = page_reading.said(next(body.iter(f"{HTML}h1")))
    assert title == 'Plan: </title><h1>Tank & "co" 水 خزان'
    assert not list(body.iter(f"{HTML}script"))
    counts = [
        re.match(r"(?:<b>ring</b>|-@=plate), (\d+) of", row[0])
        for row in page_reading.rows(body)
    ]
    # rows that say how many equal plates they stand for; the others stand for one
    assert sum(int(found[1]) for found in counts if found) >= 30


def test_pictures_of_a_page_name_themselves():
    for picture in page_reading.body(made("shown")).iter(f"{SVG}svg"):
        assert picture.get("role") == "img"
        assert len(picture.find(f"{SVG}title").text) > 5
        assert len(picture.find(f"{SVG}desc").text) > 20


def test_the_same_plan_gives_the_same_page():
    assert made("shown") == page.page(plan("shown"), report_plans.SOURCES)
    assert len(made("shown").encode()) < 600_000
    assert len(made("wild").encode()) < 600_000


def test_headwords_are_set_off_and_nothing_is_lost():
    for _, texts in html._grouped(("ENERGY: much", "- a", "- b", "  why: so")):
        for text in texts:
            assert "".join(html._headword(text)) == text
    assert html._headword("ENERGY: much")[0] == "ENERGY:"
    assert html._headword("Energy: much")[0] == ""
    kinds = [kind for kind, _ in html._grouped(("plain", "- a", "- b", "  set in"))]
    assert kinds == ["plain", "list", "hang"]
    assert all(one != other for one, other in pairwise(kinds))

"""Plain tables stay within their width, keep every word and line up their numbers."""

import re

from hypothesis import given
from hypothesis import strategies as st

from stretchform.report import tables, terminal_rich
from stretchform.report.tables import Column, Lines, Table

TABLE = Table(
    "Sizes",
    (Column("what", right=False), Column("mm"), Column("why", right=False)),
    (("wall", "2.00", "as measured at twelve places round the tank"), ("gap", "12.50", "")),
    ("a note",),
)
letters = st.text("abcdefgh ", min_size=1, max_size=60)


def test_numbers_stand_right_and_words_left():
    lines = tables.plain([TABLE], 80).split("\n")
    assert lines[1].startswith("what     mm  why")
    assert lines[3].startswith("wall   2.00  as measured")
    assert lines[4].startswith("gap   12.50")
    assert lines[-1] == "a note"


def test_a_narrow_table_breaks_words_and_loses_none():
    text = tables.plain([TABLE], 32)
    assert max(map(len, text.split("\n"))) <= 32
    for word in ("measured", "twelve", "places", "12.50"):
        assert word in text


@given(rows=st.lists(st.tuples(letters, letters), min_size=1, max_size=4))
def test_any_words_stay_within_the_width(rows):
    columns = (Column("one", right=False), Column("two", right=False))
    text = tables.plain([Table("t", columns, tuple(rows))], 40)
    assert max(map(len, text.split("\n"))) <= 40


def test_a_cell_of_two_lines_takes_two_rows():
    text = tables.plain([Table("t", (Column("mm\n(in)"),), (("25.4\n(1.000)",),))], 40)
    assert text.split("\n")[1:] == ["     mm", "   (in)", "-------", "   25.4", "(1.000)"]


def test_an_alarm_is_framed_without_colour():
    lines = tables.plain([Lines("DANGER", ("take care",), alarm=True)], 40).split("\n")
    assert lines[0] == lines[-1] == "=" * 40


def test_the_drawn_screen_holds_the_same_words(monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    drawn = terminal_rich.paint([TABLE, Lines("DANGER", ("take care",), alarm=True)], 80)
    for word in ("Sizes", "wall", "2.00", "twelve", "a note", "DANGER", "take care"):
        assert word in drawn
    assert not re.search(r"\x1b\[[0-9;]*3[0-9]", drawn)  # bold and reverse only

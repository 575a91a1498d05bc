"""The line of every key of a TOML text, and TOML mistakes with a line that works."""

from pathlib import Path

import pytest

from stretchform.errors import InputError
from stretchform.files.toml_lines import line_of, parse

EXAMPLES = Path(__file__).parents[3] / "examples"
TEXT = '''# a remark
[job]
name = "x # no remark" # a remark
a.b = 1
when = 1979-05-27 07:32:00
[[course]]
name = 'lower "x" ]'
many = """
[not.a.table]
key = "no key" \\""" """
braces = { one = "1 }", two = { deep = -1.5e3 }, list = [1, [2, 3]] }
[course.weld]
list = [ 1, { a = 1, b = 2 }, # ]
  "]", '[',
]
[[course]]
"quoted key" = true
[[course.sub]]
y = 1
[[course.sub]]
y = 2
[head]
bottom.wall = 1
[head.top]
wall = 2
'''
LINES = {
    ("job",): 2,
    ("job", "name"): 3,
    ("job", "a", "b"): 4,
    ("job", "when"): 5,
    ("course", 0): 6,
    ("course", 0, "name"): 7,
    ("course", 0, "many"): 8,
    ("course", 0, "braces", "two", "deep"): 11,
    ("course", 0, "braces", "list", 1, 1): 11,
    ("course", 0, "weld"): 12,
    ("course", 0, "weld", "list", 1, "b"): 13,
    ("course", 0, "weld", "list", 3): 14,
    ("course", 1): 16,
    ("course", 1, "quoted key"): 17,
    ("course", 1, "sub", 0, "y"): 19,
    ("course", 1, "sub", 1, "y"): 21,
    ("head", "bottom", "wall"): 23,
    ("head", "top", "wall"): 25,
}


def _paths(value, path=()):
    """Every key path of a document, as deep as it goes."""
    members = []
    if isinstance(value, dict):
        members = list(value.items())
    elif isinstance(value, list):
        members = list(enumerate(value))
    for key, member in members:
        yield (*path, key)
        yield from _paths(member, (*path, key))


@pytest.mark.parametrize("path", list(LINES))
def test_a_key_is_found_on_its_line(path):
    assert parse(TEXT, "x.toml")[1][path] == LINES[path]


def test_no_key_of_the_document_is_without_a_line():
    document, lines = parse(TEXT, "x.toml")
    assert [path for path in _paths(document) if path not in lines] == []


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.name)
def test_the_lines_of_an_example_hold_their_keys(path):
    text = path.read_text(encoding="utf-8")
    document, lines = parse(text, path.name)
    rows = text.split("\n")
    for place in _paths(document):
        if isinstance(place[-1], str):
            assert place[-1] in rows[lines[place] - 1]


def test_a_key_that_is_missing_has_the_line_of_its_table():
    lines = parse(TEXT, "x.toml")[1]
    assert line_of(lines, ("course", 1, "wall")) == 16
    assert line_of(lines, ("tape", "kind")) == 1


@pytest.mark.parametrize(
    ("text", "line", "problem", "cure"),
    [
        ("a = 1\nwall = 2.0 mm", 2, "no quotation marks", 'wall = "2.0 mm"'),
        ('wall = "2.0 mm', 1, "do not close", 'wall = "2.0 mm"'),
        ("wall = “2.0 mm”", 1, "curled", 'wall = "2.0 mm"'),
        ('wall = "0.079""', 1, "inch sign", 'wall = "0.079 in"'),
        ('wall: "2 mm"', 1, "a colon", 'wall = "2 mm"'),
        ("wall =", 1, "nothing written", 'wall = "text"'),
        ('wa?ll = "2 mm"', 1, "do not belong in a key", 'wall = "2 mm"'),
        ("a = 1\na = 2", 2, "stands twice", "# a = 2"),
        ("[a]\n[a]", 2, "stands twice", "# [a]"),
        ("[course]\n[course]", 2, "brackets are double", "[[course]]"),
        ("[[course]", 1, "not closed", "[[course]]"),
        ("[head..top]", 1, "not closed", "[head.top]"),
        ("weld = { filler = ", 1, "do not close", 'weld = { filler = "308L" }'),
        ("some words", 1, "not a line", "# some words"),
    ],
)
def test_a_text_that_is_no_toml_is_refused_with_its_line_and_a_line_that_is(
    text, line, problem, cure
):
    with pytest.raises(InputError) as caught:
        parse(text, "x.toml")
    assert caught.value.where.startswith(f"x.toml:{line}")
    assert problem in caught.value.problem
    assert caught.value.fix == cure
    parse(cure, "x.toml")


def test_brackets_without_end_are_no_fault_of_ours():
    with pytest.raises(InputError):
        parse("a = " + "[" * 100_000, "x.toml")

"""Reads a page as a browser does, strictly, and tells what is wrong with it."""

import re
from collections import Counter
from itertools import pairwise

import html5lib

HTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
_OUTSIDE = re.compile(r"<script|<iframe|<object|<embed|<img|<link|@import|\bsrc=|\bon\w+=\"")
_FETCHED = re.compile(r"(?:href=\"|url\()(?!#)")


def read(text):
    """The tree of a page; a page that is not valid fails here."""
    parser = html5lib.HTMLParser(strict=True, tree=html5lib.getTreeBuilder("etree"))
    return parser.parse(text)


def said(element):
    """All words of an element, single blanks; styles and what only a picture says left out."""
    return " ".join(" ".join(_words(element)).split())


def _words(element):
    if element.tag in (f"{HTML}style", f"{SVG}svg") or not isinstance(element.tag, str):
        return
    if element.text:
        yield element.text
    for child in element:
        yield from _words(child)
        if child.tail:
            yield child.tail


def body(text):
    return read(text).find(f"{HTML}body")


def rows(element):
    """The cells of every row of every table, as words."""
    return [
        [said(cell) for cell in row if cell.tag in (f"{HTML}th", f"{HTML}td")]
        for row in element.iter(f"{HTML}tr")
    ]


def faults(text):
    """What breaks the rules of a page here; empty: none."""
    tree = read(text)
    found = [f"from outside: {match[0]}" for match in _OUTSIDE.finditer(text)]
    found += [f"fetched: {match[0]}" for match in _FETCHED.finditer(text)]
    identities = Counter(element.get("id") for element in tree.iter() if element.get("id"))
    found += [f"twice: {name}" for name, count in identities.items() if count > 1]
    for element in tree.iter():
        named = (element.get("aria-labelledby") or "").split()
        found += [f"no element has the id {name}" for name in named if name not in identities]
    return found + _table_faults(tree) + _heading_faults(tree)


def _table_faults(tree):
    found = []
    for group in tree.iter(f"{HTML}div"):
        wide = "wide" in (group.get("class") or "").split()
        if wide and (not group.get("aria-label") or group.get("tabindex") != "0"):
            found.append("a wide table cannot be reached or has no name")
    for table in tree.iter(f"{HTML}table"):
        heads = list(table.iter(f"{HTML}th"))
        if not any(cell.get("scope") == "col" for cell in heads):
            found.append("a table without heads of columns")
        if not all(cell.get("scope") in ("col", "row") for cell in heads):
            found.append("a head that does not say what it heads")
        if table.find(f"{HTML}thead") is None:
            found.append("heads that a printer cannot repeat")
        found += _width_faults(table)
    return found


def _width_faults(table):
    wide = {len(row) for row in rows(table)}
    return [f"rows of different length: {wide}"] if len(wide) > 1 else []


def _heading_faults(tree):
    levels = [
        int(element.tag[-1])
        for element in tree.iter()
        if isinstance(element.tag, str) and re.fullmatch(r".*\}h[1-6]", element.tag)
    ]
    found = [] if levels.count(1) == 1 else [f"{levels.count(1)} headings of the first order"]
    jumps = [pair for pair in pairwise(levels) if pair[1] > pair[0] + 1]
    return found + [f"heading {high} after {low}" for low, high in jumps]

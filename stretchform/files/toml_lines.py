"""A TOML text with the line of every key, so that a mistake can be shown where it stands.

tomllib reads the values but keeps no places. The text it has accepted is walked once more for
keys alone; a text it refuses becomes one InputError with the line and a line that works.
"""

import re
import tomllib
from collections.abc import Mapping
from typing import Any, TypeAlias

from stretchform.errors import InputError
from stretchform.files.text import one_line

Path: TypeAlias = tuple[str | int, ...]
Lines: TypeAlias = Mapping[Path, int]

_ROWS = ("course", "plate", "station", "opening")  # tables that may stand several times
_BARE = r"[A-Za-z0-9_-]+"
_PART = rf"(?:{_BARE}|\"(?:[^\"\\\n]|\\.)*\"|'[^'\n]*')"
_KEY = re.compile(rf"[ \t]*({_PART}(?:[ \t]*\.[ \t]*{_PART})*)[ \t]*")
_SPACE = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}(?!")|'
    r"'''.*?'{3,5}(?!')|"
    r'"(?:[^"\\\n]|\\.)*"|'
    r"'[^'\n]*'",
    re.DOTALL,
)
_PLAIN = re.compile(r"[^,\]}\s#]+(?:[ ][0-9:.]+[^,\]}\s#]*)?")


def parse(text: str, name: str) -> tuple[dict[str, Any], Lines]:
    """The tables of a TOML text and the line of every key path in it.

    A path is a tuple of keys and positions: ("course", 1, "wall"). `name` is the file's name.
    Raises InputError where the text is not TOML.
    """
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _mistake(text, name, str(error)) from error
    except RecursionError as error:
        raise InputError(name, "brackets nested too deep", 'wall = "2.0 mm"') from error
    return document, _Walk(text, document).lines()


def line_of(lines: Lines, path: Path) -> int:
    """The line of a path, or of the nearest table around it; 1 where nothing is known."""
    while path and path not in lines:
        path = path[:-1]
    return lines.get(path, 1)


class _Walk:
    """One walk over a valid TOML text; it keeps its place and what it has met."""

    def __init__(self, text: str, document: dict[str, Any]) -> None:
        self.text = text
        self.document = document
        self.place = 0
        self.counted = 0  # characters whose line breaks are counted
        self.line = 1
        self.found: dict[Path, int] = {}
        self.counts: dict[Path, int] = {}  # tables of each array of tables so far

    def lines(self) -> Lines:
        table: Path = ()
        while self._skip_space():
            if self.text[self.place] == "[":
                table = self._header()
            else:
                self._pair(table)
        return self.found

    def _skip_space(self) -> bool:
        match = _SPACE.match(self.text, self.place)
        self.place = match.end() if match else self.place
        return self.place < len(self.text)

    def _note(self, path: Path) -> None:
        self.line += self.text.count("\n", self.counted, self.place)
        self.counted = self.place
        self.found.setdefault(path, self.line)

    def _key(self) -> tuple[str, ...]:
        match = _KEY.match(self.text, self.place)
        if match is None:
            raise ValueError(f"no key at character {self.place} of a text that tomllib read")
        self.place = match.end()
        return tuple(_unquoted(part) for part in re.findall(_PART, match[1]))

    def _header(self) -> Path:
        many = self.text.startswith("[[", self.place)
        self.place += 2 if many else 1
        keys = self._key()
        path: Path = ()
        for number, key in enumerate(keys, start=1):
            path = (*path, key)
            if many and number == len(keys):
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                self._note(path)
                path = (*path, self.counts[path] - 1)
        self._note(path)
        self.place = self.text.index("]", self.place) + (2 if many else 1)
        return path

    def _pair(self, table: Path) -> None:
        path = table
        start = self.place
        keys = self._key()
        end, self.place = self.place, start
        for key in keys:
            path = (*path, key)
            self._note(path)
        self.place = end + 1  # the equals sign
        self._value(path)

    def _value(self, path: Path) -> None:
        self._skip_space()
        opening = self.text[self.place]
        if opening in "[{":
            self._group(path, "]" if opening == "[" else "}")
            return
        match = (_STRING if opening in "\"'" else _PLAIN).match(self.text, self.place)
        if match is None:
            raise ValueError(f"no value at character {self.place} of a text that tomllib read")
        self.place = match.end()

    def _group(self, path: Path, closing: str) -> None:
        """The members of an array, numbered, or of an inline table."""
        self.place += 1
        number = 0
        while self._skip_space() and self.text[self.place] != closing:
            if self.text[self.place] == ",":
                self.place += 1
            elif closing == "]":
                self._note((*path, number))
                self._value((*path, number))
                number += 1
            else:
                self._pair(path)
        self.place += 1


def _unquoted(part: str) -> str:
    if part[0] == "'":
        return part[1:-1]
    return str(tomllib.loads(f"key = {part}")["key"]) if part[0] == '"' else part


def _mistake(text: str, name: str, reason: str) -> InputError:
    """tomllib's reason in the words of the trade, with the line and a line that works."""
    match = re.search(r"^(.*) \(at (?:line (\d+), column (\d+)|end of document)\)$", reason)
    rows = text.split("\n")
    number = int(match[2]) if match and match[2] else len(text.rstrip().split("\n"))
    row = rows[number - 1].strip() if number <= len(rows) else ""
    if not row and number > 1 and "=" in rows[number - 2]:
        number, row = number - 1, rows[number - 2].strip()
    problem, fix = _cure(row, match[1] if match else reason)
    found = f": {one_line(row)}" if row else ""
    return InputError(f"{name}:{number}{found}", problem, one_line(fix, 200))


def _cure(row: str, reason: str) -> tuple[str, str]:
    header = re.match(r"\[+\s*([A-Za-z_.]+)\s*\]*", row)
    many = header is not None and header[1] in _ROWS
    if "Cannot overwrite" in reason or "Cannot declare" in reason or "immutable" in reason:
        if header and many and not row.startswith("[["):
            return "stands more than once; then its brackets are double", f"[[{header[1]}]]"
        return "stands twice; once is enough", f"# {row}"
    straight = re.sub("[“”„]", '"', re.sub("[‘’]", "'", row))
    if straight != row:
        return "curled quotation marks", straight
    if header:
        closed = f"[[{header[1]}]]" if many else f"[{header[1]}]"
        return "a table header that is not closed", closed
    pair = re.match(rf"({_BARE})\s*[=:]\s*(.*)", row)
    if pair is None:
        return "not a line of a job file", 'name = "text", or [table], or # a remark'
    return _cured_pair(pair[1], pair[2], row)


def _cured_pair(key: str, value: str, row: str) -> tuple[str, str]:
    if value.startswith(("{", "[")):
        sample = '{ proof_02 = "295 MPa", tensile = "650 MPa" }'
        return "braces or brackets that do not close on this line", f"{key} = {sample}"
    written = re.sub(r"[\"'\\]", "", value.split("#")[0]).strip() or "text"
    if re.match(r"\".*[0-9]\s*\"\"", value):
        return 'the inch sign ends the text; write "in"', f'{key} = "{written} in"'
    problem = "no quotation marks round the text"
    if re.match(rf"{key}\s*:", row):
        problem = "a colon where an equals sign is meant"
    elif value[:1] in ('"', "'") and value:
        problem = "quotation marks that do not close, or do so too early"
    elif not value:
        problem = "nothing written behind the equals sign"
    return problem, f'{key} = "{written}"'

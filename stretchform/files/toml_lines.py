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
_INLINE = {  # tables that are written in braces behind a key
    "certificate": '{ proof_02 = "295 MPa", tensile = "650 MPa" }',
    "weld": '{ filler = "308L" }',
    "arm": '{ kind = "single", depth = "7 mm" }',
}
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
            self._note(path)
            if path in self.counts:
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
    header = _header_cure(row)
    if "Cannot overwrite" in reason or "Cannot declare" in reason or "immutable" in reason:
        if header.startswith("[[") and not row.startswith("[["):
            return "stands more than once; then its brackets are double", header
        return "stands twice; once is enough", f"# {row}"
    if header:
        return "a table header that is not closed", header
    key, mark, value = _pair_of(row)
    plain = re.sub(r"[^A-Za-z0-9_.-]", "", key)
    if not plain or " " in key:
        return "not a line of a job file", f"# {row}"
    if plain != key:
        return (
            "characters that do not belong in a key",
            f"{plain} = {_value_cure(plain, value)[1]}",
        )
    if mark == ":":
        return "a colon where an equals sign is meant", f"{key} = {_value_cure(key, value)[1]}"
    problem, cure = _value_cure(key, value)
    return problem, f"{key} = {cure}"


def _pair_of(row: str) -> tuple[str, str, str]:
    """Key, the equals sign or colon, and value of a line; three empty ones if it has neither."""
    mark = "=" if "=" in row else ":" if ":" in row else ""
    key, _, value = row.partition(mark) if mark else ("", "", "")
    return key.strip(), mark, value.strip()


def _header_cure(row: str) -> str:
    """The header that is meant by a line that begins with a bracket, "" for another line."""
    if not row.startswith("["):
        return ""
    name = re.sub(r"[^A-Za-z_.]", "", row.split("#")[0].split('"')[0])
    name = re.sub(r"\.+", ".", name).strip(".")
    return f"[[{name}]]" if name in _ROWS else f"[{name}]" if name else f"# {row}"


def _value_cure(key: str, value: str) -> tuple[str, str]:
    """What is wrong behind the equals sign, and a text that may stand there."""
    if value.startswith(("{", "[")):
        sample = _INLINE.get(key, '"text"')
        return "braces or brackets that do not close on this line", sample
    straight = re.sub("[“”„]", '"', re.sub("[‘’]", "'", value))
    quoted = re.search(r"\"([^\"]*)\"", straight)
    if re.match(r"\".*[0-9]\s*\"\"", straight):
        return 'the inch sign ends the text; write "in"', f'"{_unmarked(straight)} in"'
    if straight != value:
        return "curled quotation marks", f'"{_unmarked(quoted[1] if quoted else straight)}"'
    if not value:
        return "nothing written behind the equals sign", '"text"'
    written = _unmarked(quoted[1] if quoted and value[0] not in "\"'" else value)
    if value[0] in "\"'":
        return "quotation marks that do not close, or do so too early", f'"{written}"'
    return "no quotation marks round the text", f'"{written}"'


def _unmarked(value: str) -> str:
    return re.sub(r"[\"'\\]", "", value.split("#")[0]).strip() or "text"

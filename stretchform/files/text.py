"""Text of a file that a user names; everything that can be wrong with a file is said here."""

from pathlib import Path

from stretchform.errors import InputError

LARGEST = 1_000_000  # bytes; a job file or a list of readings has a few thousand


def read_text(path: Path, kind: str, legacy: bool = False) -> str:
    """The text of a file as UTF-8, a byte order mark dropped; `kind` names it: "job file".

    With `legacy` a file that is not UTF-8 is read as cp1252, as older spreadsheets write it.
    Raises InputError for a file that is missing, a folder, empty, too large or no text.
    """
    data = _bytes(path, kind)
    if data[:2] in (b"\xff\xfe", b"\xfe\xff") or b"\x00" in data[:4]:
        raise InputError(str(path), "not UTF-8 but UTF-16 text", "save it again as UTF-8")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        text = _legacy(data, path) if legacy else ""
        if not text:
            line = data[: error.start].count(b"\n") + 1
            problem = f"not UTF-8 text: byte {data[error.start]:#04x}"
            raise InputError(f"{path}:{line}", problem, "save it again as UTF-8") from error
    if not text.strip():
        raise InputError(str(path), f"an empty {kind}", f"stretchform new {path.name}")
    _refuse_control(text, path)
    return text.replace("\r\n", "\n")


def _bytes(path: Path, kind: str) -> bytes:
    try:
        if path.is_dir():
            fix = str(path / ("readings.csv" if "reading" in kind else "tank.toml"))
            raise InputError(str(path), f"a folder where a {kind} is meant", fix)
        if path.stat().st_size > LARGEST:
            raise InputError(str(path), f"too large for a {kind} (over 1 MB)", f"a {kind}")
        with path.open("rb") as stream:
            return stream.read(LARGEST)
    except FileNotFoundError as error:
        raise InputError(str(path), f"no such {kind}", _near(path)) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise InputError(
            str(path), f"cannot be read: {reason}", f"a readable {kind}"
        ) from error


def _near(path: Path) -> str:
    """A file of a like name beside it, or one of the same kind."""
    from difflib import get_close_matches

    try:
        names = sorted(p.name for p in path.parent.iterdir() if p.suffix == path.suffix)
    except OSError:
        names = []
    close = get_close_matches(path.name, names, n=1) or names[:1]
    return str(path.parent / close[0]) if close else "stretchform new tank.toml"


def _legacy(data: bytes, path: Path) -> str:
    try:
        return data.decode("cp1252")
    except UnicodeDecodeError as error:
        problem = "neither UTF-8 nor cp1252 text"
        raise InputError(str(path), problem, "save it again as UTF-8") from error


def _refuse_control(text: str, path: Path) -> None:
    for number, line in enumerate(text.split("\n"), start=1):
        for character in line:
            if ord(character) < 32 and character not in "\t\r":
                problem = f"a control character (U+{ord(character):04X}) in the text"
                raise InputError(
                    f"{path}:{number}", problem, "delete it, or type the line anew"
                )


def one_line(text: str, longest: int = 80) -> str:
    """A user's text for a message: what cannot be printed replaced, cut where it is long."""
    clean = "".join(c if c.isprintable() or c == "\n" else "?" for c in text)
    return clean if len(clean) <= longest else clean[:longest] + "..."

"""Text to the screen, whatever the screen can show: colours, narrow letters, closed pipes."""

import codecs
import os
import sys
from contextlib import suppress
from io import TextIOWrapper
from typing import TextIO

_ERRORS = "stretchform-plain"
_PLAIN = {
    **dict.fromkeys("–—‐‑−", "-"),
    **dict.fromkeys("·•", "*"),
    **dict.fromkeys("‘’′", "'"),
    **dict.fromkeys("“”″", '"'),
    "°": "deg ",
    "µ": "u",
    "²": "2",
    "³": "3",
    "½": "1/2",
    "×": "x",
    "±": "+/-",
    "≤": "<=",
    "≥": ">=",
    "→": "->",
    "…": "...",
}


def make_safe(*streams: TextIO) -> None:
    """Let streams write any text: letters that their encoding lacks become plain ones."""
    codecs.register_error(_ERRORS, _in_plain_letters)
    for stream in streams:
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors=_ERRORS)


def _in_plain_letters(error: UnicodeError) -> tuple[str, int]:
    """The nearest plain spelling of letters that an encoding does not have."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    missing = error.object[error.start : error.end]
    return "".join(_PLAIN.get(letter, "?") for letter in missing), error.end


def spelled(text: str) -> str:
    """A text as the screen's encoding will show it, so that it can be laid out by length."""
    encoding = sys.stdout.encoding or "utf-8"
    try:
        return text.encode(encoding, _ERRORS).decode(encoding)
    except LookupError:  # run from a test or notebook, without make_safe
        return text


def show(text: str) -> None:
    """Print a result; a reader that has closed the pipe has seen enough."""
    try:
        print(text, flush=True)
    except BrokenPipeError:
        close_quietly()


def complain(text: str) -> None:
    """Print a message about what went wrong to stderr."""
    with suppress(OSError):
        print(text, file=sys.stderr, flush=True)


def flush() -> None:
    """Write out what is left, so that the interpreter finds nothing to complain about."""
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        close_quietly()


def close_quietly() -> None:
    """Send the rest of the output nowhere."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)

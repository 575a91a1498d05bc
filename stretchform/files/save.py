"""Results to disk: the whole file or nothing, and only where such a file is meant."""

import os
from collections.abc import Sequence
from pathlib import Path

from stretchform.errors import InputError


def refuse_strange(path: Path, suffixes: Sequence[str], what: str, sample: str) -> None:
    """Refuse a place that cannot take a file of a kind, before anything is computed.

    `what` names the kind for the message, `sample` a file of it. Raises InputError.
    """
    if path.suffix.lower() not in suffixes:
        others = "".join(f", or {suffix}" for suffix in suffixes[1:])
        problem = f'"{path.suffix}" is no kind of {what} that is made here'
        fix = f"{path.with_suffix(suffixes[0])}{'  #' + others[1:] if others else ''}"
        raise InputError(str(path), problem, fix)
    if path.is_dir():
        raise InputError(str(path), "a folder", str(path / sample))
    if not path.parent.is_dir():
        raise InputError(str(path), "its folder does not exist", path.name)


def write(path: Path, content: bytes) -> None:
    """Write a file, over an older one of that name. Raises InputError."""
    beside = path.with_name(path.name + ".part")
    try:
        beside.write_bytes(content)
        os.replace(beside, path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        reason = error.strerror or str(error)
        raise InputError(str(path), f"cannot be written: {reason}", path.name) from error

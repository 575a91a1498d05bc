"""Pictures to disk: the whole file or nothing, and only where a picture is meant."""

import os
from pathlib import Path

from stretchform.errors import InputError

SUFFIXES = (".svg", ".png")


def refuse_strange(path: Path) -> None:
    """Refuse a place that cannot take a picture, before anything is drawn. Raises InputError."""
    if path.suffix.lower() not in SUFFIXES:
        problem = f'"{path.suffix}" is no kind of picture that is drawn here'
        raise InputError(str(path), problem, str(path.with_suffix(".svg")) + "  # or .png")
    if path.is_dir():
        raise InputError(str(path), "a folder", str(path / "curve.svg"))
    if not path.parent.is_dir():
        raise InputError(str(path), "its folder does not exist", path.name)


def write_picture(path: Path, content: bytes) -> None:
    """Write a picture, over an older one of that name. Raises InputError."""
    refuse_strange(path)
    beside = path.with_name(path.name + ".part")
    try:
        beside.write_bytes(content)
        os.replace(beside, path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        reason = error.strerror or str(error)
        raise InputError(str(path), f"cannot be written: {reason}", path.name) from error

"""Drawings to disk: all files of a plate or none, and nothing is written over unasked."""

import os
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path

from stretchform.errors import InputError

KINDS = (".dxf", "-r12.dxf", ".svg", ".png")


def file_names(plate: str) -> tuple[str, ...]:
    """Names of the files of one plate: letters, digits and hyphens of its name."""
    plain = "".join(letter if letter.isalnum() else "-" for letter in plate).strip("-")
    return tuple(f"{plain or 'plate'}{kind}" for kind in KINDS)


def refuse_place(folder: Path, names: Sequence[str], replace: bool) -> None:
    """Refuse a folder that cannot take the files, before anything is drawn.

    Raises InputError.
    """
    where = str(folder)
    if folder.exists() and not folder.is_dir():
        raise InputError(where, "a file, not a folder", f"--to {folder}-drawings")
    if not folder.is_dir() and not folder.absolute().parent.is_dir():
        raise InputError(where, "the folder above it does not exist", f"--to {folder.name}")
    taken = [name for name in names if (folder / name).exists()]
    folders = [name for name in taken if (folder / name).is_dir()]
    if folders:
        problem = f"{folders[0]} is a folder there"
        raise InputError(where, problem, f"--to {folder / 'drawings'}")
    if taken and not replace:
        problem = f"{', '.join(taken)} {'is' if len(taken) == 1 else 'are'} there already"
        raise InputError(where, problem, f"--to {folder} --replace  # or another folder")


def save(folder: Path, contents: Mapping[str, bytes], replace: bool) -> tuple[Path, ...]:
    """Write all files, each whole, after all of them could be written beside their place.

    Raises InputError.
    """
    refuse_place(folder, list(contents), replace)
    parts = {folder / f"{name}.part": folder / name for name in contents}
    try:
        folder.mkdir(exist_ok=True)
        for part, content in zip(parts, contents.values(), strict=True):
            with part.open("xb") as stream:
                stream.write(content)
                stream.flush()
                os.fsync(stream.fileno())
        for part, place in parts.items():
            os.replace(part, place)
    except OSError as error:
        for part in parts:
            with suppress(OSError):
                part.unlink(missing_ok=True)
        reason = error.strerror or str(error)
        raise InputError(str(folder), f"cannot be written: {reason}", "--to .") from error
    return tuple(parts.values())

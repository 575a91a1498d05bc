"""Pictures to disk, and only where a picture is meant."""

from pathlib import Path

from stretchform.files import save

SUFFIXES = (".svg", ".png")


def refuse_strange(path: Path) -> None:
    """Refuse a place that cannot take a picture, before anything is drawn. Raises InputError."""
    save.refuse_strange(path, SUFFIXES, "picture", "curve.svg")


def write_picture(path: Path, content: bytes) -> None:
    """Write a picture, over an older one of that name. Raises InputError."""
    refuse_strange(path)
    save.write(path, content)

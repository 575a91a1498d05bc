"""Pages and job cards to disk."""

from pathlib import Path

from stretchform.files import save

SUFFIXES = (".html", ".htm")


def refuse_strange(path: Path) -> None:
    """Refuse a place that cannot take a page, before anything is computed. Raises InputError."""
    save.refuse_strange(path, SUFFIXES, "page", "plan.html")


def write_page(path: Path, text: str) -> None:
    """Write a page, over an older one of that name. Raises InputError."""
    refuse_strange(path)
    save.write(path, text.encode("utf-8"))

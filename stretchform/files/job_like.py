"""`like = "lower"`: a course, plate or head that takes over what another one says."""

from collections.abc import Mapping
from difflib import get_close_matches
from typing import Any

from stretchform.files.job_mistakes import Mistakes, written
from stretchform.files.toml_lines import Path

_SIZES = frozenset({"inside_diameter", "outside_diameter", "outside_circumference"})
_WITH_STEEL = frozenset({"certificate", "weld"})
_WITH_SHAPE = frozenset({"crown_radius", "knuckle_radius"})


def filled(document: Mapping[str, Any], mistakes: Mistakes) -> dict[str, Any]:
    """The document with every `like` followed; the origin of each key goes to `mistakes`."""
    result = dict(document)
    for group in ("course", "plate"):
        rows = document.get(group)
        if isinstance(rows, list):
            named = {
                row["name"]: (group, index)
                for index, row in reversed(list(enumerate(rows)))
                if isinstance(row, dict) and isinstance(row.get("name"), str)
            }
            result[group] = [
                _merged((group, index), row, named, document, mistakes)
                for index, row in enumerate(rows)
            ]
    heads = document.get("head")
    if isinstance(heads, dict):
        places: dict[str, Path] = {
            key: ("head", key) for key in ("bottom", "top") if key in heads
        }
        result["head"] = {
            key: _merged(("head", key), row, places, document, mistakes)
            for key, row in heads.items()
        }
    return result


def _merged(
    path: Path, row: Any, named: Mapping[str, Path], document: Any, mistakes: Mistakes
) -> Any:
    """One table with the keys of those it is like, as far as that can be followed."""
    if not isinstance(row, dict) or "like" not in row:
        return row
    merged = {key: value for key, value in row.items() if key != "like"}
    visited = [path]
    table = row
    while "like" in table:
        source = _source(visited[-1], table["like"], named, visited, mistakes)
        if source is None:
            return merged
        table = document[source[0]][source[1]]
        if not isinstance(table, dict):
            return merged
        for key in _inherited(table, merged):
            merged[key] = table[key]
            mistakes.origins[(*path, key)] = (*source, key)
        visited.append(source)
    return merged


def _source(
    path: Path,
    name: Any,
    named: Mapping[str, Path],
    visited: list[Path],
    mistakes: Mistakes,
) -> Path | None:
    place = (*path, "like")
    others = [known for known, where in named.items() if where != path]
    if isinstance(name, str) and name in named and named[name] not in visited:
        return named[name]
    near = get_close_matches(str(name), others, n=1, cutoff=0.0)
    cure = f'"{near[0]}"' if near else '"lower"'
    if isinstance(name, str) and name in named:
        mistakes.add_line(place, "goes round in a circle", f"# like = {written(name)}")
    elif not others:
        mistakes.add_line(
            place, "there is no other one to be like", f"# like = {written(name)}"
        )
    else:
        mistakes.add(place, f"no such name (known: {', '.join(others)})", cure)
    return None


def _inherited(table: Mapping[str, Any], own: Mapping[str, Any]) -> list[str]:
    """Keys to take over: never the name, a second size, or papers of another steel."""
    left_out = {"name", "like", *own}
    if _SIZES & own.keys():
        left_out |= _SIZES
    if own.get("steel", table.get("steel")) != table.get("steel"):
        left_out |= _WITH_STEEL
    if own.get("shape", table.get("shape")) != table.get("shape"):
        left_out |= _WITH_SHAPE
    return [key for key in table if key not in left_out]

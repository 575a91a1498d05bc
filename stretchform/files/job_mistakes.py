"""All mistakes of one job file: each with its line, its table, what was found, and a cure."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any, TypeVar

from stretchform import units
from stretchform.errors import InputError, InputErrors, StretchformError
from stretchform.files.text import one_line
from stretchform.files.toml_lines import Lines, Path, line_of
from stretchform.units.mistakes import split

if TYPE_CHECKING:
    from pydantic import BaseModel
    from pydantic_core import ErrorDetails

    from stretchform.files.job_fields import Kind

    Model = TypeVar("Model", bound=BaseModel)

ROWS = ("course", "plate", "station", "opening")  # tables that may stand several times
_OTHER_WORDS = {  # what people write, and the key that is meant
    "thickness": "wall",
    "thick": "wall",
    "wall_thickness": "wall",
    "height": "length",
    "diameter": "inside_diameter",
    "inner_diameter": "inside_diameter",
    "outer_diameter": "outside_diameter",
    "id": "inside_diameter",
    "od": "outside_diameter",
    "circumference": "outside_circumference",
    "material": "steel",
    "grade": "steel",
    "strain": "growth",
    "rp02": "proof_02",
    "rp0.2": "proof_02",
    "yield": "proof_02",
    "yield_strength": "proof_02",
    "rp10": "proof_10",
    "rp1.0": "proof_10",
    "rm": "tensile",
    "tensile_strength": "tensile",
    "uts": "tensile",
    "relief": "relief_pressure",
    "accuracy": "class",
    "number": "count",
    "position": "attitude",
    "type": "kind",
}
_RADII = {
    "radius": "inside_diameter",
    "inside_radius": "inside_diameter",
    "inner_radius": "inside_diameter",
    "outside_radius": "outside_diameter",
    "outer_radius": "outside_diameter",
}


@dataclass
class Mistakes:
    """The places of one job file and the mistakes found in it so far."""

    file: str
    document: Mapping[str, Any]  # as written, before `like` is followed
    lines: Lines
    origins: dict[Path, Path] = field(default_factory=dict)  # keys that `like` brought in
    found: list[tuple[int, StretchformError]] = field(default_factory=list)

    def add(self, path: Path, problem: str, cure: str) -> None:
        """A wrong value: the cure is what may stand behind its key."""
        key = _key(self._origin(path))
        self.add_error(InputError(self.place(path), problem, f"{key} = {cure}"), path)

    def add_line(self, path: Path, problem: str, line: str) -> None:
        """Any other mistake: the cure is a whole line."""
        self.add_error(InputError(self.place(path), problem, line), path)

    def add_error(self, error: StretchformError, path: Path) -> None:
        """An error made elsewhere; what a terminal cannot print is taken out of it."""
        parts = (one_line(part, 600) for part in (error.where, error.problem, error.fix))
        error = type(error)(*parts)
        if all(str(error) != str(other) for _, other in self.found):
            self.found.append((line_of(self.lines, self._origin(path)), error))

    def place(self, path: Path) -> str:
        """file:line: [[table]] "name", key = value, for a message."""
        path = self._origin(path)
        found = _value(self.document, path)
        key = _key(path)
        key = f", {key}" + (f" = {written(found)}" if found is not None else "") if key else ""
        return f"{self.file}:{line_of(self.lines, path)}: {self.table(path)}{key}"

    def table(self, path: Path) -> str:
        top = one_line(str(path[0]), 40)
        if len(path) == 1 and not isinstance(
            _value(self.document, path), Mapping | list | None
        ):
            return f"{top} = {written(self.document[str(path[0])])}"
        if len(path) > 1 and isinstance(path[1], int):
            name = _value(self.document, (*path[:2], "name"))
            label = units.shown(name, 40) if isinstance(name, str) else f"number {path[1] + 1}"
            return f"[[{top}]] {label}"
        return f"[head.{path[1]}]" if top == "head" and len(path) > 1 else f"[{top}]"

    def text(self, path: Path) -> str:
        """What the user wrote behind a key, "" if it is no text."""
        found = self.value(path)
        return found if isinstance(found, str) else ""

    def is_like(self, path: Path) -> bool:
        """Whether a table takes over what another one says."""
        return _value(self.document, (*path, "like")) is not None

    def inherited(self, path: Path) -> bool:
        return path in self.origins

    def value(self, path: Path) -> Any:
        """What stands behind a key, None if nothing does."""
        return _value(self.document, self._origin(path))

    def stop(self) -> None:
        """Raise what was found, in the order of the lines; nothing if all is well."""
        errors = [error for _, error in sorted(self.found, key=lambda pair: pair[0])]
        if len(errors) == 1:
            raise errors[0]
        if errors:
            raise InputErrors(errors)

    def _origin(self, path: Path) -> Path:
        for length in range(len(path), 0, -1):
            if path[:length] in self.origins:
                return (*self.origins[path[:length]], *path[length:])
        return path


def validated(
    model: "type[Model]", table: Any, path: Path, mistakes: Mistakes
) -> "Model | None":
    """A table as its model, or None with every mistake in it added.

    What is missing in a table that is `like` another one is missing, and told, there.
    """
    from pydantic import ValidationError

    try:
        return model.model_validate(table)
    except ValidationError as error:
        details = error.errors(include_url=False)
        told = _told_elsewhere(model, details, mistakes.is_like(path))
        for detail in details:
            if not (detail["type"] == "missing" and detail["loc"] in told):
                _add_detail(model, detail, path, mistakes)
        return None


def _told_elsewhere(
    model: "type[BaseModel]", details: "list[ErrorDetails]", like: bool
) -> set[Path]:
    """Keys that count as missing but stand there misspelt, or are missing in another table."""
    told: set[Path] = set()
    for detail in details:
        loc = detail["loc"]
        if detail["type"] == "extra_forbidden":
            near = _near_key(str(loc[-1]), _keys(_model_at(model, loc[:-1])))
            told.add((*loc[:-1], near or ""))
        elif like and len(loc) == 1 and loc != ("name",):
            told.add(loc)
    return told


def sample_of(model: "type[BaseModel]") -> str:
    """An inline table with every key that must be there."""
    pairs = [
        f"{item.alias or name} = {_field_sample(item)}"
        for name, item in model.model_fields.items()
        if item.is_required()
    ]
    return "{ " + ", ".join(pairs) + " }"


def written(value: Any) -> str:
    """A TOML value for a message, short."""
    if isinstance(value, str):
        return units.shown(value)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return "[...]"
    return "{...}" if isinstance(value, Mapping) else one_line(str(value), 40)


def _key(path: Path) -> str:
    start = 2 if len(path) > 1 and (isinstance(path[1], int) or path[0] == "head") else 1
    return ".".join(one_line(str(part), 40) for part in path[start:])


def _value(document: Any, path: Path) -> Any:
    for part in path:
        try:
            document = document[part]
        except (KeyError, IndexError, TypeError):
            return None
    return document


def _add_detail(
    model: "type[BaseModel]", detail: "ErrorDetails", table: Path, mistakes: Mistakes
) -> None:
    loc = tuple(part for part in detail["loc"] if part != "[key]")
    path = (*table, *loc)
    if detail["loc"][-1:] == ("[key]",):
        sample = _key((*path[:-1], detail["ctx"]["cure"].strip('"')))
        found = written(mistakes.value(path))
        mistakes.add_line(path, f"its key is {detail['ctx']['problem']}", f"{sample} = {found}")
    elif detail["type"] == "mistake":
        mistakes.add(path, detail["ctx"]["problem"], detail["ctx"]["cure"])
    elif detail["type"] == "missing":
        cure = f"{_key(path)} = {_field_sample(_field(model, loc))}"
        mistakes.add_line(path[:-1], f"{loc[-1]} is missing", cure)
    elif detail["type"] == "extra_forbidden":
        _add_unknown(_model_at(model, loc[:-1]), path, detail["input"], mistakes)
    else:
        _add_no_table(model, loc, path, mistakes)


def _add_no_table(model: "type[BaseModel]", loc: Path, path: Path, mistakes: Mistakes) -> None:
    """A value where a table is meant, or the other way round."""
    if loc:
        mistakes.add(path, "a table is meant", _field_sample(_field(model, loc)))
        return
    head = "[head.bottom]" if path == ("head",) else mistakes.table(path).split("]")[0] + "]"
    if path[0] in ROWS:
        head = f"[[{path[0]}]]"
    mistakes.add_line(path, "a table is meant", head)


def _add_unknown(model: "type[BaseModel]", path: Path, value: Any, mistakes: Mistakes) -> None:
    known = _keys(model)
    key = str(path[-1])
    if key in _RADII and _RADII[key] in known:
        problem = f"unknown key; the size is given as {_RADII[key]}"
        fix = f"{_RADII[key]} = {_doubled(value)}"
    else:
        near = _near_key(key, known)
        problem = "unknown key" + (f"; did you mean {near}?" if near else "")
        if not near:
            problem += f" (known: {', '.join(known)})"
        fix = _key((*path[:-1], near)) if near else f"# {one_line(key, 40)}"
        if isinstance(value, Mapping | list) and near:
            fix += f" = {_field_sample(_field(model, (near,)))}"
        else:
            fix += f" = {written(value)}"
    mistakes.add_line(path, problem, fix)


def _keys(model: "type[BaseModel]") -> list[str]:
    return [item.alias or name for name, item in model.model_fields.items()]


def near_table(key: str, known: Sequence[str]) -> str | None:
    """The known table whose name is nearest to a wrong one."""
    close = get_close_matches(key.lower().strip(), known, n=1, cutoff=0.6)
    return close[0] if close else None


def _near_key(key: str, known: list[str]) -> str | None:
    plain = key.strip().lower().replace("-", "_").replace(" ", "_")
    if plain in known:
        return plain
    meant = _OTHER_WORDS.get(plain)
    if meant in known:
        return meant
    return near_table(plain, known)


def _doubled(value: Any) -> str:
    """A diameter from the text of a radius."""
    try:
        units.read(str(value), "length")
        number, unit = split(str(value))
    except StretchformError:
        return '"640 mm"'
    return f'"{2.0 * float(number):g} {unit}"'


def _model_at(model: "type[BaseModel]", loc: Path) -> "type[BaseModel]":
    for part in loc:
        item = _field(model, (part,))
        model = _model_of(item) or model
    return model


def _field(model: "type[BaseModel]", loc: Path) -> Any:
    """The field of a place in a model; inside a dictionary the dictionary's own."""
    item: Any = None
    for part in loc:
        fields = {known.alias or name: known for name, known in model.model_fields.items()}
        item = fields.get(str(part), item)
        model = _model_of(item) or model
    return item


def _model_of(item: Any) -> Any:
    """The model behind a field that holds a table, None for any other."""
    from typing import get_args

    candidates = (item.annotation, *get_args(item.annotation)) if item is not None else ()
    return next((c for c in candidates if hasattr(c, "model_fields")), None)


def _field_sample(item: Any) -> str:
    model = _model_of(item)
    if model is not None:
        return sample_of(model)
    kind: Kind | None = next((m for m in item.metadata if hasattr(m, "sample")), None)
    return kind.sample if kind is not None else '{ C = "0.02 %" }'

"""The JSON Schema of the job file, for editors that complete and check while typing."""

from typing import Any

_LIKE = {"type": "string", "description": "take over what the one of this name says"}
_LIKE_TABLES = ("CourseTable", "HeadTable", "PlateTable")


def job_schema() -> dict[str, Any]:
    """The schema of a job file, made from the models that read it."""
    from stretchform.files.job_tables import JobFile

    schema = JobFile.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    for table in (schema, *schema["$defs"].values()):
        _tidy(table)
    for name in _LIKE_TABLES:
        _allow_like(schema["$defs"][name])
    return schema


def _tidy(table: dict[str, Any]) -> None:
    """TOML has no null, so what may be left out has no default to show."""
    table.pop("title", None)
    for key, value in table["properties"].items():
        kept = {k: v for k, v in value.items() if k != "title" and (k, v) != ("default", None)}
        options = [option for option in kept.pop("anyOf", []) if option != {"type": "null"}]
        table["properties"][key] = kept | (options[0] if options else {})


def _allow_like(table: dict[str, Any]) -> None:
    """A table that is like another one needs its own name alone."""
    needed = table.pop("required", [])
    table["properties"]["like"] = _LIKE
    table["required"] = [key for key in needed if key == "name"]
    table["anyOf"] = [{"required": ["like"]}, {"required": needed}]

"""The JSON Schema of the job file says the same as the reader."""

import tomllib
from pathlib import Path

import pytest

from stretchform.files.schema import job_schema
from stretchform.files.starter import starter

EXAMPLES = Path(__file__).parents[3] / "examples"
TEXTS = [path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.toml"))]


def _resolved(part, schema):
    name = part.get("$ref", "").removeprefix("#/$defs/")
    return schema["$defs"][name] if name else part


def _trouble(value, part, schema, place="job file"):
    """What of the schema a value breaks: types, enumerations, needed and unknown keys."""
    part = _resolved(part, schema)
    types = {"object": dict, "array": list, "string": str, "integer": int, "boolean": bool}
    if "type" in part and not isinstance(value, types[part["type"]]):
        return [f"{place}: not {part['type']}"]
    if "enum" in part and value not in part["enum"]:
        return [f"{place}: not in {part['enum']}"]
    if isinstance(value, list):
        return [t for one in value for t in _trouble(one, part["items"], schema, place)]
    if not isinstance(value, dict):
        return []
    found = [f"{place}: {key} missing" for key in part.get("required", []) if key not in value]
    options = part.get("anyOf", [])
    if options and not any(set(o["required"]) <= set(value) for o in options):
        found.append(f"{place}: neither like nor all keys")
    known = part.get("properties", {})
    for key, member in value.items():
        rest = part.get("additionalProperties")
        if key in known:
            found += _trouble(member, known[key], schema, f"{place}.{key}")
        elif rest is False:
            found.append(f"{place}: {key} unknown")
    return found


@pytest.mark.parametrize("text", [*TEXTS, starter()])
def test_a_job_that_is_read_fits_the_schema(text):
    schema = job_schema()
    assert _trouble(tomllib.loads(text), schema, schema) == []


@pytest.mark.parametrize(
    ("old", "new", "trouble"),
    [
        ('wall = "2.0 mm"', "wall = 2.0", "wall: not string"),
        ('attitude = "standing"', 'attitude = "upright"', "attitude: not in"),
        ('steel = "1.4307"', 'stel = "1.4307"', "stel unknown"),
        ('wall_tolerance = "0.05 mm"', "", "neither like nor all keys"),
        ("example = true", 'example = "yes"', "example: not boolean"),
    ],
)
def test_a_wrong_job_breaks_the_schema(old, new, trouble):
    schema = job_schema()
    assert old in starter()
    found = _trouble(tomllib.loads(starter().replace(old, new)), schema, schema)
    assert any(trouble in one for one in found)


def test_every_quantity_says_what_it_is_and_shows_a_sample():
    for name, table in job_schema()["$defs"].items():
        for key, part in table["properties"].items():
            described = "description" in part or "$ref" in part or part.get("type") == "object"
            assert described, f"{name}.{key}"


def test_nothing_in_the_schema_is_null():
    assert "null" not in str(job_schema())
    assert "None" not in str(job_schema())

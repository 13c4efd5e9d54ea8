"""The compiled schema of an answer allows what `jsonschema` allows, and refuses what it refuses."""

import random
from typing import Any

import pytest

from tests.client import FORMATS, document, validator
from tests.compiled import SCHEMAS, Compiler, Schema

STRANGE = (None, True, 0, 1, 1.0, 1.5, -1, "", "x", "x" * 300, "2026-11-27", [], [None], {}, {"x": 1})
BY_FORMAT = {
    "date-time": "2026-11-27T10:00:00Z",
    "date": "2026-11-27",
    "uuid": "0" * 8 + "-0000" * 3 + "-" + "0" * 12,
    "decimal": "1.50",
}
BY_TYPE: dict[str, Any] = {"string": "words", "integer": 1, "boolean": True, "null": None}
KEYWORDS: list[Schema] = [
    {"type": "integer"},
    {"type": ["string", "null"], "maxLength": 3},
    {"type": "number", "minimum": 0, "maximum": 1},
    {"minimum": 1},
    {"minLength": 1},
    {"pattern": "^x"},
    {"type": "array", "items": {"type": "string"}},
    {"minItems": 1, "maxItems": 1},
    {"enum": [1, "x", None]},
    {"type": "string", "format": "date"},
    {"format": "date-time"},
    {"format": "email"},
    {"anyOf": [{"type": "string"}, {"type": "integer"}]},
    {"oneOf": [{"type": "integer"}, {"minimum": 1}]},
    {"type": "object", "required": ["x"]},
    {"properties": {"x": {"type": "string"}}},
    {"properties": {"y": {}}, "additionalProperties": False},
    {"additionalProperties": {"type": "string"}},
    {"additionalProperties": True},
    {"additionalProperties": {}},
]


def answers() -> dict[str, Schema]:
    """The schema of each JSON answer by its operation and status."""
    return {
        f"{method} {path} {status}": content["schema"]
        for path, methods in document()["paths"].items()
        for method, operation in methods.items()
        if "responses" in operation
        for status, answer in operation["responses"].items()
        for kind, content in answer.get("content", {}).items()
        if "json" in kind
    }


def allows(schema: Schema, value: Any) -> tuple[bool, bool]:
    """The verdicts of the compiled schema and of `jsonschema`."""
    compiled = Compiler(document()["components"]["schemas"], FORMATS).check(schema)
    return compiled(value), validator(schema).is_valid(value)


@pytest.mark.parametrize("schema", KEYWORDS, ids=str)
def test_each_keyword_means_the_same(schema: Schema) -> None:
    for value in STRANGE:
        compiled, expected = allows(schema, value)
        assert compiled is expected, value


def test_a_keyword_that_it_does_not_know_is_an_error() -> None:
    with pytest.raises(KeyError, match="contains"):
        Compiler({}, {}).check({"contains": {"type": "string"}})


def test_of_every_answer_one_that_is_right_passes_and_whatever_is_changed_in_it_is_judged_alike() -> None:
    """Each schema once: most operations share theirs."""
    chance, refused = random.Random(1), 0
    schemas = {str(schema): schema for schema in answers().values()}
    for schema in schemas.values():
        right = example(schema)
        assert allows(schema, right) == (True, True), schema
        for _ in range(4):
            wrong = changed(right, chance)
            compiled, expected = allows(schema, wrong)
            assert compiled is expected, (schema, wrong)
            refused += not compiled
    assert refused > len(schemas), "most changes break an answer"


def example(schema: Schema, depth: int = 0) -> Any:
    if "$ref" in schema:
        return example(document()["components"]["schemas"][schema["$ref"].removeprefix(SCHEMAS)], depth + 1)
    for kind in ("anyOf", "oneOf"):
        if kind in schema:
            return example(schema[kind][0], depth)
    if "enum" in schema:
        return schema["enum"][0]
    kind = schema.get("type", "object")
    match kind if isinstance(kind, str) else kind[0]:
        case "array":
            return [] if depth > 5 else [example(schema["items"], depth)]
        case "object":
            further = schema.get("additionalProperties")
            more = {"any": example(further, depth)} if isinstance(further, dict) else {}
            return {name: example(value, depth) for name, value in schema.get("properties", {}).items()} | more
        case "string":
            return BY_FORMAT.get(schema.get("format", ""), "words")
        case other:
            return BY_TYPE[other]


def changed(value: Any, chance: random.Random) -> Any:
    """A copy with another value at one place, or without that place."""
    if chance.random() < 0.2 or not value or not isinstance(value, dict | list):
        return chance.choice(STRANGE)
    if isinstance(value, list):
        return [changed(value[0], chance)]
    name = chance.choice(list(value))
    rest = {key: part for key, part in value.items() if key != name}
    return rest if chance.random() < 0.2 else rest | {name: changed(value[name], chance)}

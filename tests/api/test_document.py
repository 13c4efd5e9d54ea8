"""The committed OpenAPI document describes each operation and each field."""

import json
from collections import Counter
from collections.abc import Iterator
from typing import Any

from django.conf import settings

from shop.api.field_descriptions import FIELD_DESCRIPTIONS

DOCUMENT = json.loads((settings.BASE_DIR / "frontend" / "openapi.json").read_text("utf-8"))
OPERATIONS = {
    f"{method} {path}": operation
    for path, methods in DOCUMENT["paths"].items()
    for method, operation in methods.items()
}
AS_SENT = "ResultOut.id"  # of an event whose id may be none


def fields(schema: Any, name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every field of a schema at any depth, with the name of its component before its own."""
    if isinstance(schema, dict):
        for field, content in schema.get("properties", {}).items():
            yield f"{name}.{field}", content
        for content in schema.values():
            yield from fields(content, name)
    if isinstance(schema, list):
        for content in schema:
            yield from fields(content, name)


FIELDS = dict(pair for name, schema in DOCUMENT["components"]["schemas"].items() for pair in fields(schema, name))


def formats(content: dict[str, Any]) -> set[str | None]:
    """The formats of a text field, or of each text that a field can be; without null."""
    kinds = [kind for kind in content.get("anyOf", [content]) if kind.get("type") != "null"]
    return {kind.get("format") for kind in kinds}


def test_every_field_has_a_description() -> None:
    assert [name for name, content in FIELDS.items() if not content.get("description")] == []


QUESTIONS = ("How ", "What ", "When ", "Where ", "Which ", "Who ", "Whose ", "Why ")


def descriptions(content: Any) -> Iterator[str]:
    """Every description and summary in the document, at any depth."""
    if isinstance(content, dict):
        yield from (words for key in ("description", "summary") if isinstance(words := content.get(key), str))
    for inner in content.values() if isinstance(content, dict) else content if isinstance(content, list) else ():
        yield from descriptions(inner)


def test_every_description_names_its_subject() -> None:
    assert {words for words in descriptions(DOCUMENT) if words.startswith(QUESTIONS)} == set()


def test_every_description_that_fields_share_is_used() -> None:
    used = {name.rpartition(".")[2] for name, content in FIELDS.items()}
    shared = Counter(content["description"] for content in FIELDS.values())
    assert [name for name, words in FIELD_DESCRIPTIONS.items() if name not in used or shared[words] < 2] == []


def test_every_operation_has_a_summary_of_its_own() -> None:
    summaries = Counter(operation.get("summary") for operation in OPERATIONS.values())
    assert [name for name, operation in OPERATIONS.items() if summaries[operation.get("summary")] > 1] == []
    assert [name for name, operation in OPERATIONS.items() if " " not in operation["summary"]] == []


def test_every_parameter_has_a_description() -> None:
    assert [
        f"{name}: {parameter['name']}"
        for name, operation in OPERATIONS.items()
        for parameter in operation.get("parameters", ())
        if not parameter.get("description")
    ] == []


def test_ids_and_instants_have_their_format() -> None:
    ids = {name for name in FIELDS if name.endswith((".id", "_id"))} - {AS_SENT}
    assert [name for name in ids if formats(FIELDS[name]) != {"uuid"}] == []
    instants = {
        name for name in FIELDS if name.endswith("_at") and not name.endswith(("off_at", "back_at", "waits_at"))
    }
    assert [name for name in instants if formats(FIELDS[name]) != {"date-time"}] == []


CODED = {"answer", "charge", "device", "fluid", "glycol", "half", "kind", "problem", "role", "ships", "state", "status"}
CODED |= {"type", "units", "verdict", "weight"}
NO_CODES = {
    "CountEventOut.device": "the id of a phone",
    "CountEventOut.kind": "a newer phone may send others",
    "Problem.status": "the number of HTTP",
    "RemarkOut.problem": "the key of a problem of that file",
    "StepInRequest.problem": "the same",
    "QuoteOut.answer": "an answer of its own",
}


def test_coded_fields_are_enumerations() -> None:
    def lists_codes(content: dict[str, Any]) -> bool:
        name = content.get("$ref", "").rpartition("/")[2]
        return "enum" in (DOCUMENT["components"]["schemas"][name] if name else content)

    open_ = {
        name
        for name, content in FIELDS.items()
        if name.rpartition(".")[2] in CODED
        and not any(lists_codes(kind) for kind in content.get("anyOf", content.get("oneOf", [content])))
    }
    assert open_ == set(NO_CODES)


def test_a_change_names_the_fields_that_it_cannot_do_without() -> None:
    schemas = DOCUMENT["components"]["schemas"]
    assert schemas["ConsumableArchivedRequest"]["required"] == ["archived"]
    assert "required" not in schemas["LineChangeRequest"]


def test_a_list_says_how_many_entries_it_takes() -> None:
    lists = {
        name: (content["minItems"], content["maxItems"]) for name, content in FIELDS.items() if "minItems" in content
    }
    assert lists["NewTokenInRequest.areas"] == (1, 4)
    assert lists["HolidaysInRequest.days"] == (1, 60)

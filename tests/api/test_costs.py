"""Costs and margins have their own resource; no other answer has a field for them."""

from collections.abc import Iterator
from typing import Any

import pytest

from shop import access
from tests.api.endpoints import VIEWS
from tests.cast import Cast
from tests.client import document

pytestmark = pytest.mark.once

COST_RESOURCES = {
    f"/api/v1/shops/{{slug}}/{path}"
    for path in (
        "consumables/{id}/offers",
        "kits/{id}/cost",
        "quotes/{id}/margin",
        "quotes/{id}/outside/{line}",
        "quotes/{id}/kits-outside",
        "outside-work",
    )
}
OF_MANAGERS = {f"/api/v1/shops/{{slug}}/suppliers/{{id}}/shipments{last}" for last in ("", "/reading")}
WORDS = ("cost", "margin", "profit", "markup", "landed")


def fields(schema: Any, seen: frozenset[str] = frozenset()) -> Iterator[str]:
    """Every property name below a schema of the document."""
    if isinstance(schema, list):
        for item in schema:
            yield from fields(item, seen)
    elif isinstance(schema, dict):
        if (ref := schema.get("$ref")) and ref not in seen:
            name = ref.rsplit("/", 1)[1]
            yield from fields(document()["components"]["schemas"][name], seen | {ref})
        yield from schema.get("properties", {})
        for key, value in schema.items():
            if key != "$ref":
                yield from fields(value, seen)


def speaks_of_costs(path: str) -> bool:
    named = {
        field
        for operation in document()["paths"][path].values()
        for answer in operation["responses"].values()
        for content in answer.get("content", {}).values()
        for field in fields(content["schema"])
    }
    return any(word in field for field in named for word in WORDS)


def test_only_the_cost_resources_have_fields_for_costs() -> None:
    assert {path for path in document()["paths"] if speaks_of_costs(path)} == COST_RESOURCES | OF_MANAGERS


def test_costs_are_for_the_counter_and_the_office() -> None:
    for path in COST_RESOURCES:
        assert VIEWS[path].permissions["get"] == access.COUNTER
    for path in OF_MANAGERS:
        assert set(VIEWS[path].permissions.values()) == {access.OFFICE}


BARE = {"code": "OIL", "title": "Oil cooler kit", "price": "1234.5", "hours": "6"}


@pytest.mark.parametrize("role", ["technician", "parts"])
def test_a_bare_kit_keeps_its_selling_price_from_those_who_do_not_quote(cast: Cast, role: str) -> None:
    kit = cast.signed_in("advisor").post("kits", BARE).json()
    answer = cast.signed_in(role).get(f"kits/{kit['id']}")
    assert kit["price"] == "1234.50"
    assert (answer.json()["price"], answer.json()["hours"]) == (None, "6.00")
    assert b"1234." not in answer.content + cast.signed_in(role).get("kits").content

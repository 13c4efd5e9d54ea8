"""Answers are frozen structs: their JSON, and their components in OpenAPI."""

import hashlib
from datetime import date, datetime
from decimal import Decimal
from types import SimpleNamespace
from typing import Annotated, Any
from uuid import UUID
from zoneinfo import ZoneInfo

import pytest
from django.db.models import TextChoices
from msgspec import Meta

from shop.answers.base import Answer, Exact, Instant, utc
from shop.api.components import components, list_of
from shop.api.openapi import complete
from shop.encoding import encode
from shop.models import Command
from tests.cast import Cast

NOON = datetime(2026, 7, 1, 12, 30, tzinfo=ZoneInfo("Europe/Berlin"))


class Colour(TextChoices):
    RED = "red"
    BLUE = "blue"


class BagOut(Answer, frozen=True):
    """A bag."""

    id: UUID
    colour: Annotated[Colour, Meta(description="Of the label.")]
    before: Colour | None
    weight: Exact | None
    packed_at: Instant
    due: date


BAG = BagOut(UUID(int=7), Colour.RED, None, "0.500", utc(NOON), date(2026, 7, 2))


def test_an_answer_is_written_with_instants_in_utc_and_decimals_as_text() -> None:
    assert encode(BAG) == (
        b'{"id":"00000000-0000-0000-0000-000000000007","colour":"red","before":null,"weight":"0.500",'
        b'"packed_at":"2026-07-01T10:30:00Z","due":"2026-07-02"}'
    )
    assert encode({"price": Decimal("1.50"), "bags": [BAG.colour]}) == b'{"price":"1.50","bags":["red"]}'
    with pytest.raises(TypeError, match="object"):
        encode({"anything": object()})


def test_a_component_has_the_formats_descriptions_and_enumerations_of_its_answer() -> None:
    schemas = components([list_of(BagOut)])
    assert schemas["Colour"] == {"type": "string", "enum": ["red", "blue"]}
    assert schemas["BagListOut"]["properties"]["items"]["items"] == {"$ref": "#/components/schemas/BagOut"}
    bag, colour = schemas["BagOut"], {"$ref": "#/components/schemas/Colour"}
    assert (bag["description"], bag["required"]) == ("A bag.", [*bag["properties"]])
    assert bag["properties"] == {
        "id": {"type": "string", "format": "uuid"},
        "colour": {"description": "Of the label."} | colour,
        "before": {"anyOf": [colour, {"type": "null"}]},
        "weight": {"anyOf": [{"type": "string", "format": "decimal"}, {"type": "null"}]},
        "packed_at": {"type": "string", "format": "date-time"},
        "due": {"type": "string", "format": "date"},
    }


def another(name: str, *bases: Any, **fields: Any) -> Any:
    return type(bases[0])(name, bases, {"__annotations__": fields, "__module__": "elsewhere"})


def test_two_enumerations_of_one_name_are_refused() -> None:
    size = TextChoices("Colour", {"SMALL": "small"})  # type: ignore[misc]
    assert components([another("SizeOut", Answer, size=size)])["Colour"]["enum"] == ["small"]
    with pytest.raises(ValueError, match="two enumerations are called Colour"):
        components([BagOut, another("SizeOut", Answer, size=size)])


def test_two_answers_of_one_name_are_refused() -> None:
    with pytest.raises(ValueError, match=r"two answers have one name: .*BagOut"):
        components([BagOut, another("BagOut", Answer, id=int)])
    with pytest.raises(ValueError, match="an answer and an enumeration have one name: Colour"):
        components([BagOut, another("Colour", Answer, id=int)])


def test_a_serializer_and_an_answer_of_one_name_are_refused() -> None:
    view = SimpleNamespace(cls=SimpleNamespace(responses={"get": BagOut}))
    generator = SimpleNamespace(endpoints=[("bags", "", "GET", view)])
    result: dict[str, Any] = {"paths": {}, "components": {"schemas": {}}}
    assert {"BagOut", "Colour"} <= complete(result, generator)["components"]["schemas"].keys()
    with pytest.raises(ValueError, match=r"a serializer and an answer have one name: .*BagOut"):
        complete({"paths": {}, "components": {"schemas": {"BagOut": {}}}}, generator)


@pytest.mark.once
def test_the_print_in_an_etag_is_of_the_bytes_that_are_sent(cast: Cast) -> None:
    advisor = cast.signed_in("advisor")
    answer = advisor.post("customers", {"name": "Pia Rask"})
    read = advisor.get(f"customers/{answer.json()['id']}")
    assert read.content == answer.content
    assert read["ETag"] == answer["ETag"] == f'"1.{hashlib.sha256(read.content).hexdigest()[:12]}"'


def test_a_command_keeps_an_answer_that_was_written_as_plain_data(cast: Cast) -> None:
    advisor, key = cast.signed_in("advisor"), str(UUID(int=12))
    first, again = (advisor.post("customers", {"name": "Pia Rask"}, key=key) for _ in range(2))
    assert Command.objects.get(pk=key).result == first.json() == again.json()

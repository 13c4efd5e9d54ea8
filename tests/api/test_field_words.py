"""Errors in a field are worded by our catalogue, at the field: no sentence of the framework reaches a person."""

from collections.abc import Iterator
from typing import Any

import pytest
from rest_framework import serializers

from shop.words import catalogue, template
from tests.api.endpoints import VIEWS
from tests.cast import Cast
from tests.quotes.stage import Stage, make_stage

OURS = {reading for text in catalogue().values() for reading in text.readings()}


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


def below(field: Any) -> Iterator[Any]:
    yield field
    for inner in getattr(field, "fields", {}).values():
        yield from below(inner)
    child = getattr(field, "child", None)
    if child is not None:
        yield from below(child)


TAKEN = [
    field for view in VIEWS.values() for shape in view.request_bodies.values() if shape for field in below(shape())
]


def test_every_field_that_is_taken_in_speaks_our_words() -> None:
    assert len(TAKEN) > 60
    messages = {(type(field).__name__, str(words)) for field in TAKEN for words in field.error_messages.values()}
    assert {message for message in messages if message[1] not in OURS} == set()


def test_every_sentence_stands_for_one_of_the_framework() -> None:
    for key in (key.removeprefix("field-says-") for key in catalogue() if key.startswith("field-says-")):
        kind, code = key.split("-")
        assert code in getattr(serializers, kind).default_error_messages, key
        assert f"field-{code}" not in catalogue(), f"{code} is one of our own errors, whose words would be said instead"


def details_of(answer: Any) -> dict[str, str]:
    assert answer.status_code == 400, answer.content
    return {error["pointer"]: error["detail"] for error in answer.json()["errors"]}


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ({"price": "-1"}, {"/price": "Enter 0 or more."}),
        ({"price": "12345678901"}, {"/price": "Use at most 10 digits before the decimal point."}),
        ({"price": "twelve"}, {"/price": "Enter a number in digits, such as 12.50."}),
        ({"price": "1" * 2000}, {"/price": "This number is too long."}),
        ({"hours": "999.9"}, {"/hours": "This is more than one piece of work can take; enter at most 999 hours."}),
        ({"hours": "10000"}, {"/hours": "Use at most 4 digits before the decimal point."}),
        ({"title": "x" * 201}, {"/title": "Use at most 200 characters."}),
        ({"title": ""}, {"/title": "Enter something."}),
        ({"code": None}, {"/code": "This cannot be left empty."}),
        ({"code": "a\0b"}, {"/code": "It contains an invalid character. Type it again."}),
    ],
)
def test_a_kit_with_something_wrong_says_what(cast: Cast, body: Any, words: Any) -> None:
    kit = {"code": "K-1", "title": "Kit", "price": "100.00", "hours": "2.00"}
    assert details_of(cast.signed_in("advisor").post("kits", kit | body)) == words


@pytest.mark.parametrize("line", [{"quantity": "100000", "unit_price": "100000"}])
def test_a_line_that_comes_to_more_than_can_be_kept_is_refused(stage: Stage, line: dict[str, str]) -> None:
    quote = stage.quote().json()
    where = f"quotes/{quote['id']}/lines"
    words = {"/unit_price": "The total is more than a line can hold. Check quantity and price."}
    assert details_of(stage.client.post(where, {"kind": "text", "title": "Paint", "tax_class": "part"} | line)) == words
    just = stage.client.post(
        where, {"kind": "text", "title": "Paint", "tax_class": "part"} | line | {"unit_price": "99999"}
    ).json()
    where, seen = f"{where}/{just['extras'][0]['line']}", f'"{just["version"]}"'
    assert details_of(stage.client.patch(where, {"unit_price": "100000"}, seen=seen)) == words
    more = details_of(stage.client.patch(where, {"quantity": "200000"}, seen=seen))
    assert more == {"/quantity": words["/unit_price"]}


def test_hours_in_the_place_of_computed_ones_have_an_end(stage: Stage) -> None:
    quote = stage.quote().json()
    where, seen = f"quotes/{quote['id']}/overrides/labour:TURBO", f'"{quote["version"]}"'
    assert stage.client.put(where, {"value": "999", "because": "agreed"}, seen=seen).status_code == 200
    seen = f'"{quote["version"] + 1}"'
    words = "This is more than one piece of work can take; enter at most 999 hours."
    assert details_of(stage.client.put(where, {"value": "999.1", "because": "agreed"}, seen=seen)) == {"/value": words}


def test_what_a_row_refuses_is_told_by_what_is_wrong() -> None:
    from decimal import Decimal

    from django.core.exceptions import ValidationError

    from shop.api.problems import as_problem
    from shop.models import Customer, Rate

    def words(row: Any) -> Any:
        with pytest.raises(ValidationError) as refused:
            row.clean_fields(exclude=["id", "shop", "name_key", "currency", "valid_from"])
        return {error["pointer"]: error["detail"] for error in as_problem(refused.value, {}).data["errors"]}

    assert words(Customer(name="x" * 300)) == {"/name": "Use at most 120 characters."}
    assert words(Rate(rate=Decimal(10) ** 13)) == {"/rate": template("field.kept.too_large")}
    assert words(Rate(rate=Decimal("1.1234567"))) == {"/rate": template("field.kept.decimals")}

"""Points that are still to be settled on a draft, each with the place where a person settles it."""

from typing import Any

import pytest

from shop.models import Vehicle
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def places(quote: dict[str, Any]) -> list[tuple[str, bool]]:
    return [(point["place"], point["stops"]) for point in quote["to_settle"]]


def test_an_empty_draft_needs_customer_vehicle_and_kit(stage: Stage) -> None:
    quote = stage.client.post("quotes", {"kits": []}).json()
    assert places(quote) == [("customer", True), ("vehicle", True), ("kits", True)]
    assert [point["words"] for point in quote["to_settle"]] == quote["stops"]


def test_a_thing_that_is_a_notice_too_is_listed_once_at_its_own_place(stage: Stage) -> None:
    Vehicle.objects.update(capacities={})
    quote = stage.quote().json()
    assert places(quote) == [("vehicle_facts", True)]
    assert quote["to_settle"][0]["words"] in {notice["words"] for notice in quote["notices"]}


def test_what_was_sent_has_nothing_to_settle(stage: Stage) -> None:
    assert stage.quote().json()["to_settle"] == []
    assert stage.sent()["quote"]["to_settle"] == []

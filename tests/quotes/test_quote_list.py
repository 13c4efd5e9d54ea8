"""The list of quotes by what was typed, and of one customer, vehicle, kit or part."""

from typing import Any

import pytest

from kitting.models import KitLine
from quotes.models import Revision
from shop.queries import search
from tests.factories import CustomerFactory, KitFactory, PartFactory, VehicleFactory
from tests.quotes.stage import Stage
from tests.quotes.test_draft_list import discard

pytestmark = pytest.mark.once


@pytest.fixture
def quotes(stage: Stage) -> tuple[str, ...]:
    """Numbers of Maren's quotes over both kits and over the towing kit, and of Bo's over the turbocharger kit."""
    other = CustomerFactory(shop=stage.cast.shop, name="Bo Fell", phone="01632 960 999")
    car = VehicleFactory(shop=stage.cast.shop, customer=other, title="Vell 2.4 coupe", plate="CF 20")
    both, towing = stage.quote().json(), stage.quote(stage.towing).json()
    return *(quote["number"] for quote in (both, towing)), _of(stage, other, car)


def _of(stage: Stage, customer: Any, vehicle: Any) -> str:
    fields = {"customer": str(customer.pk), "vehicle": str(vehicle.pk)}
    number: str = stage.quote(stage.turbo, **fields).json()["number"]
    return number


def listed(stage: Stage, **query: Any) -> list[str]:
    answer = stage.client.get("quotes", query)
    assert answer.status_code == 200, answer.content
    return [item["number"] for item in answer.json()["items"]]


def test_every_word_is_of_the_customer_the_vehicle_or_a_kit(stage: Stage, quotes: tuple[str, ...]) -> None:
    both, towing, other = quotes
    for typed, numbers in [
        ("", [other, towing, both]),
        ("turbo", [other, both]),
        ("oldacre turbochargers", [both]),
        ("coupe", [other]),
        ("bo turbo vell", [other]),
        ("bo towing", []),
        (other, [other]),
        (towing.removeprefix("Q-"), [towing]),
        ("Q-999", []),
        ("x", []),
    ]:
        assert listed(stage, q=typed) == numbers, typed
    assert listed(stage, q="turbo", state="draft") == [other, both]
    assert listed(stage, q="turbo", state="sent") == []


def test_a_customer_a_vehicle_a_kit_and_a_part_lead_to_their_quotes(stage: Stage, quotes: tuple[str, ...]) -> None:
    both, towing, other = quotes
    assert listed(stage, customer=stage.customer.pk) == [towing, both]
    assert listed(stage, vehicle=stage.vehicle.pk) == [towing, both]
    assert listed(stage, kit=stage.turbo.pk) == [other, both]
    assert listed(stage, kit=stage.turbo.pk, customer=stage.customer.pk) == [both]
    assert listed(stage, kit=KitFactory(shop=stage.cast.shop).pk) == []


def test_a_part_leads_to_the_quotes_that_have_it_loose_or_in_a_kit(stage: Stage, quotes: tuple[str, ...]) -> None:
    both, towing, _ = quotes
    loose = PartFactory(shop=stage.cast.shop)
    begun = stage.client.post("quotes", {"kits": [], "parts": [str(loose.pk)]}).json()["number"]
    lines = KitLine.objects.exclude(part=None)
    turbo = lines.filter(revision__kit=stage.turbo).values("part")
    line = lines.filter(revision__kit=stage.towing).exclude(part__in=turbo)[0]
    assert listed(stage, part=line.part_id) == [towing, both]
    assert listed(stage, part=loose.pk) == [begun]


def test_they_are_looked_for_among_the_newest_versions(
    stage: Stage, quotes: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    other = quotes[-1]
    monkeypatch.setattr(search, "LOOKED_THROUGH", 1)
    assert listed(stage, q="turbo") == [other]
    assert listed(stage, kit=stage.towing.pk) == []
    assert len(listed(stage, customer=stage.customer.pk)) == 2


def test_a_discarded_draft_is_in_no_list(stage: Stage) -> None:
    quote = stage.quote().json()
    assert discard(stage, quote).status_code == 204
    assert Revision.objects.exists()
    assert listed(stage, q="turbo") == listed(stage, customer=stage.customer.pk) == []


def test_only_an_answered_quote_says_when_it_was_answered(stage: Stage) -> None:
    stage.quote()
    (row,) = stage.client.get("quotes").json()["items"]
    assert row["answered_at"] is None

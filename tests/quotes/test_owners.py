"""A vehicle goes to another owner on a day: its history says so, and an open draft for the earlier owner too."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone

from quotes.models import Quote
from quotes.queries.pricing import shop_day
from shop.imports.vehicles import KIND
from shop.models import Customer
from shop.presenters.dates import day_words
from tests.factories import CustomerFactory, VehicleFactory
from tests.imports.test_kinds import planned
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def today(stage: Stage) -> date:
    return shop_day(stage.shop, timezone.now())


def new_owner(stage: Stage) -> Customer:
    owner: Customer = CustomerFactory(shop=stage.shop, name="Ada Ferris")
    return owner


def sell(stage: Stage, owner: Customer, days_ago: int = 3) -> Any:
    since = (today(stage) - timedelta(days=days_ago)).isoformat()
    return stage.client.post(f"vehicles/{stage.vehicle.pk}/owners", {"customer": str(owner.pk), "since": since})


def notices(stage: Stage, quote: dict[str, Any]) -> list[str]:
    answer = stage.client.get(f"quotes/{quote['id']}").json()
    return [notice["words"] for notice in answer["notices"] if notice["code"] == "other_owner"]


def test_the_history_names_both_owners_and_the_day(stage: Stage) -> None:
    owner = new_owner(stage)
    answer = sell(stage, owner)
    assert (answer.status_code, answer.json()["customer_name"]) == (201, "Ada Ferris"), answer.content
    (change,) = stage.client.get(f"vehicles/{stage.vehicle.pk}/owners").json()["items"]
    day = today(stage) - timedelta(days=3)
    assert (change["before"], change["after"], change["since"]) == ("Maren Oldacre", "Ada Ferris", day.isoformat())
    assert change["words"].startswith(f"since {day_words(day)}; recorded by Advisor on ")


def test_an_open_draft_says_so_and_every_quote_keeps_its_customer(stage: Stage) -> None:
    sent, draft = stage.sent()["quote"], stage.quote().json()
    assert notices(stage, draft) == []
    sell(stage, new_owner(stage))
    day = day_words(today(stage) - timedelta(days=3))
    assert notices(stage, draft) == [
        f"Tessark T35 estate has belonged to Ada Ferris since {day}. "
        "This quote is for Maren Oldacre: change the customer if that is wrong."
    ]
    assert notices(stage, sent) == []
    assert {quote.customer_id for quote in Quote.objects.all()} == {stage.customer.pk}


def test_a_draft_for_whoever_pays_is_not_told_of_an_earlier_change(stage: Stage) -> None:
    sell(stage, new_owner(stage))
    draft = stage.quote().json()
    assert draft["customer"]["name"] == "Maren Oldacre" and notices(stage, draft) == []


def test_it_refuses_a_day_to_come_one_of_another_century_and_the_owner_it_has(stage: Stage) -> None:
    owner = new_owner(stage)
    assert sell(stage, owner, days_ago=-1).json()["errors"][0]["pointer"] == "/since"
    assert "Check the year" in sell(stage, owner, days_ago=730_000).json()["errors"][0]["detail"]
    assert sell(stage, stage.customer).json()["errors"][0]["pointer"] == "/customer"
    assert stage.client.get(f"vehicles/{stage.vehicle.pk}/owners").json() == {"items": []}


def test_another_owner_than_the_recorded_one_comes_with_a_day(stage: Stage) -> None:
    """By a change of the vehicle it is refused; a file of vehicles records it from the day of the import on."""
    owner, path = new_owner(stage), f"vehicles/{stage.vehicle.pk}"
    for customer in (str(owner.pk), None):
        answer = stage.client.patch(path, {"customer": customer}, seen='"1"')
        (error,) = answer.json()["errors"]
        assert (answer.status_code, error["pointer"]) == (400, "/customer")
        assert "POST to the owners" in error["detail"]
    assert stage.client.patch(path, {"customer": str(stage.customer.pk)}, seen='"1"').status_code == 200
    free = VehicleFactory(shop=stage.shop, customer=None, plate="FR 33")
    assert stage.client.patch(f"vehicles/{free.pk}", {"customer": str(owner.pk)}, seen='"1"').status_code == 200
    actor = stage.cast.acting("manager")
    file = f"Vehicle,Customer,VIN\n{stage.vehicle.title},{owner.name},{stage.vehicle.vin}\n"
    KIND.write(actor, planned(KIND, file).plan, today(stage))
    (change,) = stage.client.get(f"{path}/owners").json()["items"]
    assert (change["after"], change["since"]) == (owner.name, today(stage).isoformat())

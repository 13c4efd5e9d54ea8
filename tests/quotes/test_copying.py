"""A quote is copied to another customer or vehicle: what was chosen, at today's prices, without own figures."""

from typing import Any

import pytest

from quotes.models import Override, Quote
from shop.models import History
from tests.factories import CustomerFactory, OfferFactory, PartFactory, VehicleFactory
from tests.quotes.stage import Stage
from tests.quotes.test_newer_rules import enact
from tests.quotes.test_query_counts import grow, queries

pytestmark = pytest.mark.once

OUTSIDE = {"title": "Calibration", "firm": "Lathe & Lambda", "cost": "480.00", "tax_class": "labour", "days": 3}


def copied(stage: Stage, quote: dict[str, Any], **to: str) -> Any:
    return stage.client.post(f"quotes/{quote['id']}/copy", to)


def test_a_copy_has_what_was_chosen_and_no_customer(stage: Stage) -> None:
    quote = stage.quote().json()
    path = f"quotes/{quote['id']}"
    stage.client.post(f"{path}/outside", OUTSIDE)
    text = {"kind": "text", "title": "Polish", "unit_price": "40.00", "tax_class": "part"}
    stage.client.post(f"{path}/lines", text)
    answer = copied(stage, quote)
    copy = answer.json()
    assert answer.status_code == 201 and copy["id"] != quote["id"] and copy["number"] == "Q-2"
    assert (copy["customer"], copy["vehicle"], copy["revision"], copy["undo"]) == (None, None, 1, None)
    assert [kit["code"] for kit in copy["kits"]] == [kit["code"] for kit in quote["kits"]]
    assert [line["title"] for line in copy["extras"]] == ["Polish"]
    assert [work["name"] for work in copy["outside"]] == ["Calibration by Lathe & Lambda"]
    assert stage.client.get(path).json()["kits"] == quote["kits"]
    assert History.objects.filter(verb="copied").count() == 1


def test_own_figures_own_prices_and_the_discount_stay_behind(stage: Stage) -> None:
    part = PartFactory(shop=stage.shop, title="Boost gauge")
    OfferFactory(shop=stage.shop, part=part)
    quote = stage.quote().json()
    path, client, key = f"quotes/{quote['id']}", stage.client, quote["kits"][0]["key"]
    client.put(f"{path}/overrides/{key}", {"value": "1.00", "because": "x"}, seen=f'"{quote["version"]}"')
    added = client.post(f"{path}/lines", {"kind": "part", "part": str(part.pk)}).json()
    line = added["extras"][0]
    priced = client.patch(
        f"{path}/lines/{line['line']}", {"unit_price": "1.00", "because": "agreed"}, seen=f'"{added["version"]}"'
    ).json()
    discounted = client.put(f"{path}/discount", {"percent": "5", "because": "x"}, seen=f'"{priced["version"]}"').json()
    assert discounted["discount"] and discounted["extras"][0]["price"] == "1.00"
    sent = stage.client.post(f"{path}/send", {"version": discounted["version"], "recipient": "x", "below_floor": True})
    copy = copied(stage, sent.json()["quote"]).json()
    assert (copy["discount"], copy["kits"][0]["price"]) == (None, quote["kits"][0]["price"])
    assert copy["extras"][0]["price"] == line["price"] != "1.00"
    assert Override.objects.filter(revision__quote=copy["id"]).count() == 0


def test_a_copy_is_priced_by_the_rules_of_today(stage: Stage) -> None:
    quote = stage.quote().json()
    enact(stage)
    copy = copied(stage, quote, customer=str(stage.customer.pk), vehicle=str(stage.vehicle.pk)).json()
    assert (copy["rules"]["number"], copy["totals"]["gross"], quote["totals"]["gross"]) == (2, "3274.38", "3207.38")


def test_what_does_not_fit_the_other_vehicle_is_said_and_stops_the_sending(stage: Stage) -> None:
    stage.turbo.fits = [{"attribute": "model", "in": ["Tessark T35"]}]
    stage.turbo.save()
    quote = stage.quote().json()
    vell = VehicleFactory(shop=stage.shop, title="Vell 2.4 coupe", attributes={"model": "Vell 2.4"})
    copy = copied(stage, quote, vehicle=str(vell.pk)).json()
    assert copy["vehicle"]["title"] == "Vell 2.4 coupe"
    assert [notice["code"] for notice in copy["notices"] if "Turbo" in notice["words"]] == ["kit_not_for_vehicle"]


@pytest.mark.parametrize("key", ["customer", "vehicle"])
def test_nobody_of_another_shop_gets_a_copy(stage: Stage, key: str) -> None:
    factory = {"customer": CustomerFactory, "vehicle": VehicleFactory}[key]
    quote = stage.quote().json()
    assert copied(stage, quote, **{key: str(factory(shop=stage.cast.elsewhere).pk)}).status_code == 404
    assert Quote.objects.filter(shop=stage.shop).count() == 1


def test_the_number_of_queries_does_not_grow_with_a_kit(stage: Stage) -> None:
    few = queries(lambda: copied(stage, stage.quote(stage.turbo).json()))
    grow(stage)
    quote = stage.quote(stage.towing).json()
    assert queries(lambda: copied(stage, quote)) <= few

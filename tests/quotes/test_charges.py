"""A consumable is charged as whole packs, as used, or within the shop supplies: one way, which the advisor may choose.

The stage's oil: 6.1 L from packs of 5 L and twice 1 L, which sell at 69.00 and cost 46.00.
"""

from typing import Any
from uuid import uuid4

import pytest

from kitting.models import Need, PullLine
from quotes.models import Override, Revision
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once


def choose(stage: Stage, quote: dict[str, Any], way: str | None, item: str = "") -> Any:
    path = f"quotes/{quote['id']}/charges/{item or quote['needs'][0]['item']}"
    return stage.client.put(path, {"charge": way}, seen=f'"{quote["version"]}"')


def oil(quote: dict[str, Any]) -> tuple[str, str, str]:
    [need] = quote["needs"]
    return need["charge"], need["charged_because"], need["price"]


def test_the_advisor_chooses_and_goes_back(stage: Stage) -> None:
    quote = stage.quote().json()
    assert oil(quote) == ("pack", "kit", "69.00")
    used = choose(stage, quote, "used").json()
    assert oil(used) == ("used", "chosen", "60.13") and "you chose how it is charged" in used["needs"][0]["why"]
    assert used["undo"] == {"words": "How engine oil, 5W-30 is charged"}
    covered = choose(stage, used, "supplies").json()
    assert oil(covered) == ("supplies", "chosen", "0.00")
    assert oil(choose(stage, covered, None).json()) == ("pack", "kit", "69.00")


def test_the_margin_counts_what_is_used_where_the_packs_are_not_sold_whole(stage: Stage) -> None:
    quote = stage.quote().json()

    def cost() -> Any:
        return stage.client.get(f"quotes/{quote['id']}/margin").json()["cost"]

    whole = cost()
    quote = choose(stage, quote, "used").json()
    assert float(whole) - float(cost()) == pytest.approx(46.00 - 40.09)


def test_the_rules_charge_a_family_in_their_way(stage: Stage) -> None:
    stage.enact(RULES | {"charges": {"Engine oil": "used"}})
    quote = stage.quote().json()
    assert oil(quote) == ("used", "rules", "60.13")
    assert "the price rules say how it is charged" in quote["needs"][0]["why"]
    assert oil(choose(stage, quote, "pack").json()) == ("pack", "chosen", "69.00")


def test_a_price_of_its_own_goes_with_the_way_it_was_for(stage: Stage) -> None:
    quote = stage.quote().json()
    own = {"value": "50.00", "because": "A friend"}
    path = f"quotes/{quote['id']}/overrides/{quote['needs'][0]['key']}"
    priced = stage.client.put(path, own, seen=f'"{quote["version"]}"').json()
    assert oil(priced)[2] == "50.00"
    covered = choose(stage, priced, "supplies").json()
    assert oil(covered)[2] == "0.00" and not Override.objects.exists()
    back = stage.client.post(f"quotes/{quote['id']}/undo", {"version": covered["version"]}).json()
    assert oil(back) == ("pack", "kit", "50.00")


def test_the_same_way_again_changes_nothing(stage: Stage) -> None:
    quote = choose(stage, stage.quote().json(), "used").json()
    assert choose(stage, quote, "used").json()["version"] == quote["version"]


def test_what_the_quote_does_not_need_and_unknown_ways_are_refused(stage: Stage) -> None:
    quote = stage.quote().json()
    other = choose(stage, quote, "used", item=str(uuid4()))
    assert (other.status_code, other.json()["errors"][0]["pointer"]) == (400, "/item")
    assert choose(stage, quote, "by the spoon").status_code == 400


@pytest.mark.parametrize("way", ["pack", "used", "supplies"])
def test_the_packs_are_pulled_in_each_way_and_the_customer_reads_what_is_charged(stage: Stage, way: str) -> None:
    quote = choose(stage, stage.quote().json(), way).json()
    sent = stage.client.post(f"quotes/{quote['id']}/send", {"version": quote["version"], "recipient": "x"}).json()
    phone = Phone(sent["link"]["url"])
    words = {"pack": "1 × Part OIL-5", "used": "6.1 L, charged as used", "supplies": "1 item: engine oil, 5W-30"}
    for charged, phrase in words.items():
        assert (phrase in phone.html) == (charged == way)
    assert phone.answer().status_code == 303
    pulled = PullLine.objects.filter(kind="need").values_list("number", "quantity")
    assert sorted(pulled) == [("OIL-1", 2), ("OIL-5", 1)]


def test_the_next_version_keeps_the_way(stage: Stage) -> None:
    quote = choose(stage, stage.quote().json(), "used").json()
    stage.client.post(f"quotes/{quote['id']}/send", {"version": quote["version"], "recipient": "x"})
    revised = stage.client.post(f"quotes/{quote['id']}/revise").json()
    assert oil(revised) == ("used", "chosen", "60.13")
    assert Revision.objects.get(state="draft").charges == {revised["needs"][0]["item"]: "used"}


def test_kits_that_differ_are_charged_once(stage: Stage) -> None:
    need = Need.objects.get()
    other = stage.towing.revisions.get()
    Need.objects.create(
        shop=stage.shop, revision=other, position=1, consumable=need.consumable, quantity=1, charge="supplies"
    )
    quote = stage.quote().json()
    assert oil(quote) == ("pack", "kits_differ", "81.00")  # 7.1 L: one pack of 5 L and three of 1 L

"""Consumables and packs changed on a screen: read like a row of a file, one version at a time."""

from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.utils import timezone

from kitting.imports.consumables import KIND as CONSUMABLES
from kitting.models import Consumable, Offer, Part
from quotes.queries.pricing import shop_day
from shop.models import History, RuleSet
from tests.cast import Cast
from tests.factories import PartFactory
from tests.imports.test_kinds import planned
from tests.quotes.stage import RULES, make_stage

pytestmark = pytest.mark.once

FACTS = {
    "family": "gear oil",
    "specification": "75W-90",
    "form": "liquid",
    "hazard": "Warning: keep off the skin",
    "shelf_life": "730",
    "tax_class": "",
}
PACK = {
    "title": "Gear oil, 1 L",
    "pack_size": "1",
    "sells": "19.90",
    "supplier": "Quillfen Supply",
    "cost": "8.5",
    "lead_days": "3",
    "duty": "4 %",
}
OIL = FACTS | PACK | {"unit": "litre", "number": "GO-1"}


@pytest.fixture
def manager(cast: Cast) -> Any:
    return cast.signed_in("manager")


def added(manager: Any, **fields: Any) -> dict[str, Any]:
    answer = manager.post("consumables", OIL | fields)
    assert answer.status_code == 201, answer.content
    body: dict[str, Any] = answer.json()
    return body


def fault(answer: Any) -> dict[str, str]:
    assert answer.status_code == 400, answer.content
    return {error["pointer"]: error["detail"] for error in answer.json()["errors"]}


def offer(client: Any, oil: dict[str, Any]) -> dict[str, Any]:
    answer = client.get(f"consumables/{oil['id']}/offers")
    assert answer.status_code == 200, answer.content
    row: dict[str, Any] = answer.json()["items"][0]
    return row


def test_a_consumable_is_added_with_its_first_pack_and_found_by_their_words(cast: Cast, manager: Any) -> None:
    oil, advisor = added(manager), cast.signed_in("advisor")
    assert {name: oil[name] for name in FACTS} == FACTS
    assert (oil["unit"], oil["kits"], oil["version"]) == ("L", [], 2)
    pack = oil["packs"][0]
    assert (pack["number"], pack["pack_size"], pack["sells"]) == ("GO-1", "1", "19.9")
    price = offer(advisor, oil)
    assert (price["supplier"], price["cost"], price["duty"], price["lead_days"]) == (
        "Quillfen Supply",
        "8.5",
        "4 %",
        "3",
    )
    for words in ("75W gear", "go-1"):
        items = advisor.get("consumables", {"q": words}).json()["items"]
        assert [(item["family"], item["packs"]) for item in items] == [("gear oil", ["1"])]
    assert advisor.get("consumables", {"q": "brake"}).json()["items"] == []
    assert "gear oil of this specification already" in fault(manager.post("consumables", OIL))["/specification"]
    other = OIL | {"specification": "80W-90"}
    assert "Number GO-1 is taken" in fault(manager.post("consumables", other))["/number"]
    assert Consumable.objects.filter(shop=cast.shop).count() == 1


def test_facts_are_changed_by_one_person_at_a_time(cast: Cast, manager: Any) -> None:
    oil = added(manager)
    where = f"consumables/{oil['id']}"
    changed = manager.put(where, FACTS | {"specification": "75W-140", "hazard": ""}, seen='"2"')
    assert (changed.status_code, changed.json()["specification"], changed.json()["hazard"]) == (200, "75W-140", "")
    assert manager.put(where, FACTS, seen='"2"').status_code == 412
    assert (
        "more than 0 decimal places."
        in fault(manager.put(where, FACTS | {"shelf_life": "1.5"}, seen=changed))["/shelf_life"]
    )
    added(manager, number="GO-2")
    assert "already" in fault(manager.put(where, FACTS, seen=changed))["/specification"]
    entry = History.objects.get(subject="consumable", verb="changed")
    assert entry.changes == {
        "specification": ["75W-90", "75W-140"],
        "hazard": ["Warning: keep off the skin", ""],
    }
    assert Consumable.objects.get(pk=oil["id"]).hazard == {"form": "liquid"}


@pytest.mark.parametrize("text", ["", " ", "\u202e", "\x01"])
def test_a_text_in_which_nothing_can_be_seen_is_missing_at_its_field(manager: Any, text: str) -> None:
    oil = added(manager)
    where = f"consumables/{oil['id']}"
    changed = manager.put(where, FACTS | {"family": text}, seen=f'"{oil["version"]}"')
    assert [*fault(changed)] == ["/family"]
    for name in ("number", "pack_size"):
        pack = PACK | {"number": "GO-2", name: text}
        assert [*fault(manager.post(f"{where}/packs", pack))] == [f"/{name}"]
        assert f"/{name}" in fault(manager.post("consumables", OIL | pack))


def test_a_changed_price_is_an_offer_of_today_and_its_supplier_counts(cast: Cast, manager: Any) -> None:
    oil = added(manager)
    pack = Part.objects.get(number="GO-1")
    where = f"consumables/{oil['id']}/packs/{pack.pk}"
    Offer.objects.filter(part=pack).update(valid_from="2026-01-05")
    bought = {name: text for name, text in offer(manager, oil).items() if name not in ("pack", "notices", "valid_from")}
    titled = manager.put(where, {"title": "Tin", "pack_size": "1.5", "sells": "", **bought}, seen='"2"')
    pack.refresh_from_db()
    assert (titled.status_code, pack.title, pack.pack_size, pack.selling_price) == (200, "Tin", Decimal("1.5"), None)
    assert Offer.objects.filter(part=pack).count() == 1
    dearer = bought | {"supplier": "Ferrous & Vane", "cost": "7"}
    manager.put(where, {"title": "Tin", "pack_size": "1.5", **dearer}, seen=titled)
    assert (offer(manager, oil)["supplier"], offer(manager, oil)["cost"]) == ("Ferrous & Vane", "7")
    assert Offer.objects.filter(part=pack).count() == 2
    entry = History.objects.filter(subject="part", verb="changed").latest("recorded_at")
    assert entry.changes == {"supplier": ["Quillfen Supply", "Ferrous & Vane"], "cost": ["8.5", "7"]}
    version = manager.get(f"consumables/{oil['id']}")
    refused = manager.put(where, {"title": "Tin", "pack_size": "1.5"}, seen=version)
    assert "archive the pack" in fault(refused)["/supplier"]
    cheap = manager.put(where, {"title": "Tin", "pack_size": "1.5", "sells": "1", **dearer}, seen=version)
    assert cheap.status_code == 200 and "below" in " ".join(offer(manager, oil)["notices"])
    assert manager.put(where, {"title": "Tin", "pack_size": "2", **dearer}, seen=version).status_code == 412


def test_a_number_stands_for_one_part(cast: Cast, manager: Any) -> None:
    oil = added(manager)
    PartFactory(shop=cast.shop, number="SEAL 7")
    where = f"consumables/{oil['id']}/packs"
    assert "already a part" in fault(manager.post(where, PACK | {"number": "seal-7"}))["/number"]
    assert "is taken" in fault(manager.post(where, PACK | {"number": "go 1"}))["/number"]
    more = manager.post(where, PACK | {"number": "GO-20", "pack_size": "20 L"})
    assert [pack["pack_size"] for pack in more.json()["packs"]] == ["1", "20"]
    elsewhere = added(manager, number="X-1", specification="other")
    pack = more.json()["packs"][0]["id"]
    assert (
        manager.patch(f"consumables/{elsewhere['id']}/packs/{pack}", {"archived": True}, seen='"2"').status_code == 404
    )


def test_an_archived_pack_is_bought_no_more_and_what_a_kit_needs_is_kept(cast: Cast) -> None:
    stage, manager = make_stage(cast), cast.signed_in("manager")
    draft = stage.quote(stage.turbo).json()
    need = next(need for need in draft["needs"] if need["packs"])
    row = Part.objects.get(shop=cast.shop, number=need["packs"][0]["number"])
    oil = manager.get(f"consumables/{row.consumable_id}").json()
    where = f"consumables/{oil['id']}"
    refused = manager.patch(where, {"archived": True}, seen=f'"{oil["version"]}"')
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/consumable-is-needed")
    more = manager.post(f"{where}/packs", PACK | {"number": "NEW-1", "pack_size": "999", "sells": "90000"}).json()
    seen = f'"{more["version"]}"'
    for pack in [pack for pack in more["packs"] if pack["number"] != "NEW-1"]:
        gone = manager.patch(f"{where}/packs/{pack['id']}", {"archived": True}, seen=seen)
        assert gone.status_code == 200, gone.content
        seen = f'"{gone.json()["version"]}"'
    last = next(pack["id"] for pack in more["packs"] if pack["number"] == "NEW-1")
    refused = manager.patch(f"{where}/packs/{last}", {"archived": True}, seen=seen)
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/pack-is-the-last")
    priced = stage.client.get(f"quotes/{draft['id']}").json()
    bought = next(other for other in priced["needs"] if other["item"] == need["item"])
    assert [pack["number"] for pack in bought["packs"]] == ["NEW-1"]
    back = manager.patch(f"{where}/packs/{row.pk}", {"archived": False}, seen=seen)
    assert not next(pack for pack in back.json()["packs"] if pack["id"] == str(row.pk))["archived"]


def test_an_archived_consumable_is_out_of_sight_until_it_comes_back(cast: Cast, manager: Any) -> None:
    oil = added(manager)
    gone = manager.patch(f"consumables/{oil['id']}", {"archived": True}, seen='"2"')
    assert (gone.status_code, gone.json()["archived"]) == (200, True)
    assert manager.get("consumables").json()["items"] == []
    assert [row["id"] for row in manager.get("consumables", {"archived": "yes"}).json()["items"]] == [oil["id"]]
    pack = f"consumables/{oil['id']}/packs/{oil['packs'][0]['id']}"
    line = ";".join((oil["family"], oil["specification"], oil["unit"], oil["packs"][0]["number"], "5"))
    text = f"Family;Specification;Unit;Number;Size\n{line}\n"
    preview = CONSUMABLES.check(cast.acting("manager"), planned(CONSUMABLES, text).plan)
    assert [(finding.code, finding.row) for finding in preview.findings] == [("pack_comes_back", 2)]
    changed = manager.put(pack, PACK | {"title": "Tin"}, seen=gone)
    assert (changed.status_code, changed.json()["archived"]) == (200, True)
    more = PACK | {"number": "GO-20", "pack_size": "20"}
    refused = manager.post(f"consumables/{oil['id']}/packs", more)
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/consumable-archived")
    back = manager.patch(f"consumables/{oil['id']}", {"archived": False}, seen=changed)
    assert (back.status_code, back.json()["archived"]) == (200, False)


def renamed(manager: Any, oil: dict[str, Any], family: str, **more: Any) -> Any:
    return manager.put(f"consumables/{oil['id']}", FACTS | {"family": family} | more, seen=f'"{oil["version"]}"')


def test_the_price_rules_follow_a_family_that_is_renamed_if_a_person_says_so(cast: Cast, manager: Any) -> None:
    """A fee on a family that nothing has would no longer be charged, and nobody would notice."""
    today = shop_day(cast.shop, timezone.now())
    fee = {"code": "go", "title": "Old gear oil", "amount": "0.80", "tax_class": "fee", "per": "gear oil"}
    sets = RULES | {"fees": [fee, *RULES["fees"]], "charges": {"Gear oil": "used"}}
    for number, day in [(1, date(2026, 1, 1)), (2, today + timedelta(days=9))]:
        RuleSet.objects.create(shop=cast.shop, number=number, valid_from=day, rules=sets)
    oil = manager.post("consumables", OIL).json()
    refused = renamed(manager, oil, "axle oil")
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/family-in-rules")
    assert "Old gear oil" in refused.json()["detail"]
    assert Consumable.objects.get(pk=oil["id"]).family == "gear oil" and RuleSet.objects.count() == 2
    answer = renamed(manager, oil, "axle oil", move_rules=True)
    assert (answer.status_code, answer.json()["family"]) == (200, "axle oil"), answer.content
    added = RuleSet.objects.filter(number__gt=2).order_by("number")
    assert [row.valid_from for row in added] == [today, today + timedelta(days=9)]
    for row in added:
        assert row.rules == sets | {
            "fees": [fee | {"per": "axle oil"}, *RULES["fees"]],
            "charges": {"axle oil": "used"},
        }
    assert History.objects.filter(subject="ruleset", verb="changed").count() == 2


def test_a_family_that_another_consumable_still_has_keeps_its_rules(cast: Cast, manager: Any) -> None:
    fee = {"code": "go", "title": "Old gear oil", "amount": "0.80", "tax_class": "fee", "per": "gear oil"}
    RuleSet.objects.create(shop=cast.shop, number=1, valid_from=date(2026, 1, 1), rules=RULES | {"fees": [fee]})
    oil = manager.post("consumables", OIL).json()
    manager.post("consumables", OIL | {"number": "GO-2", "specification": "80W"})
    assert renamed(manager, oil, "axle oil").status_code == 200
    assert RuleSet.objects.count() == 1

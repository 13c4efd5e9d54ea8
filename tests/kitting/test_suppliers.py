"""Suppliers on a screen and as a list, and what their files taught, each of which can be forgotten."""

import io
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from django.core.management import CommandError, call_command

from kitting.models import Offer, Supplier
from kitting.queries.offers import newest_offers
from shop.models import History
from tests.cast import Cast
from tests.factories import OfferFactory, PartFactory, SupplierFactory

pytestmark = pytest.mark.once

COLUMNS = {"kit": {"number": "Art.-Nr.", "quantity": "Menge"}}
ANSWERS = {
    "kit": {
        "answers": {"sections": "bag", "quantity": "C"},
        "fields": {"kit": "TK-1"},
        "values": [["unit", "Stk", "pc"], ["unit", "Pr", "pair"]],
        "left_out": ["Thank you for your order"],
    }
}


@pytest.fixture
def supplier(cast: Cast) -> Supplier:
    SupplierFactory(shop=cast.shop, name="Hollow Gasket Co")
    row: Supplier = SupplierFactory(shop=cast.shop, name="Brightwater Induction", columns=COLUMNS, answers=ANSWERS)
    return row


def taught(answer: Any) -> list[tuple[str, str, str, str]]:
    assert answer.status_code == 200, answer.content
    return [(m["about"], m["name"], m["was"], m["text"]) for m in answer.json()["memories"]]


def test_name_and_contact_are_changed_by_one_person_at_a_time(cast: Cast, supplier: Supplier) -> None:
    manager, where = cast.signed_in("manager"), f"suppliers/{supplier.pk}"
    items = cast.signed_in("advisor").get("suppliers", {"q": "water"}).json()["items"]
    assert [item["name"] for item in items] == ["Brightwater Induction"]
    changed = manager.patch(where, {"contact": "Una, 01632 960 410"}, seen='"1"')
    assert (changed.json()["contact"], changed.json()["version"]) == ("Una, 01632 960 410", 2)
    assert manager.patch(where, {"name": "Other"}, seen='"1"').status_code == 412
    taken = manager.patch(where, {"name": "hollow gasket  CO"}, seen=changed)
    assert (taken.status_code, taken.json()["errors"][0]["pointer"]) == (400, "/name")
    assert manager.patch(where, {"name": "Brightwater Air"}, seen=changed).status_code == 200
    assert Supplier.objects.get(pk=supplier.pk).name == "Brightwater Air"
    assert History.objects.filter(subject="supplier", verb="changed").count() == 2


def test_a_supplier_is_added_once_under_a_name(cast: Cast, supplier: Supplier) -> None:
    client, facts = cast.signed_in("manager"), {"name": "Quillfen", "currency": "usd", "lead_days": 4}
    answer = client.post("suppliers", facts)
    added = answer.json()
    assert (answer.status_code, added["version"], added["currency"], added["contact"]) == (201, 1, "USD", "")
    assert History.objects.get(verb="added", subject_id=added["id"]).subject == "supplier"
    for name in ("QUILLFEN", supplier.name.upper(), "..."):
        (error,) = client.post("suppliers", facts | {"name": name}).json()["errors"]
        assert error["pointer"] == "/name"
    (error,) = client.post("suppliers", facts | {"name": "Another", "currency": "XYZ"}).json()["errors"]
    assert error["pointer"] == "/currency" and Supplier.objects.filter(shop=cast.shop).count() == 3
    assert cast.signed_in("parts").post("suppliers", facts).status_code == 403


def test_each_memory_is_listed_and_forgotten_alone(cast: Cast, supplier: Supplier) -> None:
    manager, where = cast.signed_in("manager"), f"suppliers/{supplier.pk}"
    every = taught(cast.signed_in("parts").get(where))
    assert every == [
        ("column", "part number", "Art.-Nr.", ""),
        ("column", "quantity", "Menge", ""),
        ("answer", "", "", "Each row between the lines is a bag"),
        ("answer", "quantity", "", "C"),
        ("fact", "kit number", "", "TK-1"),
        ("text", "unit", "Stk", "pc"),
        ("text", "unit", "Pr", "pair"),
        ("left_out", "", "Thank you for your order", ""),
    ]
    for at in (7, 5, 4, 2, 0):
        key = manager.get(where).json()["memories"][at]["key"]
        del every[at]
        assert taught(manager.delete(f"{where}/memories/{key}")) == every
        assert manager.delete(f"{where}/memories/{key}").status_code == 404
    row = Supplier.objects.get(pk=supplier.pk)
    assert (row.columns, row.answers["kit"]["values"]) == ({"kit": {"quantity": "Menge"}}, [["unit", "Pr", "pair"]])
    assert History.objects.filter(subject="supplier", verb="forgot").count() == 5


def test_an_archived_supplier_is_listed_apart_and_comes_back(cast: Cast, supplier: Supplier) -> None:
    manager, where = cast.signed_in("manager"), f"suppliers/{supplier.pk}"
    archived = manager.patch(where, {"archived": True}, seen='"1"')
    assert archived.json()["archived"] is True
    names = [item["name"] for item in cast.signed_in("parts").get("suppliers").json()["items"]]
    assert names == ["Hollow Gasket Co"]
    listed = manager.get("suppliers", {"archived": "yes"}).json()["items"]
    assert [item["name"] for item in listed] == ["Brightwater Induction"]
    neither = manager.get("suppliers", {"archived": "null"})
    assert (neither.status_code, neither.json()["errors"][0]["pointer"]) == (400, "/archived")
    assert manager.patch(where, {"archived": False}, seen=archived).json()["archived"] is False
    assert len(manager.get("suppliers").json()["items"]) == 2
    assert cast.signed_in("advisor").patch(where, {"archived": True}, seen='"3"').status_code == 403


@pytest.mark.parametrize("days", [-1, 3653, "soon"])
def test_lead_days_are_whole_days_of_at_most_ten_years(cast: Cast, supplier: Supplier, days: Any) -> None:
    manager, where = cast.signed_in("manager"), f"suppliers/{supplier.pk}"
    refused = manager.patch(where, {"lead_days": days}, seen='"1"')
    assert (refused.status_code, refused.json()["errors"][0]["pointer"]) == (400, "/lead_days")
    immediate = manager.patch(where, {"lead_days": 0}, seen='"1"')
    assert immediate.json()["lead_days"] == 0
    assert manager.patch(where, {"lead_days": None}, seen=immediate).json()["lead_days"] is None


def test_the_offer_of_an_archived_supplier_counts_only_where_nobody_else_has_one(cast: Cast) -> None:
    old, other = (SupplierFactory(shop=cast.shop) for _ in range(2))
    both, alone = (PartFactory(shop=cast.shop, preferred=old) for _ in range(2))
    OfferFactory(shop=cast.shop, part=both, supplier=other, valid_from=date(2026, 1, 1))
    for part in (both, alone):
        OfferFactory(shop=cast.shop, part=part, supplier=old, valid_from=date(2026, 2, 1))

    def sellers() -> list[Supplier]:
        offers = newest_offers(cast.shop, [both, alone], date(2026, 3, 1))
        return [offers[part.pk].supplier for part in (both, alone)]

    assert sellers() == [old, old]
    Supplier.objects.filter(pk=old.pk).update(archived=True)
    assert sellers() == [other, old]


def take_in(cast: Cast, folder: Path, body: str, kind: str = "suppliers") -> str:
    file, out = folder / "list.csv", io.StringIO()
    file.write_text(body)
    call_command("import", kind, file, shop=cast.shop.slug, stdout=out)
    return out.getvalue()


def test_a_list_of_suppliers_adds_completes_and_brings_back(cast: Cast, supplier: Supplier, tmp_path: Path) -> None:
    Supplier.objects.filter(pk=supplier.pk).update(archived=True, contact="Una")
    body = "Supplier;Contact;Lead days\nBRIGHTWATER induction;;9\nQuillfen;Odo;\n"
    words = take_in(cast, tmp_path, body)
    assert "will be offered again" in words and "1 new, 1 already on file" in words
    row = Supplier.objects.get(pk=supplier.pk)
    assert (row.name, row.contact, row.lead_days, row.archived) == ("BRIGHTWATER induction", "Una", 9, False)
    assert row.answers == ANSWERS and row.version == 2
    added = Supplier.objects.get(name="Quillfen")
    assert (added.contact, added.lead_days, added.currency) == ("Odo", None, cast.shop.currency)


@pytest.mark.parametrize("body", ["Supplier\nOne\none\n", "Supplier\n--\n", "Supplier;Lead days\nOne;4000\n"])
def test_a_list_of_suppliers_is_refused_as_a_whole(cast: Cast, tmp_path: Path, body: str) -> None:
    with pytest.raises(CommandError):
        take_in(cast, tmp_path, body + "Another\n")
    assert not Supplier.objects.exists()


def test_a_price_list_of_an_archived_supplier_leaves_it_archived(
    cast: Cast, supplier: Supplier, tmp_path: Path
) -> None:
    Supplier.objects.filter(pk=supplier.pk).update(archived=True)
    body = "Family;Unit;Part number;Pack size;Supplier;Cost\ngear oil;L;GO-1;1;Brightwater Induction;9.50\n"
    assert "Brightwater Induction is archived" in take_in(cast, tmp_path, body, "consumables")
    offer = Offer.objects.select_related("supplier", "part").get()
    assert offer.supplier.archived and offer.part.preferred is None

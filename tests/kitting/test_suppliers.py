"""Suppliers on a screen: name, contact, and what their files taught, each of which can be forgotten."""

from typing import Any

import pytest

from kitting.models import Supplier
from shop.models import History
from tests.cast import Cast
from tests.factories import SupplierFactory

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

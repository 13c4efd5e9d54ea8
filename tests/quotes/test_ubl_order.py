"""A released order to one supplier as an Order of UBL: valid, with what was released and no price."""

from typing import Any
from urllib.parse import quote

import pytest

from shop.models import Job
from tests import ubl
from tests.quotes.changing import accept, begin
from tests.quotes.stage import Stage
from tests.quotes.test_account import Account
from tests.standards import folder
from tests.ubl import text, texts

pytestmark = pytest.mark.once

HOSTILE = "=Quill&fen <Supply>"


def released(stage: Stage, path: str) -> dict[str, Any]:
    answer = stage.cast.signed_in("parts").post(f"{path}/releases", {})
    assert answer.status_code == 201, answer.content
    return dict(answer.json()["releases"][0])


@pytest.mark.standards
def test_the_schemas_take_the_published_order_and_refuse_the_broken_one() -> None:
    where = folder()
    assert where is not None
    good, broken = ((where / "ubl-2.4/val" / f"order-test-{name}.xml").read_bytes() for name in ("good", "bad-model"))
    assert ubl.faults(good, "Order") == []
    assert "ChannelCod" in "".join(ubl.faults(broken, "Order"))


def test_each_supplier_of_a_release_has_a_valid_order(stage: Stage) -> None:
    supplier = stage.turbo.part.preferred or stage.turbo.part.offers.get().supplier
    supplier.name = HOSTILE
    supplier.save()
    account = Account(stage)
    first = released(stage, account.path)
    change = begin(stage, Job.objects.get())
    kit = {"kind": "kit", "kit": str(stage.towing.pk)}
    accept(stage, stage.client.post(f"quotes/{change['id']}/lines", kit).json())
    second = released(stage, account.path)
    parts = stage.cast.signed_in("parts")
    orders = {}
    for release in (first, second):
        for order in release["suppliers"]:
            path = f"{account.path}/releases/{release['id']}/ubl?supplier={quote(order['supplier'])}"
            answer = parts.get(path)
            assert answer.status_code == 200 and ubl.faults(answer.content, "Order") == []
            root = ubl.read(answer.content)
            rows = "cac:OrderLine/cac:LineItem"
            numbers = texts(root, f"{rows}/cac:Item/cac:SellersItemIdentification/cbc:ID")
            assert numbers == [line["number"] for line in order["lines"]]
            assert texts(root, f"{rows}/cbc:Quantity") == [line["quantity"] for line in order["lines"]]
            assert text(root, "cac:SellerSupplierParty/cac:Party/cac:PartyName/cbc:Name") == order["supplier"]
            assert text(root, "cac:BuyerCustomerParty/cac:Party/cac:PartyName/cbc:Name") == stage.shop.name
            assert not root.findall(".//cac:Price", ubl.NAMES) and b"Amount" not in answer.content
            orders[release["id"], order["supplier"]] = (text(root, "cbc:ID"), text(root, "cbc:UUID"))
    ids = {id for id, _ in orders.values()}
    job = Job.objects.get()
    assert ids == {f"{job}-1", f"{job}-2"} and len({mark for _, mark in orders.values()}) == len(orders)
    assert any(supplier == HOSTILE for _, supplier in orders)
    nobody = f"{account.path}/releases/{first['id']}/ubl"
    assert parts.get(f"{nobody}?supplier=Nobody").status_code == parts.get(nobody).status_code == 404

"""The freight of a shipment on a supplier's screen: read, then kept in the prices of its parts."""

from datetime import timedelta
from decimal import Decimal as D
from typing import Any

import pytest
from django.utils import timezone

from kitting.models import Offer, Part, Supplier
from quotes.queries.pricing import shop_day
from shop.models import History
from tests.cast import Cast
from tests.factories import OfferFactory, PartFactory, SupplierFactory

pytestmark = pytest.mark.once

LIST = "Number\tQty\nQF-1\t2\nQF-2\t3\nQF-2\t1\n"


@pytest.fixture
def supplier(cast: Cast) -> Supplier:
    """Sells QF-1 at 150 since January, QF-2 at 25 since today, and QF-3 in dollars; nobody sells QF-4."""
    today, row = shop_day(cast.shop, timezone.now()), SupplierFactory(shop=cast.shop, name="Quillfen", currency="EUR")
    part = {number: PartFactory(shop=cast.shop, number=number) for number in ("QF-1", "QF-2", "QF-3", "QF-4")}
    offer = {"shop": cast.shop, "supplier": row}
    OfferFactory(part=part["QF-1"], unit_cost=D(150), duty_rate=D("0.04"), lead_days=5, **offer)
    OfferFactory(part=part["QF-2"], unit_cost=D(24), valid_from=today - timedelta(days=9), **offer)
    OfferFactory(part=part["QF-2"], unit_cost=D(25), valid_from=today, freight=D(9), **offer)
    OfferFactory(part=part["QF-3"], currency="USD", **offer)
    return row


def share(cast: Cast, supplier: Supplier, text: str, last: str = "", **more: str) -> Any:
    body = {"text": text, "freight": "40.00", "brokerage": "4.00"} | more
    return cast.signed_in("manager").post(f"suppliers/{supplier.pk}/shipments{last}", body)


def charges(number: str) -> list[tuple[D, D, D]]:
    rows = Offer.objects.filter(part=Part.objects.get(number=number)).order_by("valid_from")
    return [(row.unit_cost, row.freight, row.brokerage) for row in rows]


def test_reading_saves_nothing_and_saving_begins_today(cast: Cast, supplier: Supplier) -> None:
    read = share(cast, supplier, LIST, "/reading").json()
    assert (read["understood"], read["wrong"], read["words"]) == (3, 0, "3 lines understood.")
    assert [(row["number"], row["cost"], row["freight"], row["brokerage"]) for row in read["rows"][1:]] == [
        ("QF-1", "150", "15", "1.5"),
        ("QF-2", "25", "2.5", "0.25"),
        ("QF-2", "25", "2.5", "0.25"),
    ]
    assert charges("QF-1") == [(D(150), D(0), D(0))]
    saved = share(cast, supplier, LIST)
    assert saved.status_code == 201 and saved.json() == read
    assert charges("QF-1") == [(D(150), D(0), D(0)), (D(150), D(15), D("1.5"))]
    newest = Offer.objects.get(part__number="QF-1", freight__gt=0)
    assert (newest.duty_rate, newest.lead_days, newest.valid_from) == (
        D("0.04"),
        5,
        shop_day(cast.shop, timezone.now()),
    )
    assert charges("QF-2") == [(D(24), D(0), D(0)), (D(25), D("2.5"), D("0.25"))]
    row = History.objects.get(verb="freight shared")
    assert row.changes["parts"] == ["", "QF-1, QF-2"] and row.changes["freight"] == ["", "40"]


def test_a_wrong_row_names_its_remedy_and_nothing_is_kept(cast: Cast, supplier: Supplier) -> None:
    text = "QF-1 2\nQF-3 1\nQF-4 1\nQF-9 1\nQF-2 0"
    read = share(cast, supplier, text, "/reading").json()
    assert [row["reading"] for row in read["rows"]] == [
        "understood",
        "other_currency",
        "no_price",
        "unknown",
        "no_quantity",
    ]
    assert read["wrong"] == 4 and all(row["freight"] is None for row in read["rows"])
    assert read["rows"][1]["words"].startswith("Its price is in USD and the freight in EUR.")
    assert read["rows"][2]["words"].startswith("Quillfen has no price for QF-4 here.")
    answer = share(cast, supplier, text)
    assert answer.status_code == 409 and "2, 3, 4, 5" in answer.json()["detail"]
    assert share(cast, supplier, "Number Qty").status_code == 400
    finer = share(cast, supplier, LIST, freight="40.001").json()["errors"]
    assert [error["pointer"] for error in finer] == ["/freight"]
    assert charges("QF-1") == [(D(150), D(0), D(0))] and not History.objects.filter(verb="freight shared").exists()

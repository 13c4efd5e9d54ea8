"""Offers of a long list are written together: one a part, supplier and day, whatever stands in the shop already."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.imports.buying import AT_ONCE, ImportedOffer, ImportedPart, write_offers, write_parts
from kitting.models import Offer, Part, Supplier
from shop.access import Actor
from shop.models import Shop
from tests.cast import make_shop

DAY = date(2026, 11, 24)


@pytest.fixture
def actor(db: None) -> Actor:
    return Actor(shop=make_shop("bay", "Bay"), member=None, channel="command")


def parts_of(actor: Actor, count: int) -> list[Part]:
    rows = write_parts(actor, [ImportedPart(f"OF-{n:04d}", "Bolt") for n in range(count)])
    return sorted(rows.values(), key=lambda part: part.number)


def offer(cost: str, supplier: str = "Quillfen Supply", **terms: int) -> ImportedOffer:
    return ImportedOffer(supplier, Decimal(cost), "EUR", **terms)


def stored(shop: Shop) -> list[tuple[str, str, date, str, int | None]]:
    rows = Offer.objects.filter(shop=shop).order_by("part__number", "supplier__name", "valid_from")
    return [(row.part.number, row.supplier.name, row.valid_from, str(row.unit_cost), row.lead_days) for row in rows]


def test_an_offer_of_the_day_is_corrected_and_one_of_another_day_is_left(actor: Actor) -> None:
    first, second = parts_of(actor, 2)
    write_offers(actor, [(first, offer("3", lead_days=9))], DAY - timedelta(days=1))
    write_offers(actor, [(first, offer("4", lead_days=9)), (first, offer("5", "Tarn Parts"))], DAY)
    write_offers(actor, [(first, offer("4.5")), (second, offer("6")), (second, offer("6.5"))], DAY)
    assert stored(actor.shop) == [
        (first.number, "Quillfen Supply", DAY - timedelta(days=1), "3.0000", 9),
        (first.number, "Quillfen Supply", DAY, "4.5000", None),
        (first.number, "Tarn Parts", DAY, "5.0000", None),
        (second.number, "Quillfen Supply", DAY, "6.5000", None),
    ]


def test_the_first_supplier_of_a_part_is_preferred_and_stays_it(actor: Actor) -> None:
    first, second = parts_of(actor, 2)
    write_offers(actor, [(first, offer("5", "Tarn Parts")), (first, offer("4"))], DAY)
    write_offers(actor, [(Part.objects.get(pk=first.pk), offer("4")), (second, offer("6"))], DAY)
    names = dict(Part.objects.filter(shop=actor.shop).values_list("number", "preferred__name"))
    assert names == {first.number: "Tarn Parts", second.number: "Quillfen Supply"}
    assert Supplier.objects.filter(shop=actor.shop).count() == 2


def test_a_longer_list_takes_no_more_queries(actor: Actor) -> None:
    parts = parts_of(actor, AT_ONCE)
    counts = []
    for some in (parts[:2], parts[2:]):
        with CaptureQueriesContext(
            connection,
        ) as queries:
            write_offers(actor, [(part, offer("4", supplier=f"Firm {len(counts)}")) for part in some], DAY)
        counts.append(len(queries))
    assert counts[1] <= counts[0] + 8  # a statement holds a limited number of rows
    assert Offer.objects.filter(shop=actor.shop).count() == len(parts)

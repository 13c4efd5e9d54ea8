"""The database stores amounts exactly, and has our settings on every connection."""

from contextlib import closing
from datetime import date
from decimal import Decimal

from django.db import connection
from django.db.models import Sum

from kitting.models import Offer
from tests.cast import Cast
from tests.factories import (
    PartFactory,
    SupplierFactory,
)


def test_amounts_are_whole_numbers_and_sums_are_exact(cast: Cast) -> None:
    supplier = SupplierFactory(shop=cast.shop)
    costs = [Decimal(n * 7919 % 100_000) / 10_000 for n in range(1, 400)]
    part = PartFactory(shop=cast.shop)
    Offer.objects.bulk_create(
        Offer(
            shop=cast.shop,
            supplier=supplier,
            part=part,
            currency="EUR",
            unit_cost=cost,
            valid_from=date.fromordinal(730_000 + at),
        )
        for at, cost in enumerate(costs)
    )
    assert Offer.objects.aggregate(sum=Sum("unit_cost"))["sum"] == sum(costs)
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("SELECT DISTINCT typeof(unit_cost) FROM kitting_offer")
            assert cursor.fetchall() == [("integer",)]


def test_settings_reach_the_database(db: None) -> None:
    if connection.vendor == "sqlite":
        with closing(connection.get_new_connection(connection.get_connection_params())) as fresh:
            pragmas = ("journal_mode", "synchronous", "foreign_keys", "legacy_alter_table")
            read = {pragma: fresh.execute(f"PRAGMA {pragma}").fetchone()[0] for pragma in pragmas}
        assert read == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "legacy_alter_table": 1}

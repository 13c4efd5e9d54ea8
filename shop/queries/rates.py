"""Reads exchange rates."""

from datetime import date
from uuid import UUID

from shop.models import Rate, Shop


def rates_in_force(shop: Shop, day: date) -> frozenset[UUID]:
    """The ids of the rates that count on a day: the newest of each currency that has begun."""
    rows = Rate.objects.filter(shop=shop, valid_from__lte=day).order_by("valid_from")
    return frozenset(dict(rows.values_list("currency", "pk")).values())


def rate_on(shop: Shop, currency: str, day: date) -> Rate | None:
    """The rate of a currency that counts on a day."""
    return Rate.objects.filter(shop=shop, currency=currency, valid_from__lte=day).order_by("-valid_from").first()

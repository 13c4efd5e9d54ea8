"""Reads exchange rates."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from shop.models import Rate, Shop


@dataclass(frozen=True, slots=True)
class TwoRates:
    """The rate of a currency that counts today, if there is one, and the one that is typed."""

    now: Rate | None
    then: Rate

    @property
    def is_replaced(self) -> bool:
        """Returns whether the rate that counts begins after the typed one, which then never counts."""
        return self.now is not None and self.now.valid_from > self.then.valid_from


def rates_in_force(shop: Shop, day: date) -> frozenset[UUID]:
    """The ids of the rates that count on a day: the newest of each currency that has begun."""
    rows = Rate.objects.filter(shop=shop, valid_from__lte=day).order_by("valid_from")
    return frozenset(dict(rows.values_list("currency", "pk")).values())


def rate_on(shop: Shop, currency: str, day: date) -> Rate | None:
    """The rate of a currency that counts on a day."""
    return Rate.objects.filter(shop=shop, currency=currency, valid_from__lte=day).order_by("-valid_from").first()

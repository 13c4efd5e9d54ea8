"""Exchange rates. A rate never changes: another day has another one."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from django.db import transaction

from shop.access import Actor
from shop.errors import field_error
from shop.models import Rate
from shop.services import history
from shop.services.clean import clean


def proposed_rate(*, actor: Actor, currency: str, rate: Decimal, valid_from: date) -> Rate:
    """The worth of one unit of a foreign currency in the shop's own, from a day on, as a row. Nothing is written.

    Refuses the shop's own currency, a rate of zero, and a day that has a rate already.
    """
    if currency == actor.shop.currency:
        raise field_error("/currency", "rate_own_currency", currency=currency)
    if not rate:
        raise field_error("/rate", "rate_of_nothing")
    if Rate.objects.filter(shop=actor.shop, currency=currency, valid_from=valid_from).exists():
        raise field_error("/valid_from", "rate_of_day", currency=currency)
    return Rate(shop=actor.shop, currency=currency, valid_from=valid_from, rate=rate)


@transaction.atomic
def add_rate(*, actor: Actor, currency: str, rate: Decimal, valid_from: date) -> Rate:
    """Adds a rate, unless `proposed_rate` refuses it."""
    rows = [proposed_rate(actor=actor, currency=currency, rate=rate, valid_from=valid_from)]
    [row] = add_rates(actor=actor, rates=rows)
    return row


@transaction.atomic
def add_rates(*, actor: Actor, rates: Sequence[Rate]) -> Sequence[Rate]:
    """Adds several rates, none of which exists yet."""
    clean(rates)
    Rate.objects.bulk_create(rates)
    history.record_all(actor=actor, verb="added", rows=rates)
    return rates

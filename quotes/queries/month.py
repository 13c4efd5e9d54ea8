"""The payments and closing accounts of a month."""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from quotes.models import ClosingAccount, Quote
from shop.models import Payment, Shop


def payments_of_month(shop: Shop, first: date) -> Sequence[Payment]:
    """Payments whose day is in the month that begins on `first`, in the order of the days."""
    rows = Payment.objects.filter(shop=shop, received_on__gte=first, received_on__lt=following(first))
    return list(rows.select_related("job__customer", "recorded_by__user").order_by("received_on", "id"))


def closed_in_month(shop: Shop, first: date) -> Sequence[ClosingAccount]:
    """The closing accounts of the month in the shop's zone, in the order of time."""
    zone = ZoneInfo(shop.zone)
    begin, end = (datetime.combine(day, time(), zone) for day in (first, following(first)))
    rows = ClosingAccount.objects.filter(shop=shop, closed_at__gte=begin, closed_at__lt=end)
    return list(rows.select_related("job__customer", "closed_by__user").defer("snapshot").order_by("closed_at", "id"))


def quote_numbers(shop: Shop, jobs: set[UUID]) -> dict[UUID | None, str]:
    """{job: number of the quote that opened it}"""
    quotes = Quote.objects.filter(shop=shop, job__in=jobs, additional=False)
    return {quote.job_id: str(quote) for quote in quotes}


def following(first: date) -> date:
    """The first day of the next month."""
    return (first.replace(day=28) + timedelta(days=4)).replace(day=1)

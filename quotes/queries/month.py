"""The payments and closing accounts of a month."""

from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from uuid import UUID
from zoneinfo import ZoneInfo

from quotes.models import ClosingAccount, Quote
from quotes.queries.late_cores import late_cores
from shop.models import CoreReturn, Payment, Shop


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


def late_cores_of_month(shop: Shop, first: date) -> Sequence[CoreReturn]:
    """Old parts that came back in the month, after their jobs were closed, in the order of the days."""
    month = {"returned_on__gte": first, "returned_on__lt": following(first)}
    jobs = CoreReturn.objects.filter(shop=shop, **month).values("job")
    closings = {row.job_id: row for row in ClosingAccount.objects.filter(shop=shop, job__in=jobs)}
    cores: dict[UUID, list[CoreReturn]] = {}
    rows = CoreReturn.objects.filter(shop=shop, job__in=list(closings)).select_related(
        "job__customer", "recorded_by__user"
    )
    for core in rows.order_by("recorded_at", "id"):
        cores.setdefault(core.job_id, []).append(core)
    late = [core for job, of_job in cores.items() for core in late_cores(closings[job], of_job)]
    return sorted((core for core in late if first <= core.returned_on < following(first)), key=_by_day)


def _by_day(core: CoreReturn) -> tuple[date, datetime]:
    return core.returned_on, core.recorded_at


def quote_numbers(shop: Shop, jobs: set[UUID]) -> dict[UUID | None, str]:
    """{job: number of the quote that opened it}"""
    quotes = Quote.objects.filter(shop=shop, job__in=jobs, additional=False)
    return {quote.job_id: str(quote) for quote in quotes}


def following(first: date) -> date:
    """The first day of the next month."""
    return (first.replace(day=28) + timedelta(days=4)).replace(day=1)

"""The sums that customers still have to pay on jobs that have ended."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal
from uuid import UUID

from django.db.models import Exists, F, OuterRef, Q, Subquery, Sum
from django.db.models.functions import Coalesce

from quotes.models import ClosingAccount, Quote
from quotes.queries.late_cores import late_cores
from shop.models import CoreReturn, Job, Payment, Shop
from shop.models.jobs import ENDED
from shop.rows import ExactDecimalField

LOOKED_BACK = timedelta(days=400)
MOST = 100


@dataclass(frozen=True, slots=True)
class MoneyOwed:
    """A job on which something is to pay: `amount` is None where it was not closed with its account yet."""

    job: Job
    amount: Decimal | None


def money_owed(shop: Shop, now: datetime) -> list[MoneyOwed]:
    """Closed jobs with money still to come, the longest closed first; then jobs that ended and were not closed."""
    return [*_closed(shop, now), *_not_closed(shop)]


def _closed(shop: Shop, now: datetime) -> Iterable[MoneyOwed]:
    paid = Payment.objects.filter(shop=OuterRef("shop"), job=OuterRef("job")).order_by().values("job")
    nothing = Decimal(0)
    received = Coalesce(
        Subquery(paid.annotate(sum=Sum("amount")).values("sum")), nothing, output_field=ExactDecimalField(scale=3)
    )
    since = Q(closed_at__gte=now - LOOKED_BACK)
    came_back = CoreReturn.objects.filter(
        shop=OuterRef("shop"), job=OuterRef("job"), recorded_at__gte=OuterRef("closed_at")
    )
    rows = (
        ClosingAccount.objects.filter(since, shop=shop)
        .annotate(paid=received)
        .filter(Q(total__gt=F("paid")) | Exists(came_back))
    )
    closings = list(rows.select_related("job__customer").order_by("closed_at", "id")[:MOST])
    cores: dict[UUID, list[CoreReturn]] = {}
    jobs = [row.job_id for row in closings]
    for core in CoreReturn.objects.filter(shop=shop, job__in=jobs).order_by("recorded_at", "id"):
        cores.setdefault(core.job_id, []).append(core)
    amounts = [(row.job, row.total - row.paid - _late(row, cores.get(row.job_id, []))) for row in closings]
    return [MoneyOwed(job, amount) for job, amount in amounts if amount]


def _late(closing: ClosingAccount, cores: list[CoreReturn]) -> Decimal:
    """The deposits of old parts that came back after the job was closed."""
    return sum((core.amount for core in late_cores(closing, cores)), Decimal(0)) if cores else Decimal(0)


def _not_closed(shop: Shop) -> Iterable[MoneyOwed]:
    """Of the newest jobs that ended, those without a closing account that some quote opened."""
    newest = [
        job
        for state in ENDED
        for job in Job.objects.filter(shop=shop, state=state).select_related("customer").order_by("-number")[:MOST]
    ]
    closed = set(ClosingAccount.objects.filter(shop=shop, job__in=newest).values_list("job", flat=True))
    return [MoneyOwed(job, None) for job in sorted(newest, key=lambda job: job.number) if job.pk not in closed]


def opening_quotes(shop: Shop, jobs: Iterable[UUID]) -> Mapping[UUID, Quote]:
    """Maps each job to the quote that opened it. One query."""
    rows = Quote.objects.filter(shop=shop, job__in=list(jobs), additional=False).select_related("customer")
    return {row.job_id: row for row in rows if row.job_id}

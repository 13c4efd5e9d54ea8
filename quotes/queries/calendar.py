"""The days of open jobs: the day on which the vehicle comes, and the one on which the customer counts on it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal
from uuid import UUID

from quotes.models import Quote, ToldDate
from shop.models import Job, Shop
from shop.models.jobs import ENDED
from shop.queries.calendar import shop_day

KEPT = timedelta(days=30)  # for which a vehicle that was handed over stays in the calendar
MOST = 500
DayKind = Literal["bring", "ready", "handed_over"]


@dataclass(frozen=True, slots=True)
class JobDay:
    """A day of a job. `half` is morning, afternoon or empty; `since` the moment from which the day is known."""

    job: UUID
    kind: DayKind
    day: date
    half: str
    vehicle: str
    number: str
    since: datetime


def job_days(shop: Shop, now: datetime) -> list[JobDay]:
    """The days of the open jobs, and of those handed over within 30 days, in the order of the jobs' numbers."""
    jobs = Job.objects.filter(shop=shop).select_related("vehicle")
    rows = list(jobs.exclude(state__in=ENDED).order_by("-number")[:MOST])
    ended = jobs.filter(state=Job.State.HANDED_OVER, handed_over_on__gte=shop_day(shop, now) - KEPT)
    rows += ended.order_by("-number")[:MOST]
    ids = [row.pk for row in rows]
    newest = {row.job_id: row for row in ToldDate.objects.filter(shop=shop, job__in=ids).order_by("told_at", "id")}
    opening = Quote.objects.filter(shop=shop, job__in=ids, additional=False)
    numbers = {quote.job_id: str(quote) for quote in opening}
    pairs = ((row, newest.get(row.pk)) for row in sorted(rows, key=lambda row: row.number))
    return [day for row, date_row in pairs for day in _days(row, date_row, numbers.get(row.pk, str(row)))]


def _days(job: Job, told_date: ToldDate | None, number: str) -> Iterator[JobDay]:
    vehicle = job.vehicle.plate or job.vehicle.title

    def of(kind: DayKind, day: date, half: str = "", since: datetime = job.opened_at) -> JobDay:
        return JobDay(job.pk, kind, day, half, vehicle, number, since)

    if job.state == Job.State.HANDED_OVER:
        if job.handed_over_on is not None:
            yield of("handed_over", job.handed_over_on)
        return
    if job.here_from is not None and not job.is_here:
        yield of("bring", job.here_from)
    if told_date is not None and told_date.ready_on is not None:
        yield of("ready", told_date.ready_on, told_date.half, told_date.told_at)
    elif told_date is None and job.promised_on is not None:
        yield of("ready", job.promised_on)

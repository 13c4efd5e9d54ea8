"""The dated events of a job that its customer may know."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal
from zoneinfo import ZoneInfo

from kitting.models import PullList
from quotes.models import Decision, Quote
from quotes.queries.occurrences import AgreedContingency, accepted_decisions, agreed_contingencies
from quotes.queries.told_dates import later_dates
from shop.models import Job

Milestone = Literal["accepted", "checked", "in_bay", "handed_over", "called_off", "date", "happened"]


@dataclass(frozen=True, slots=True)
class JobEvent:
    """An event and its day in the shop's zone.

    `words` are those of a date that the customer was told; `agreed` is a line that is charged because it happened.
    """

    milestone: Milestone
    day: date
    words: str = ""
    agreed: AgreedContingency | None = None


def job_progress(quote: Quote) -> tuple[JobEvent, ...]:
    """The events of the quote's job, the earliest day first; empty without a job.

    `checked` is there once every pull list of the job is closed, but not by calling off the job, which closes them too.
    """
    job = quote.job
    if job is None:
        return ()
    zone = ZoneInfo(quote.shop.zone)
    accepted = Decision.objects.filter(shop=quote.shop_id, quote=quote, answer=Decision.Answer.ACCEPTED)
    lists = list(PullList.objects.filter(shop=quote.shop_id, job=job).values_list("closed_at", flat=True))
    end = job.called_off_on or date.max
    closed = [moment for moment in lists if moment is not None and _day(moment, zone) < end]
    days: dict[Milestone, date | datetime | None] = {
        "accepted": accepted.values_list("answered_at", flat=True).first(),
        "checked": max(closed) if closed and len(closed) == len(lists) else None,
        "in_bay": job.in_bay_on,
        "handed_over": job.handed_over_on,
        "called_off": job.called_off_on,
    }
    events = [JobEvent(milestone, _day(moment, zone)) for milestone, moment in days.items() if moment]
    dates = [JobEvent("date", _day(row.told_at, zone), row.words) for row in reversed(later_dates(job))]
    return tuple(sorted([*events, *dates, *_happened(job, zone)], key=lambda event: event.day))


def _happened(job: Job, zone: ZoneInfo) -> Iterator[JobEvent]:
    """Each agreed line that happened, on the day of its last record."""
    for agreed in agreed_contingencies(job, accepted_decisions(job)):
        if agreed.happened:
            yield JobEvent("happened", _day(agreed.occurrences[-1].recorded_at, zone), agreed=agreed)


def _day(moment: date | datetime, zone: ZoneInfo) -> date:
    return moment.astimezone(zone).date() if isinstance(moment, datetime) else moment

"""The date of a job that moved, as an answer, with a sentence for the customer as a draft."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from kitting.presenters.readiness_context import ReadinessContext, context_of
from kitting.queries.readiness import load_job
from quotes.answers.told_dates import HalfDayOut, ToldDateOut, ToldDatesOut
from quotes.models import ToldDate
from quotes.models.told_dates import DateHalf, DateMeans
from quotes.queries.told_dates import ToldDates, ToldHalfDay, told_dates
from shop.answers.base import utc
from shop.calc.visit import Leg, Visit
from shop.models import Agreement, Job
from shop.models.jobs import ENDED
from shop.presenters.dates import short_day
from shop.presenters.promise import no_date
from shop.words import say
from shop.words.figures import listed
from shop.words.languages import speaking

HALVES = (DateHalf.MORNING, DateHalf.AFTERNOON)
IN_WORK = (Job.State.IN_BAY, Job.State.IN_CHECKS)


@dataclass(frozen=True, slots=True)
class _Moved:
    """The expected half day beside the one that the customer counts on."""

    before: ToldHalfDay | None
    now: ToldHalfDay | None
    visit: Visit | None

    @property
    def differs(self) -> bool:
        return self.visit is not None and self.before != self.now


def told_dates_answer(job: Job, now: datetime) -> ToldDatesOut:
    dates = told_dates(job)
    today = now.astimezone(ZoneInfo(job.shop.zone)).date()
    if dates is None or job.state in ENDED:
        return _ended(job, dates, today)
    context = context_of(load_job(job, now))
    visit = context.judged.ahead if context.judged else None
    moved = _Moved(dates.counted_on, _expected(visit), visit)
    return ToldDatesOut(
        job=job.pk,
        open=True,
        moved=moved.differs,
        counted_on=_half_day(moved.before, today),
        expected=_half_day(moved.now, today),
        no_date=no_date(visit) if visit else None,
        draft=_draft(dates, moved, context, today),
        notes=list(_notes(job, dates)),
        address=_address(dates),
        told=[_row(row) for row in dates.later],
    )


def _ended(job: Job, dates: ToldDates | None, today: date) -> ToldDatesOut:
    return ToldDatesOut(
        job=job.pk,
        open=False,
        moved=False,
        counted_on=_half_day(dates.counted_on, today) if dates else None,
        expected=None,
        no_date=None,
        draft="",
        notes=[],
        address="",
        told=[_row(row) for row in dates.later] if dates else [],
    )


def _expected(visit: Visit | None) -> ToldHalfDay | None:
    if visit is None or visit.dateless:
        return None
    return ToldHalfDay(visit.ready.day, int(visit.ready.half == "afternoon"))


def _half_day(half_day: ToldHalfDay | None, today: date) -> HalfDayOut | None:
    if half_day is None:
        return None
    return HalfDayOut(half_day.day, HALVES[half_day.place], _words(half_day, today))


def _words(half_day: ToldHalfDay, today: date) -> str:
    return say(f"day.short_{HALVES[half_day.place].value}", day=short_day(half_day.day, today))


def _notes(job: Job, dates: ToldDates) -> Iterator[str]:
    if job.state in IN_WORK:
        yield say("told_date.in_bay")
    if not _address(dates):
        yield say("told_date.no_address")


def _address(dates: ToldDates) -> str:
    return dates.quote.customer.email if dates.quote.customer else ""


# The draft


def _draft(dates: ToldDates, moved: _Moved, context: ReadinessContext, today: date) -> str:
    """The sentence on the expected date, with the reason where one is known; empty if nothing is known."""
    with speaking(*dates.quote.languages):
        before = _words(moved.before, today) if moved.before else ""
        why = _why(moved.visit, context, today) if moved.visit else ""
        if moved.now is None:
            return say("customer.moved.none_why" if why else "customer.moved.none", before=before, why=why)
        key = "from" if before and moved.differs else "date"
        when = _words(moved.now, today)
        if why and moved.differs:
            return say(f"customer.moved.{key}_why", when=when, before=before, why=why)
        return say(f"customer.moved.{key}", when=when, before=before)


def _why(visit: Visit, context: ReadinessContext, today: date) -> str:
    """The most important reason: a late item, else one without a delivery day, the last arrival, or more work."""
    for late in visit.overdue:
        assert late.was_due is not None, "what is overdue was due"
        return say("customer.moved.late", title=late.title, when=_day(late.was_due, context, today))
    if visit.dateless:
        return say("customer.moved.dateless", titles=listed([delivery.title for delivery in visit.dateless]))
    for leg in reversed(visit.legs):
        if leg.kind == "outside":
            return say("customer.moved.outside", title=leg.title)
        if leg.kind == "withdrawal":
            return say("customer.moved.withdrawal", when=_day(leg.since, context, today))
        if leg.kind == "arrival":
            return _arrival(visit, leg, context, today)
    job = context.loaded.job
    more = Agreement.objects.filter(shop=job.shop_id, job=job, number__gt=1).exists()
    return say("customer.moved.more_work") if more else ""


def _arrival(visit: Visit, leg: Leg, context: ReadinessContext, today: date) -> str:
    if any(delivery.outside and delivery.title == leg.title for delivery in visit.coming):
        return say("customer.moved.outside", title=leg.title)
    return say("customer.moved.arrival", title=leg.title, when=_day(leg.since, context, today))


def _day(instant: datetime, context: ReadinessContext, today: date) -> str:
    return short_day(instant.astimezone(ZoneInfo(context.zone)).date(), today)


def _row(row: ToldDate) -> ToldDateOut:
    return ToldDateOut(
        id=row.pk,
        ready_on=row.ready_on,
        half=DateHalf(row.half) if row.half else None,
        words=row.words,
        means=DateMeans(row.means),
        told_at=utc(row.told_at),
        told_by=row.told_by.user.name,
    )

"""Works out the date of one quote by the calendar as it is, and by hours or closed days that somebody is typing."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from quotes.answers.hours_example import HoursExampleOut
from quotes.answers.newer_rules import ComparedFigureOut, ExampleQuoteOut
from quotes.models import Revision
from quotes.presenters.examples import Example
from quotes.presenters.promise_date import no_date_words, promised_answer
from quotes.queries.pricing import figures, shop_day
from quotes.queries.promise import NoDate, Promised, draft_plan, hours_on, promised
from shop.calc.errors import CalculationError
from shop.calc.worktime import WorkCalendar
from shop.presenters.dates import date_only
from shop.words import say

Calendars = tuple[WorkCalendar | None, WorkCalendar | None]


@dataclass(frozen=True, slots=True)
class ProposedHours:
    """The calendar with the hours that somebody is writing, and their first day."""

    valid_from: date
    calendar: WorkCalendar | None


def hours_example(example: Example, proposed: ProposedHours, now: datetime) -> HoursExampleOut:
    """The date of the example by both calendars, or why neither gives one."""
    revision, choices = example
    if revision is None:
        return HoursExampleOut(None, say("hours_example.none"), [], choices)
    day = date_only(proposed.valid_from, shop_day(revision.shop, now))
    words = say("hours_example.accepted_now", quote=str(revision.quote), day=day)
    calendars = hours_on(revision.shop, now), proposed.calendar
    return _compared(revision, choices, calendars, words, now)


def closed_example(example: Example, days: Sequence[date], now: datetime) -> HoursExampleOut:
    """The date of the example as it is, and with the shop closed on these days as well."""
    revision, choices = example
    if revision is None:
        return HoursExampleOut(None, say("closed_example.none"), [], choices)
    words = _closed_words(str(revision.quote), days, shop_day(revision.shop, now))
    return _compared(revision, choices, _with_closed(revision, days, now), words, now)


def holidays_example(example: Example, days: Sequence[date], now: datetime) -> HoursExampleOut:
    """The date of the example as it is, and with the shop closed on these holidays as well."""
    revision, choices = example
    if revision is None:
        return HoursExampleOut(None, say("closed_example.none"), [], choices)
    if len(days) == 1:
        return closed_example(example, days, now)
    words = say("closed_example.holidays", quote=str(revision.quote), n=len(days))
    return _compared(revision, choices, _with_closed(revision, days, now), words, now)


def _with_closed(revision: Revision, days: Sequence[date], now: datetime) -> Calendars:
    """The calendar as it is, and with these days closed as well."""
    current = hours_on(revision.shop, now)
    return current, replace(current, closed=current.closed | set(days)) if current else None


def _closed_words(quote: str, days: Sequence[date], today: date) -> str:
    first, last = date_only(days[0], today), date_only(days[-1], today)
    if len(days) == 1:
        return say("closed_example.one", quote=quote, day=first)
    return say("closed_example.several", quote=quote, first=first, last=last)


def _compared(
    revision: Revision, choices: list[ExampleQuoteOut], calendars: Calendars, words: str, now: datetime
) -> HoursExampleOut:
    """The date by both calendars; the reason instead of the words where neither gives one."""
    before, after = _dates(revision, calendars, now)
    if isinstance(before, NoDate) and isinstance(after, NoDate):
        no_date = say("hours_example.no_date", quote=str(revision.quote), why=no_date_words(after))
        return HoursExampleOut(revision.quote_id, no_date, [], choices)
    return HoursExampleOut(revision.quote_id, words, [_ready(_words(before), _words(after))], choices)


def _dates(revision: Revision, calendars: Calendars, now: datetime) -> tuple[Promised | NoDate, Promised | NoDate]:
    """The promises of one plan by two calendars."""
    try:
        plan = draft_plan(revision, figures(revision, now))
    except CalculationError as refused:
        return NoDate("refused", refusal=refused), NoDate("refused", refusal=refused)
    first, second = (promised(plan, revision.shop, now, opening=calendar) for calendar in calendars)
    return first, second


def _words(promise: Promised | NoDate) -> str:
    return promised_answer(promise).ready.words if isinstance(promise, Promised) else no_date_words(promise)


def _ready(now: str, then: str) -> ComparedFigureOut:
    return ComparedFigureOut(code="ready", title=say("newer_rules.ready"), now=now, then=then, moved=now != then)

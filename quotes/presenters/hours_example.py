"""Works out the date of one quote by the opening hours in force and by those that somebody is writing."""

from dataclasses import dataclass
from datetime import date, datetime

from quotes.answers.hours_example import HoursExampleOut
from quotes.answers.newer_rules import ComparedFigureOut
from quotes.models import Revision
from quotes.presenters.examples import Example
from quotes.presenters.promise_date import no_date_words, promised_answer
from quotes.queries.pricing import figures, shop_day
from quotes.queries.promise import NoDate, Promised, draft_plan, hours_on, promised
from shop.calc.errors import CalculationError
from shop.calc.worktime import WorkCalendar
from shop.presenters.dates import date_only
from shop.words import say


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
    before, after = _dates(revision, (hours_on(revision.shop, now), proposed.calendar), now)
    if isinstance(before, NoDate) and isinstance(after, NoDate):
        words = say("hours_example.no_date", quote=str(revision.quote), why=no_date_words(after))
        return HoursExampleOut(revision.quote_id, words, [], choices)
    day = date_only(proposed.valid_from, shop_day(revision.shop, now))
    words = say("hours_example.accepted_now", quote=str(revision.quote), day=day)
    return HoursExampleOut(revision.quote_id, words, [_ready(_words(before), _words(after))], choices)


def _dates(
    revision: Revision, calendars: tuple[WorkCalendar | None, WorkCalendar | None], now: datetime
) -> tuple[Promised | NoDate, Promised | NoDate]:
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

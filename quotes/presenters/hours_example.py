"""Works out the date of one quote by the opening hours in force and by those that somebody is writing."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, NamedTuple

from quotes.answers.hours_example import HoursExampleOut
from quotes.answers.newer_rules import ComparedFigureOut
from quotes.models import Revision
from quotes.presenters.promise_date import no_date_words, promised_answer
from quotes.presenters.rules_example import example_choices
from quotes.queries.pricing import figures, shop_day
from quotes.queries.promise import Opening, Promised, draft_plan, hours_on, promised
from shop.calc.errors import CalculationError
from shop.calc.worktime import WorkCalendar
from shop.presenters.dates import date_only
from shop.presenters.errors import calculation_words
from shop.words import say


@dataclass(frozen=True, slots=True)
class ProposedHours:
    """The calendar with the hours that somebody is writing, and their first day."""

    valid_from: date
    calendar: WorkCalendar | None


def hours_example(
    revision: Revision | None, quotes: Sequence[Any], proposed: ProposedHours, now: datetime
) -> HoursExampleOut:
    """The date of the quote by both calendars, or why neither gives one. `quotes` are the revisions to choose from."""
    choices = example_choices(quotes)
    if revision is None:
        return HoursExampleOut(None, say("hours_example.none"), [], choices)
    before = _date(revision, hours_on(revision.shop, now), now)
    after = _date(revision, proposed.calendar, now)
    if before == after and not before.known:
        words = say("hours_example.no_date", quote=str(revision.quote), why=before.words)
        return HoursExampleOut(revision.quote_id, words, [], choices)
    day = date_only(proposed.valid_from, shop_day(revision.shop, now))
    title = say("newer_rules.ready")
    moved = before != after
    ready = ComparedFigureOut(code="ready", title=title, now=before.words, then=after.words, moved=moved)
    words = say("hours_example.accepted_now", quote=str(revision.quote), day=day)
    return HoursExampleOut(revision.quote_id, words, [ready], choices)


class DateInWords(NamedTuple):
    """The half day of a promise, or the sentence on why there is none."""

    words: str
    known: bool = False


def _date(revision: Revision, opening: Opening, now: datetime) -> DateInWords:
    try:
        plan = draft_plan(revision, figures(revision, now))
    except CalculationError as refused:
        return DateInWords(calculation_words(refused))
    promise = promised(plan, revision.shop, now, opening=opening)
    if isinstance(promise, Promised):
        return DateInWords(promised_answer(promise).ready.words, known=True)
    return DateInWords(no_date_words(promise))

"""Works out the date of one quote by the opening hours in force and by those that somebody is writing."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

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
    """The date of the quote by both calendars. `quotes` are the revisions to choose from."""
    choices = example_choices(quotes)
    if revision is None:
        return HoursExampleOut(None, say("hours_example.none"), [], choices)
    before = _date(revision, hours_on(revision.shop, now), now)
    after = _date(revision, proposed.calendar, now)
    day = date_only(proposed.valid_from, shop_day(revision.shop, now))
    title = say("newer_rules.ready")
    ready = ComparedFigureOut(code="ready", title=title, now=before, then=after, moved=before != after)
    words = say("hours_example.accepted_now", quote=str(revision.quote), day=day)
    return HoursExampleOut(revision.quote_id, words, [ready], choices)


def _date(revision: Revision, opening: Opening, now: datetime) -> str:
    """The half day of the promise, or the sentence on why there is none."""
    try:
        plan = draft_plan(revision, figures(revision, now))
    except CalculationError as refused:
        return calculation_words(refused)
    promise = promised(plan, revision.shop, now, opening=opening)
    return promised_answer(promise).ready.words if isinstance(promise, Promised) else no_date_words(promise)

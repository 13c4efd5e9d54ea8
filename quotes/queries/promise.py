"""The promise date of a quote: when the vehicle can be ready if the customer accepts now.

A draft has the date of its choices, a sent revision that of the plan frozen with it, as of now, and an accepted one
the date that the customer was told on acceptance.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any, cast
from zoneinfo import ZoneInfo

import msgspec

from quotes.calc.consents import first_days, terms_of
from quotes.calc.plan import WorkPlan, plan_from, visit, work_plan
from quotes.models import Decision, Revision
from quotes.queries.pricing import Figures, Possibility, shop_day
from shop.api.problems import calculation_words
from shop.calc.days import quarter_of
from shop.calc.refusal import Refusal
from shop.calc.visit import Visit
from shop.calc.worktime import Calendar
from shop.models import Shop
from shop.presenters.dates import day_words, half_day_brief
from shop.presenters.promise import no_date, promise_answer
from shop.queries.calendar import opening_hours
from shop.queries.promised_week import promised_that_week
from shop.words import say

NEVER_RECORDED = {"bring": None, "others": None, "withdrawal": None}  # of a promise recorded before these were told


@dataclass(frozen=True, slots=True)
class Promised:
    """A promise and what it was worked out from."""

    plan: WorkPlan
    visit: Visit
    calendar: Calendar
    now: datetime

    def shape(self, others: int = 0) -> dict[str, Any]:
        """Plain data, as a record keeps it."""
        found = promise_answer(self.visit, self.plan.planned, self.calendar, self.plan.team, self.now, others)
        return cast(dict[str, Any], msgspec.to_builtins(found))


@dataclass(frozen=True, slots=True)
class NoDate:
    """Why there is no date, for the workshop; `awaited`: kits without a delivery day, which the customer is told."""

    words: str
    awaited: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Choice:
    """The promise of an acceptance with every consent, and that of one without the consent to begin early.

    `first_day`: before it nothing is ordered or begun in the later one; None without a withdrawal period. `open`: a
    consent decides between the two, which are else the same.
    """

    early: Promised | NoDate
    later: Promised | NoDate
    first_day: date | None = None
    open: bool = False


def draft_plan(revision: Revision, found: Figures | Possibility) -> WorkPlan:
    loaded = found.loaded
    return work_plan(loaded.input, found.priced, loaded.sheet, revision.here_from, revision.here)


def frozen_plan(kept: Mapping[str, Any]) -> WorkPlan | None:
    """The plan of a sent version; None for one that was frozen before there were plans."""
    return plan_from(kept["plan"], {kit["title"] for kit in kept["shown"]["kits"]}) if "plan" in kept else None


def promised(plan: WorkPlan | None, shop: Shop, now: datetime, not_before: date | None = None) -> Promised | NoDate:
    """The promise as of the quarter of an hour of `now`, or why there is none.

    A quote that is read again soon is then the same to the last letter, and need not be sent again. Before
    `not_before` nothing is ordered and no work begins.
    """
    now = quarter_of(now)
    if plan is None or not plan.steps:
        return NoDate(say("promise.not_kept" if plan is None else "promise.no_work"))
    calendar = opening_hours(shop, now.astimezone(ZoneInfo(shop.zone)).date())
    if calendar is None:
        return NoDate(say("promise.no_hours"))
    try:
        found = visit(plan, calendar, _begins(now, not_before, calendar))
    except Refusal as refused:
        return NoDate(calculation_words(refused))
    if words := no_date(found):
        return NoDate(words, tuple(each.title for each in found.dateless))
    return Promised(plan, found, calendar, now)


def both_promises(plan: WorkPlan | None, terms: Mapping[str, Any], shop: Shop, now: datetime) -> Choice:
    """`terms`: consents and right to withdraw as frozen texts keep them (`quotes.calc.consents`)."""
    at_best, waits = first_days(terms, shop_day(shop, now))
    early = promised(plan, shop, now, at_best)
    if at_best == waits:
        return Choice(early, early, waits)
    return Choice(early, promised(plan, shop, now, waits), waits, open=True)


def _begins(now: datetime, not_before: date | None, calendar: Calendar) -> datetime:
    if not_before is None:
        return now
    return max(now, datetime.combine(not_before, time.min, calendar.zone))


def quote_promise(
    revision: Revision, found: Figures | None, kept: Mapping[str, Any], decision: Decision | None, now: datetime
) -> dict[str, Any]:
    """`promise` and `no_promise` of the quote as the API shows it."""
    if decision and revision.state == Revision.State.ACCEPTED:
        return _recorded(decision, kept)
    plan = draft_plan(revision, found) if found else frozen_plan(kept)
    terms = terms_of(found.loaded.input.rules) if found else kept["rules"]
    choice = both_promises(plan, terms, revision.shop, now)
    told = choice.early
    if isinstance(told, NoDate):
        return {"promise": None, "no_promise": told.words}
    others = promised_that_week(revision.shop, told.visit.ready.day, revision.quote.job_id)
    return {"promise": {**told.shape(others), "withdrawal": _withdrawal(choice, told)}, "no_promise": None}


def _withdrawal(choice: Choice, told: Promised) -> dict[str, Any] | None:
    """The withdrawal period's effect on the date, for the advisor; the customer's page says the same."""
    if choice.first_day is None:
        return None
    day, later = day_words(choice.first_day), choice.later
    words = say("promise.withdrawal.counted", day=day)
    if choice.open and isinstance(later, Promised):
        today = told.now.astimezone(told.calendar.zone).date()
        words = say("promise.withdrawal.unless_ready", day=day, ready=half_day_brief(later.visit.ready, today))
    elif choice.open:
        words = say("promise.withdrawal.unless", day=day)
    return {"first_day": choice.first_day.isoformat(), "early": choice.open, "words": words}


def _recorded(decision: Decision, kept: Mapping[str, Any]) -> dict[str, Any]:
    """The promise recorded on acceptance, and nothing of today: who accepted without a date was promised none.

    A record from before there was a headline has only the half day.
    """
    told = decision.record.get("promise")
    if not told:
        return {"promise": None, "no_promise": say("promise.none_told" if "plan" in kept else "promise.not_kept")}
    whole = told["whole"]
    headline = say("promise.headline.ready", when=whole["ready"]["words"])
    return {"promise": {**NEVER_RECORDED, "headline": headline} | whole, "no_promise": None}

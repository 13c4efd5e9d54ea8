"""The promise date of a quote as the API shows it: with its way, or why there is none."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any, cast

import msgspec

from quotes.calc.consents import terms_of
from quotes.models import Decision, Revision
from quotes.queries.pricing import Figures
from quotes.queries.promise import Choice, NoDate, Promised, both_promises, draft_plan, frozen_plan
from shop.api.problems import calculation_words
from shop.presenters.dates import day_words, half_day_brief
from shop.presenters.promise import no_date, promise_answer
from shop.queries.promised_week import promised_that_week
from shop.words import say

NEVER_RECORDED = {"bring": None, "others": None, "withdrawal": None}  # of a promise recorded before these were told
NO_DATE = {"not_kept": "promise.not_kept", "no_work": "promise.no_work", "no_hours": "promise.no_hours"}


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
        return {"promise": None, "no_promise": no_date_words(told)}
    others = promised_that_week(revision.shop, told.visit.ready.day, revision.quote.job_id)
    return {"promise": {**promised_shape(told, others), "withdrawal": _withdrawal(choice, told)}, "no_promise": None}


def promised_shape(found: Promised, others: int = 0) -> dict[str, Any]:
    """Plain data, as a record keeps it."""
    answer = promise_answer(found.visit, found.plan.planned, found.calendar, found.plan.team, found.now, others)
    return cast(dict[str, Any], msgspec.to_builtins(answer))


def no_date_words(found: NoDate) -> str:
    """Why there is no date, for the workshop."""
    if found.refusal is not None:
        return calculation_words(found.refusal)
    return no_date(found.visit) or "" if found.visit else say(NO_DATE[found.code])


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

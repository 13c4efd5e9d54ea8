"""The promise date of a quote as an answer, or the reason for having none."""

from datetime import datetime
from functools import lru_cache
from typing import NamedTuple

from msgspec.structs import replace

from quotes.calc.consents import terms_of
from quotes.calc.forms import FrozenContent
from quotes.models import Decision, Revision
from quotes.queries.pricing import Figures
from quotes.queries.promise import BothPromises, NoDate, Promised, both_promises, draft_plan, frozen_plan
from shop.answers.base import from_kept
from shop.answers.promise import PromiseOut, WithdrawalOut
from shop.models import Job
from shop.presenters.dates import day_words, half_day_brief
from shop.presenters.errors import calculation_words
from shop.presenters.promise import no_date, promise_answer
from shop.queries.promised_week import promised_that_week
from shop.words import say
from shop.words.languages import language, speaking

NEVER_RECORDED = {"bring": None, "others": None, "withdrawal": None}  # of a promise recorded before these were told
NO_DATE = {"not_kept": "promise.not_kept", "no_work": "promise.no_work", "no_hours": "promise.no_hours"}


class QuotePromise(NamedTuple):
    """The promise of a quote, or the sentence on why it has none."""

    promise: PromiseOut | None
    no_promise: str | None


def quote_promise(
    revision: Revision, figures: Figures | None, document: FrozenContent, decision: Decision | None, now: datetime
) -> QuotePromise:
    job = revision.quote.job
    if job is not None and job.state == Job.State.CALLED_OFF:
        return QuotePromise(None, say("promise.called_off"))
    if job is not None and job.handed_over_on is not None:
        return QuotePromise(None, say("promise.handed_over", day=day_words(job.handed_over_on)))
    if revision.quote.additional:
        return QuotePromise(None, say("promise.of_the_job"))
    if decision and revision.state == Revision.State.ACCEPTED:
        return _recorded(decision, document)
    plan = draft_plan(revision, figures) if figures else frozen_plan(document)
    terms = terms_of(figures.loaded.input.rules) if figures else document["rules"]
    choice = both_promises(plan, terms, revision.shop, now)
    early = choice.early
    if isinstance(early, NoDate):
        return QuotePromise(None, no_date_words(early))
    others = promised_that_week(revision.shop, early.visit.ready.day, revision.quote.job_id)
    return QuotePromise(replace(promised_answer(early, others), withdrawal=_withdrawal(choice, early)), None)


def promised_answer(promised: Promised, others: int = 0) -> PromiseOut:
    return in_words(promised, others, language())


@lru_cache(maxsize=128)
def in_words(promised: Promised, others: int, tag: str) -> PromiseOut:
    """The promise in a language, worded once in a quarter of an hour however many readers and answers share it."""
    with speaking(tag):
        return promise_answer(
            promised.visit, promised.plan.planned, promised.calendar, promised.plan.team, promised.now, others
        )


def no_date_words(missing: NoDate) -> str:
    """The sentence on why there is no date, for the workshop."""
    if missing.refusal is not None:
        return calculation_words(missing.refusal)
    return no_date(missing.visit) or "" if missing.visit else say(NO_DATE[missing.code])


def _withdrawal(choice: BothPromises, early: Promised) -> WithdrawalOut | None:
    """The effect of the withdrawal period on the date, for the advisor; the customer's page says the same."""
    if choice.first_day is None:
        return None
    day, later = day_words(choice.first_day), choice.later
    words = say("promise.withdrawal.counted", day=day)
    if choice.open and isinstance(later, Promised):
        today = early.now.astimezone(early.calendar.zone).date()
        words = say("promise.withdrawal.unless_ready", day=day, ready=half_day_brief(later.visit.ready, today))
    elif choice.open:
        words = say("promise.withdrawal.unless", day=day)
    return WithdrawalOut(choice.first_day, choice.open, words)


def _recorded(decision: Decision, document: FrozenContent) -> QuotePromise:
    """The promise recorded on acceptance, never recomputed; none if the customer accepted without a date.

    A record from before there was a headline has only the half day.
    """
    recorded = decision.record.get("promise")
    if not recorded:
        return QuotePromise(None, say("promise.none_told" if "plan" in document else "promise.not_kept"))
    whole = recorded["whole"]
    headline = say("promise.headline.ready", when=whole["ready"]["words"])
    return QuotePromise(from_kept({**NEVER_RECORDED, "headline": headline} | whole, PromiseOut), None)

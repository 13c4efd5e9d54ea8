"""Quotes whose customers have not answered, in words."""

from datetime import datetime
from typing import Any

from quotes.answers.follow_ups import CallOut, UnansweredOut
from quotes.models import FollowUp
from quotes.models.follow_ups import CallOutcome
from quotes.presenters.quote import quote_row
from shop.answers.base import utc, utc_or_none
from shop.presenters.dates import due_words
from shop.words import say

OUTCOMES = {
    CallOutcome.NO_ANSWER: "follow_up.no_answer",
    CallOutcome.THINKING: "follow_up.thinking",
    CallOutcome.WANTS_CHANGE: "follow_up.wants_change",
}


def follow_up_answer(revision: Any, call: FollowUp | None, now: datetime) -> UnansweredOut:
    """A row of the list; the revision is as `access.to_follow_up` lists it, with `opened_at` and `linked`."""
    zone = revision.shop.zone
    opened = revision.opened_at
    unopened = "follow_up.not_opened" if revision.linked else "follow_up.no_link"
    why = [
        say("follow_up.opened", at=due_words(opened, zone)) if opened else say(unopened),
        say(
            "follow_up.expired" if revision.valid_until < now else "follow_up.valid",
            at=due_words(revision.valid_until, zone),
        ),
    ]
    return UnansweredOut(
        row=quote_row(revision, now), opened_at=utc_or_none(opened), why=why, call=call_answer(call) if call else None
    )


def call_answer(call: FollowUp) -> CallOut:
    by, at = call.called_by.user.name, due_words(call.called_at, call.shop.zone)
    outcome = CallOutcome(call.outcome)
    words = say("follow_up.rang", at=at, by=by, outcome=say(OUTCOMES[outcome]))
    return CallOut(outcome=outcome, called_at=utc(call.called_at), called_by=by, words=words)

"""Quotes whose customers have not answered."""

from typing import Annotated

from msgspec import Meta

from quotes.answers.rows import QuoteRowOut
from quotes.models.follow_ups import CallOutcome
from shop.answers.base import Answer, Instant


class CallOut(Answer, frozen=True):
    """A call to the customer."""

    outcome: Annotated[CallOutcome, Meta(description="The outcome.")]
    called_at: Annotated[Instant, Meta(description="The time of the call.")]
    called_by: Annotated[str, Meta(description="The name of the person who rang.")]
    words: Annotated[str, Meta(description="The call in words.")]


class UnansweredOut(Answer, frozen=True):
    """A sent quote without an answer."""

    row: Annotated[QuoteRowOut, Meta(description="The quote as lists show it.")]
    opened_at: Annotated[
        Instant | None, Meta(description="The time at which a link first showed this version; null until then.")
    ]
    why: Annotated[list[str], Meta(description="Since when it is sent, whether it was opened, how long it is valid.")]
    call: Annotated[CallOut | None, Meta(description="The newest call; null where nobody rang.")]

"""Changes to an open job: what they may take off, and how far the workshop may go without asking."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from quotes.answers.rows import QuoteState
from quotes.models.answers import AnswerWay
from shop.answers.base import Answer, Exact, Instant, TextId


class AgreedItemOut(Answer, frozen=True):
    """Something agreed on the job that a change can take off."""

    source: Annotated[TextId, Meta(description="The id of the version in which it was agreed.")]
    item: Annotated[str, Meta(description="Its key in the text of that version.")]
    kind: Annotated[Literal["kit", "labour", "need", "extra", "outside"], Meta(description="Its name, in words.")]
    title: str
    hours: Annotated[Exact, Meta(description="Of an operation; else 0.0.")]
    value: Annotated[Exact, Meta(description="Its amount: the price less the share of a discount in percent.")]
    taken: Annotated[bool, Meta(description="This change takes it off.")]


class CeilingOut(Answer, frozen=True):
    """The ceiling of work that needs no consent of the customer."""

    ceiling: Annotated[Exact, Meta(description="The whole amount, with tax.")]
    left: Annotated[Exact, Meta(description="The rest of it; never below 0.")]
    status: Annotated[
        Literal["within", "near", "ask"], Meta(description="near: more than four fifths are spent; ask: more than all.")
    ]
    words: str


class QuoteChangeOut(Answer, frozen=True):
    """The additional facts of a quote that changes an open job."""

    number: Annotated[int, Meta(description="The number of the change on its job, counted from 1.")]
    opener: Annotated[UUID | None, Meta(description="The id of the quote that opened the job; null where none did.")]
    before: Annotated[Exact, Meta(description="The sum agreed on the job without this change, with tax.")]
    after: Annotated[Exact, Meta(description="The sum agreed with it.")]
    items: Annotated[list[AgreedItemOut], Meta(description="The items that can be taken off; empty once it is sent.")]
    ceiling: Annotated[
        CeilingOut | None,
        Meta(description="With this change; null where the quote names none or the job has ended."),
    ]
    date: Annotated[
        str,
        Meta(description="The day on which the vehicle is ready with it, and instead of which; empty if not known."),
    ]
    unasked: Annotated[bool, Meta(description="The workshop may go ahead with it without asking the customer.")]


class JobChangeOut(Answer, frozen=True):
    """A change to a job in the list of them."""

    quote: Annotated[UUID, Meta(description="The id of its quote.")]
    number: Annotated[str | None, Meta(description="The number of its quote; null while it is empty.")]
    state: QuoteState
    gross: Annotated[Exact | None, Meta(description="The amount by which it changes the total, with tax.")]
    titles: Annotated[list[str], Meta(description="The amount that it adds, in words.")]
    way: Annotated[AnswerWay | None, Meta(description="The way in which it was accepted; null until it is.")]
    by: Annotated[
        str, Meta(description="The person who accepted it, or went ahead within the ceiling; empty until then.")
    ]
    at: Annotated[Instant | None, Meta(description="The time at which it was accepted.")]


class JobChangesOut(Answer, frozen=True):
    """The changes of a job, the first one first, and what is left of the ceiling."""

    agreed: Annotated[Exact | None, Meta(description="Everything agreed, with tax; null for a job without a quote.")]
    ceiling: Annotated[CeilingOut | None, Meta(description="Null where the quote names none or the job has ended.")]
    changes: Annotated[list[JobChangeOut], Meta(description="In the order in which they were begun.")]

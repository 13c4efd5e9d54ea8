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
    kind: Annotated[Literal["kit", "labour", "need", "extra", "outside"], Meta(description="What it is.")]
    title: str
    hours: Annotated[Exact, Meta(description="Of an operation; else 0.0.")]
    value: Annotated[Exact, Meta(description="What it counts: its price less its share of a discount in percent.")]
    taken: Annotated[bool, Meta(description="This change takes it off.")]


class CeilingOut(Answer, frozen=True):
    """How far work may go without asking the customer."""

    ceiling: Annotated[Exact, Meta(description="The whole amount, with tax.")]
    left: Annotated[Exact, Meta(description="What is left of it; never below 0.")]
    status: Annotated[
        Literal["within", "near", "ask"], Meta(description="near: more than four fifths are spent; ask: more than all.")
    ]
    words: str


class QuoteChangeOut(Answer, frozen=True):
    """The additional facts of a quote that changes an open job."""

    number: Annotated[int, Meta(description="Which change of the job it is, counted from 1.")]
    opener: Annotated[UUID | None, Meta(description="The id of the quote that opened the job; null where none did.")]
    before: Annotated[Exact, Meta(description="What is agreed on the job without this change, with tax.")]
    after: Annotated[Exact, Meta(description="What is agreed with it.")]
    items: Annotated[list[AgreedItemOut], Meta(description="What can be taken off; empty once it is sent.")]
    ceiling: Annotated[CeilingOut | None, Meta(description="With this change; null where the quote names none.")]
    unasked: Annotated[bool, Meta(description="The workshop may go ahead with it without asking the customer.")]


class JobChangeOut(Answer, frozen=True):
    """A change to a job in the list of them."""

    quote: Annotated[UUID, Meta(description="The id of its quote.")]
    number: Annotated[str | None, Meta(description="The number of its quote; null while it is empty.")]
    state: QuoteState
    gross: Annotated[Exact | None, Meta(description="What it changes the total by, with tax.")]
    titles: Annotated[list[str], Meta(description="What it adds, in words.")]
    way: Annotated[AnswerWay | None, Meta(description="How it was accepted; null until it is.")]
    by: Annotated[str, Meta(description="Who accepted it, or went ahead within the ceiling; empty until then.")]
    at: Annotated[Instant | None, Meta(description="When it was accepted.")]


class JobChangesOut(Answer, frozen=True):
    """The changes of a job, the first one first, and what is left of the ceiling."""

    agreed: Annotated[Exact | None, Meta(description="Everything agreed, with tax; null for a job without a quote.")]
    ceiling: Annotated[CeilingOut | None, Meta(description="Null where the quote names none.")]
    changes: Annotated[list[JobChangeOut], Meta(description="In the order in which they were begun.")]

"""Questions that customers ask from the link."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant


class QuestionOut(Answer, frozen=True):
    """A question, with the workshop's reply."""

    id: UUID
    text: Annotated[str, Meta(description="As the customer typed it, in plain text.")]
    recipient: Annotated[str, Meta(description="The person whose link it came by.")]
    asked_at: Annotated[Instant, Meta(description="The time at which the customer asked.")]
    reply: Annotated[str, Meta(description="The workshop's reply; empty until there is one.")]
    replied_at: Annotated[Instant | None, Meta(description="The time at which the workshop replied.")]
    replied_by: Annotated[str | None, Meta(description="The person who replied.")]


class AskedOut(Answer, frozen=True):
    """A question without a reply, in the counter's list."""

    id: UUID
    quote: Annotated[UUID, Meta(description="The id of the quote.")]
    number: Annotated[str, Meta(description="The quote's number.")]
    customer: Annotated[str | None, Meta(description="The customer's name.")]
    text: Annotated[str, Meta(description="The question as the customer typed it.")]
    asked_at: Annotated[Instant, Meta(description="The time at which the customer asked.")]

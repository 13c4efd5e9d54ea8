"""E-mails about a quote."""

from typing import Annotated, Literal
from uuid import UUID

from django.db.models import TextChoices
from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.answers.mails import MailState

MailDecision = Literal["again", "arrived", "cancel"]


class MailKind(TextChoices):
    QUOTE_LINK = "quote_link"
    RECEIPT = "receipt"
    MOVED_DATE = "moved_date"
    QUESTION = "question"
    REPLY = "reply"


class MailOut(Answer, frozen=True):
    """An e-mail about a quote."""

    id: UUID
    kind: Annotated[
        MailKind,
        Meta(description="A link, the receipt of an acceptance, a moved date, a customer's question, or its reply."),
    ]
    to: Annotated[str, Meta(description="The e-mail address that it is sent to.")]
    state: MailState
    words: str
    asked_at: Annotated[Instant, Meta(description="The time at which it was asked for.")]
    asked_by: Annotated[str | None, Meta(description="The person's name; null where the customer caused it.")]
    decisions: Annotated[list[MailDecision], Meta(description="Those that a person can take about it now.")]


class MailsOut(Answer, frozen=True):
    """The e-mails about a quote, and whether another can be sent."""

    is_sent: Annotated[bool, Meta(description="False where no mail server is set up: nothing leaves.")]
    address: Annotated[str, Meta(description="The customer's e-mail address; empty where none is recorded.")]
    items: list[MailOut]


class MailTroubleOut(Answer, frozen=True):
    """An e-mail that a person has to decide about."""

    quote: Annotated[UUID, Meta(description="The id of the quote.")]
    number: Annotated[str | None, Meta(description="The number of the quote.")]
    customer: Annotated[str | None, Meta(description="The customer's name.")]
    to: Annotated[str, Meta(description="The e-mail address that it is sent to.")]
    words: str
    asked_at: Annotated[Instant, Meta(description="The time at which it was asked for.")]

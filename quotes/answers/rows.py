"""Quotes in lists."""

from typing import Annotated
from uuid import UUID

from django.db.models import TextChoices
from msgspec import Meta

from shop.answers.base import Answer, Exact, Instant
from shop.models.jobs import JobState


class QuoteState(TextChoices):
    """The state of a quote's newest version on a day: as it is stored, or past its last day without an answer."""

    DRAFT = "draft"
    SENT = "sent"
    REPLACED = "replaced"
    ACCEPTED = "accepted"
    DECLINED = "declined"
    WITHDRAWN = "withdrawn"
    EXPIRED = "expired"


class QuoteRowOut(Answer, frozen=True):
    """A quote in a list of them."""

    id: UUID
    number: Annotated[str | None, Meta(description="Null until its first kit, part or line.")]
    note: Annotated[str, Meta(description="The workshop's own; no customer reads it.")]
    phone: str
    state: QuoteState
    revision: Annotated[int, Meta(description="The number of the version.")]
    customer: Annotated[str | None, Meta(description="The customer's name; null until one is chosen.")]
    vehicle: Annotated[str | None, Meta(description="The vehicle's make and model; null until one is chosen.")]
    kits: Annotated[list[str], Meta(description="The titles of its kits.")]
    gross: Annotated[
        Exact | None, Meta(description="Of a draft, the total of its last change; of several prices, the lowest.")
    ]
    gross_high: Annotated[
        Exact | None, Meta(description="The highest of several prices, until one of them is accepted.")
    ]
    changed_at: Instant
    sent_at: Instant | None
    answered_at: Annotated[Instant | None, Meta(description="The time at which the customer accepted or declined it.")]
    valid_until: Instant | None
    job_state: Annotated[JobState | None, Meta(description="The state of its job; null until the customer accepts.")]

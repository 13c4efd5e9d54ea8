"""Lines charged only if something happens, and how often it did. They hold no price, because the bay reads them."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Exact, Instant, TextId


class OccurrenceOut(Answer, frozen=True):
    """A record of what happened, or the opposite row of a mistake."""

    id: UUID
    count: Annotated[int, Meta(description="The number of times it happened; negative in an opposite row.")]
    note: Annotated[str, Meta(description="The person's note on it.")]
    recorded_at: Annotated[Instant, Meta(description="The time at which it was recorded.")]
    recorded_by: Annotated[str, Meta(description="The name of the person who recorded it.")]
    reverses: Annotated[UUID | None, Meta(description="The id of the row that it cancels.")]
    reversed: Annotated[bool, Meta(description="An opposite row cancels it.")]
    photographs: Annotated[list[UUID], Meta(description="The ids of its photographs, in their order.")]
    shown: Annotated[list[UUID], Meta(description="The ids of those that the customer sees on the link.")]


class AgreedContingencyOut(Answer, frozen=True):
    """A line that was agreed in case it happens, and how often it happened."""

    line: TextId
    event: Annotated[str, Meta(description="The event that has to happen.")]
    title: Annotated[str, Meta(description="The work that is then done, or the part that is fitted.")]
    hours: Annotated[Exact | None, Meta(description="Of one time; null for a part or a hand-written line.")]
    cap: Annotated[int, Meta(description="The most times that were agreed.")]
    happened: Annotated[int, Meta(description="The number of times it happened.")]
    rest: Annotated[int, Meta(description="The number of times it may still happen at the agreed price.")]
    over: Annotated[int, Meta(description="The number of times it happened beyond the cap, which is not charged.")]
    words: Annotated[str, Meta(description="The number of times it happened and still may happen, in words.")]
    records: Annotated[list[OccurrenceOut], Meta(description="In the order in which they were recorded.")]


class OccurrencesOut(Answer, frozen=True):
    """Everything that a job's quotes charge only if it happens."""

    lines: Annotated[list[AgreedContingencyOut], Meta(description="In the order of the quotes and their lines.")]


class BeyondCapOut(Answer, frozen=True):
    """Something that happened more often on a job than was agreed."""

    job: UUID
    number: Annotated[str, Meta(description="The number of the job.")]
    quote: Annotated[UUID, Meta(description="The id of the quote that agreed it.")]
    event: Annotated[str, Meta(description="The event.")]
    words: Annotated[str, Meta(description="The number of times it happened and was agreed, in words.")]

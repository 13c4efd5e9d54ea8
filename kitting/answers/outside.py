"""The outside work of a job and its log. No price and no cost: everybody reads it."""

from datetime import date
from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from kitting.models.outside import OutsideEventKind
from shop.answers.base import Answer, Instant

OutsideState = Literal["proposed", "sent", "late", "back"]


class OutsideEventOut(Answer, frozen=True):
    """An entry of the log."""

    id: UUID
    kind: Annotated[OutsideEventKind, Meta(description="Sent, asked again, come back, or the last entry undone.")]
    happened_on: Annotated[date, Meta(description="The day on which it happened.")]
    expected_on: Annotated[date | None, Meta(description="The day that the firm named.")]
    reference: Annotated[str, Meta(description="The firm's reference.")]
    note: Annotated[str, Meta(description="The person's note on it.")]
    recorded_at: Annotated[Instant, Meta(description="The time at which it was recorded.")]
    recorded_by: Annotated[str, Meta(description="The name of the person who recorded it.")]


class JobOutsideOut(Answer, frozen=True):
    """A piece of work that another firm does for the job."""

    work: Annotated[str, Meta(description="The code under which the job holds it.")]
    title: str
    firm: str
    state: Annotated[OutsideState, Meta(description="late: sent, and its day is over.")]
    words: Annotated[str, Meta(description="Its place, in a sentence.")]
    they_need: Annotated[str, Meta(description="The things that the firm needs from the workshop.")]
    reference: Annotated[str, Meta(description="The firm's reference as recorded last.")]
    rounds: Annotated[int, Meta(description="The number of times it was sent.")]
    due_on: Annotated[date | None, Meta(description="The day by which it is due back; null if it is not out.")]
    undo: Annotated[UUID | None, Meta(description="The last entry, where the reader may undo it.")]
    log: Annotated[list[OutsideEventOut], Meta(description="The first entry first.")]


class JobOutsidesOut(Answer, frozen=True):
    """The work that other firms do for a job."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    items: list[JobOutsideOut]

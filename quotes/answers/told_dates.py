"""The date of a job that moved, and the dates that its customer was told."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from quotes.models.told_dates import DateHalf, DateMeans
from shop.answers.base import Answer, Instant


class HalfDayOut(Answer, frozen=True):
    """A half day in words."""

    day: date
    half: Annotated[DateHalf, Meta(description="The half of the day.")]
    words: str


class ToldDateOut(Answer, frozen=True):
    """A date that the customer was told after the acceptance."""

    id: UUID
    ready_on: Annotated[date | None, Meta(description="Null where they were told that there is no date.")]
    half: Annotated[DateHalf | None, Meta(description="The half of the day.")]
    words: Annotated[str, Meta(description="The sentence as the customer reads it.")]
    means: Annotated[DateMeans, Meta(description="By e-mail, or by a person on the telephone.")]
    told_at: Annotated[Instant, Meta(description="The time at which they were told.")]
    told_by: Annotated[str, Meta(description="The name of the person who told them.")]


class ToldDatesOut(Answer, frozen=True):
    """The date that the customer counts on, the one that is expected now, and what they were told."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    open: Annotated[bool, Meta(description="False once the job has ended, or if no quote opened it.")]
    moved: Annotated[bool, Meta(description="The expected date is another than the one that the customer knows.")]
    counted_on: Annotated[HalfDayOut | None, Meta(description="The half day that the customer counts on.")]
    expected: Annotated[HalfDayOut | None, Meta(description="The half day that is expected now.")]
    no_date: Annotated[str | None, Meta(description="The reason for which no date can be given now.")]
    draft: Annotated[str, Meta(description="A sentence for the customer, in their language, to complete.")]
    notes: Annotated[list[str], Meta(description="Facts worth knowing before it is told.")]
    address: Annotated[str, Meta(description="The customer's e-mail address; empty where none is recorded.")]
    told: Annotated[list[ToldDateOut], Meta(description="The last one first.")]

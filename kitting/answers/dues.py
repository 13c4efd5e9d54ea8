"""A delivery day that a person has recorded."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant


class DueLineOut(Answer, frozen=True):
    """The day of one line, now and before."""

    line: UUID
    due_at: Instant | None
    before: Instant | None


class DueBackOut(Answer, frozen=True):
    """A request that gives lines their earlier day back."""

    lines: list[UUID]
    day: date | None
    time: Annotated[str | None, Meta(description="Hours and minutes of the shop's clock, as in 10:30.")]


class DueOut(Answer, frozen=True):
    """The recorded day of some lines."""

    words: Annotated[str | None, Meta(description="When they arrive; null where a day was removed.")]
    items: list[DueLineOut]
    undo: Annotated[list[DueBackOut], Meta(description="The requests that undo the change.")]

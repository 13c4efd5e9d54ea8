"""A delivery day that a person has recorded."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant


class DueLineOut(Answer, frozen=True):
    """The day of one line, now and before."""

    line: UUID
    due_at: Annotated[Instant | None, Meta(description="When it arrives; null where nobody has recorded it.")]
    before: Annotated[Instant | None, Meta(description="The day it had before; null for none.")]


class DueBackOut(Answer, frozen=True):
    """A request that gives lines their earlier day back."""

    lines: Annotated[list[UUID], Meta(description="The ids of the lines.")]
    day: Annotated[date | None, Meta(description="Null where they had none.")]
    time: Annotated[str | None, Meta(description="Hours and minutes of the shop's clock, as in 10:30.")]


class DueOut(Answer, frozen=True):
    """The recorded day of some lines."""

    words: Annotated[str | None, Meta(description="When they arrive; null where a day was removed.")]
    items: list[DueLineOut]
    undo: Annotated[list[DueBackOut], Meta(description="The requests that undo the change.")]

"""A delivery day that a person has recorded."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer


class DueBackOut(Answer, frozen=True):
    """A request that gives lines their earlier day back."""

    lines: Annotated[list[UUID], Meta(description="The ids of the lines.")]
    day: Annotated[date | None, Meta(description="Null where they had none.")]
    time: Annotated[str | None, Meta(description="Hours and minutes of the shop's clock, as in 10:30.")]


class DueOut(Answer, frozen=True):
    """The recorded day of some lines."""

    words: Annotated[str | None, Meta(description="The day on which they arrive; null where a day was removed.")]
    undo: Annotated[list[DueBackOut], Meta(description="The requests that undo the change.")]

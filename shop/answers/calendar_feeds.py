"""The addresses from which calendars read the days of open jobs."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant


class CalendarFeedOut(Answer, frozen=True):
    """An address that has not been revoked. It is shown once, when it is made."""

    id: UUID
    title: Annotated[str, Meta(description="The name of the calendar that reads it.")]
    by: Annotated[str, Meta(description="The name of the manager who made the address.")]
    made_at: Annotated[Instant, Meta(description="The time at which the address was made.")]


class CalendarFeedsOut(Answer, frozen=True):
    """The addresses that have not been revoked, newest first."""

    items: list[CalendarFeedOut]


class NewCalendarFeedOut(Answer, frozen=True):
    """An address that was just made."""

    feed: Annotated[CalendarFeedOut, Meta(description="The address, as the list shows it.")]
    url: Annotated[str | None, Meta(description="The address to read from; null in a repeated answer.")]

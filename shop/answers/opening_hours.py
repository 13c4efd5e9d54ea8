"""The opening hours of the week, and the days on which the shop is closed."""

import datetime
from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer
from shop.answers.rule_sets import RuleSetState

WeekDay = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]


class OpenSpanOut(Answer, frozen=True):
    """A stretch of a day in which the shop is open."""

    opens: Annotated[str, Meta(description="The time from which it is open, such as 08:00.")]
    closes: Annotated[str, Meta(description="The time at which it closes, such as 17:30; 24:00 ends the day.")]


class OpenDayOut(Answer, frozen=True):
    """A day of the week."""

    day: Annotated[WeekDay, Meta(description="The day of the week.")]
    spans: Annotated[list[OpenSpanOut], Meta(description="In the order of the day; none where it is closed.")]


class ClosedDayOut(Answer, frozen=True):
    """A day on which the shop is closed."""

    id: UUID
    date: Annotated[datetime.date, Meta(description="The day.")]
    reason: Annotated[str, Meta(description="The reason, such as a holiday; may be empty.")]


class HoursVersionOut(Answer, frozen=True):
    """Opening hours of the week that apply from a day on."""

    id: UUID
    valid_from: Annotated[datetime.date, Meta(description="The first day. The first hours apply before it, too.")]
    state: Annotated[RuleSetState, Meta(description="In force today, later, or replaced by others.")]
    week: Annotated[list[OpenDayOut], Meta(description="From Monday to Sunday.")]
    changes: Annotated[list[str], Meta(description="Differences from the hours before, a sentence for each day.")]


class OpeningHoursOut(Answer, frozen=True):
    """The opening hours of the week, and the closed days from today on."""

    recorded: Annotated[bool, Meta(description="Somebody has entered hours; without them no date is promised.")]
    week: Annotated[list[OpenDayOut], Meta(description="The hours in force today, from Monday to Sunday.")]
    versions: Annotated[list[HoursVersionOut], Meta(description="All hours by their days, the latest first.")]
    closed_days: Annotated[list[ClosedDayOut], Meta(description="From today on, the next one first.")]

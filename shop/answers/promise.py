"""A promise date: the half day, the way there in words, and the data of its picture."""

from datetime import date
from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer, Exact, Instant
from shop.answers.explained import ExplainedOut
from shop.calc.days import Half
from shop.calc.visit import LegKind


class ReadyOut(Answer, frozen=True):
    """The half day from which the vehicle can be collected."""

    day: date
    half: Annotated[Half, Meta(description="The half of the day.")]
    at: Annotated[Instant, Meta(description="The end of the last work.")]
    words: str


class LegOut(Answer, frozen=True):
    """One stretch of the way to the date."""

    kind: Annotated[LegKind, Meta(description="The event.")]
    since: Annotated[Instant, Meta(description="The time at which it begins.")]
    until: Annotated[Instant, Meta(description="The time at which it ends.")]
    words: str


class ComingOut(Answer, frozen=True):
    """Something that has to arrive for the work."""

    title: str
    operation: Annotated[str, Meta(description="The code of the operation that waits for it, or empty.")]
    at: Annotated[Instant | None, Meta(description="Null where nobody knows when it arrives.")]
    words: str


class BookedOut(Answer, frozen=True):
    """The planned time of an operation."""

    code: Annotated[str, Meta(description="The code of the operation.")]
    position: int
    title: str
    hours: Exact
    start: Annotated[Instant, Meta(description="The time at which the work begins.")]
    end: Annotated[Instant, Meta(description="The time at which the work ends.")]
    until: Annotated[Instant | None, Meta(description="The end of a wait after it, or of another firm's work.")]


class DayOut(Answer, frozen=True):
    """A column of the picture: a day with its first opening and its last closing, null where it is closed."""

    day: date
    words: str
    opens: Annotated[Instant | None, Meta(description="The first opening.")]
    closes: Annotated[Instant | None, Meta(description="The last closing.")]


class BringOut(Answer, frozen=True):
    """The latest time at which the vehicle has to be here."""

    day: date
    at: Annotated[Instant, Meta(description="The latest instant.")]
    words: str


class WithdrawalOut(Answer, frozen=True):
    """The effect of the withdrawal period on the date."""

    first_day: Annotated[date, Meta(description="The first day after the period.")]
    early: Annotated[
        bool,
        Meta(
            description="The date applies only if the customer asks for a start within the period; otherwise it counts "
            "from `first_day`."
        ),
    ]
    words: str


class PromiseOut(Answer, frozen=True):
    """The time at which the vehicle can be ready, and its reasons."""

    headline: Annotated[str, Meta(description="The date in one sentence.")]
    others: Annotated[str | None, Meta(description="The number of other vehicles promised in that week.")]
    bring: Annotated[BringOut | None, Meta(description="Null where the vehicle is here.")]
    withdrawal: Annotated[WithdrawalOut | None, Meta(description="Null without a withdrawal period.")]
    ready: Annotated[ReadyOut, Meta(description="The time at which the vehicle can be collected.")]
    finish: Annotated[Instant, Meta(description="The end of the last work.")]
    since: Annotated[Instant, Meta(description="The arrival of the vehicle.")]
    words: Annotated[list[str], Meta(description="The way to the date, a sentence for each stretch.")]
    unknown: Annotated[str | None, Meta(description="The parts that the date does not count.")]
    legs: Annotated[list[LegOut], Meta(description="The stretches of the way, in order.")]
    coming: Annotated[list[ComingOut], Meta(description="The deliveries that the work needs.")]
    schedule: Annotated[list[BookedOut], Meta(description="The planned time of each operation.")]
    days: Annotated[list[DayOut], Meta(description="The columns of the picture.")]
    how: ExplainedOut | None

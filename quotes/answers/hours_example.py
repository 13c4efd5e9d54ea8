"""A quote whose date is worked out by the calendar as it is, and by what a manager changes in it."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from quotes.answers.newer_rules import ComparedFigureOut, ExampleQuoteOut
from shop.answers.base import Answer


class HoursExampleOut(Answer, frozen=True):
    """A quote of the shop as if it were accepted now, by the calendar as it is and by a changed one."""

    quote: Annotated[UUID | None, Meta(description="The quote; null in a shop that has none.")]
    words: str
    figures: Annotated[list[ComparedFigureOut], Meta(description="The date; none where neither gives one.")]
    quotes: Annotated[list[ExampleQuoteOut], Meta(description="The quotes to choose from, the newest first.")]

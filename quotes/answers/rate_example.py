"""A quote priced by the exchange rate that counts and by one that a manager types."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from quotes.answers.newer_rules import ComparedFigureOut, ComparedLineOut, ExampleQuoteOut
from shop.answers.base import Answer


class ComparedRateOut(Answer, frozen=True):
    """The rate that counts today beside the one that is typed."""

    title: Annotated[str, Meta(description="One unit of the foreign currency.")]
    now: Annotated[str | None, Meta(description="Null where the currency has no rate yet.")]
    then: str
    moved: Annotated[bool, Meta(description="The two differ.")]


class RateExampleOut(Answer, frozen=True):
    """A quote of the shop by the exchange rate that counts and by another one, at today's prices."""

    quote: Annotated[UUID | None, Meta(description="The quote; null in a shop that has none.")]
    words: str
    stops: Annotated[str | None, Meta(description="The reason for which it cannot be priced.")]
    rate: Annotated[ComparedRateOut, Meta(description="The two rates.")]
    figures: Annotated[list[ComparedFigureOut], Meta(description="Net, tax, total and margin.")]
    lines: Annotated[list[ComparedLineOut], Meta(description="Those whose price moves.")]
    quotes: Annotated[list[ExampleQuoteOut], Meta(description="The quotes to choose from, the newest first.")]

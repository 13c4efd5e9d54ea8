"""Quotes priced by two sets of rules: a draft by its own and the newer ones, an example by those that are edited."""

from datetime import date
from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer
from shop.answers.rule_sets import RuleChangeOut

FigureCode = Literal["hours", "ready", "net", "tax", "total", "margin"]


class ComparedFigureOut(Answer, frozen=True):
    """A figure in words with the first rules and with the second; null where there is none."""

    code: Annotated[FigureCode, Meta(description="The key of the figure.")]
    title: str
    now: str | None
    then: str | None
    moved: Annotated[bool, Meta(description="The two differ.")]


class ComparedLineOut(Answer, frozen=True):
    """A line whose price moves."""

    title: str
    now: str | None
    then: str | None


class RulesComparedOut(Answer, frozen=True):
    """The draft priced by its own rules and by the newer ones."""

    number: Annotated[int, Meta(description="The number of the newer price rules.")]
    valid_from: date
    words: str
    stops: Annotated[str | None, Meta(description="The reason for which the newer rules cannot price it.")]
    figures: Annotated[
        list[ComparedFigureOut], Meta(description="Total and margin, and hours and date where they move.")
    ]
    lines: Annotated[list[ComparedLineOut], Meta(description="Those whose price moves.")]


class ExampleQuoteOut(Answer, frozen=True):
    """A quote that can be the example."""

    id: UUID
    title: Annotated[str, Meta(description="Its number, customer and kits.")]


class RulesExampleOut(Answer, frozen=True):
    """A quote of the shop priced by the rules in force and by a change of them, at today's prices."""

    quote: Annotated[UUID | None, Meta(description="The quote; null in a shop that has none.")]
    words: str
    stops: Annotated[str | None, Meta(description="The reason for which one of the sets cannot price it.")]
    figures: Annotated[list[ComparedFigureOut], Meta(description="Hours, net, tax, total and margin.")]
    lines: Annotated[list[ComparedLineOut], Meta(description="Those whose price moves.")]
    changes: Annotated[list[RuleChangeOut], Meta(description="The figures of the rules that differ.")]
    quotes: Annotated[list[ExampleQuoteOut], Meta(description="The quotes to choose from, the newest first.")]

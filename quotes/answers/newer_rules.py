"""A draft priced by its own rules and by the newer ones in force."""

from datetime import date
from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer

FigureCode = Literal["hours", "ready", "total", "margin"]


class ComparedFigureOut(Answer, frozen=True):
    """A figure in words with the rules of the draft and with the newer ones; null where there is none."""

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

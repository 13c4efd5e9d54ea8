"""A draft priced by its own rules and by the newer ones in force."""

from datetime import date
from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer

FigureCode = Literal["hours", "ready", "total", "margin"]


class ComparedFigureOut(Answer, frozen=True):
    """A figure in words with the rules of the draft and with the newer ones; null where there is none."""

    code: FigureCode
    title: str
    now: str | None
    then: str | None
    moved: bool


class ComparedLineOut(Answer, frozen=True):
    """A line whose price moves."""

    title: str
    now: str | None
    then: str | None


class RulesComparedOut(Answer, frozen=True):
    """The draft priced by its own rules and by the newer ones."""

    number: int
    valid_from: date
    words: str
    stops: Annotated[str | None, Meta(description="Why the newer rules cannot price it.")]
    figures: list[ComparedFigureOut]
    lines: list[ComparedLineOut]

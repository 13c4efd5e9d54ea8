"""The answer that explains how a figure was worked out."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer


class HowStepOut(Answer, frozen=True):
    """One line of the working."""

    words: str
    figure: Annotated[str, Meta(description="Its number with the unit; empty where the words say all.")]


class ExplainedOut(Answer, frozen=True):
    """The explanation of a figure: the rule in plain words, the numbers of the case, and the result."""

    title: str
    rule: list[str]
    steps: list[HowStepOut]
    result: str

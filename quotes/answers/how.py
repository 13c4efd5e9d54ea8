"""The answer that explains how a figure of a quote was worked out."""

from typing import Annotated

from msgspec import Meta

from shop.answers.explained import ExplainedOut


class HowOut(ExplainedOut, frozen=True):
    """The explanation of a figure of a quote: the rule in plain words, the numbers of the line, and the result."""

    key: Annotated[str, Meta(description="The key of the figure of the quote.")]

"""A pasted list of parts as it was understood."""

from typing import Annotated

from msgspec import Meta

from quotes.calc.part_list import Reading
from shop.answers.base import Answer, Exact, TextId


class ListedPartOut(Answer, frozen=True):
    """A line of the list."""

    row: Annotated[int, Meta(description="The number of the line in the text, counted from 1.")]
    text: Annotated[str, Meta(description="The line as it was pasted.")]
    reading: Annotated[Reading, Meta(description="Whether it will be added, or why not.")]
    number: Annotated[str, Meta(description="The part's number; of an unknown part, what the line calls it.")]
    title: Annotated[str, Meta(description="The part's title; empty for an unknown part.")]
    part: Annotated[TextId | None, Meta(description="Null for an unknown part.")]
    quantity: Exact
    price: Annotated[Exact | None, Meta(description="Of one unit today; null where none is known.")]
    words: Annotated[str, Meta(description="The fault and its remedy, or the meaning read; or empty.")]


class PartListOut(Answer, frozen=True):
    """The list. All of it can be added once no line is wrong."""

    words: Annotated[str, Meta(description="The number of lines understood, in words.")]
    understood: Annotated[int, Meta(description="The number of lines that will be added.")]
    wrong: Annotated[int, Meta(description="The number of lines that have to be put right first.")]
    rows: Annotated[list[ListedPartOut], Meta(description="In the order of the text.")]

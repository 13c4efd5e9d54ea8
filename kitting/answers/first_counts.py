"""The first counts of a kit that has no list."""

from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer, Exact, Instant

FirstCountState = Literal["none", "waiting", "differ", "nothing", "made"]


class FirstCountOut(Answer, frozen=True):
    """A count that was made."""

    number: Annotated[int, Meta(description="Its place among the counts of the series, from 1.")]
    by: Annotated[str, Meta(description="The name of the person who counted.")]
    at: Annotated[Instant, Meta(description="The time at which it was saved.")]
    whole: Annotated[bool, Meta(description="It counted the whole kit, and not only the lines that were asked for.")]
    lines: Annotated[int, Meta(description="The number of its lines.")]


class CountedDifferentlyOut(Answer, frozen=True):
    """A line on which no two counts agree."""

    carton: str
    bag: str
    number: Annotated[str, Meta(description="The part number.")]
    counted: Annotated[
        list[Exact | None], Meta(description="For each count in their order; null where it did not cover the line.")
    ]


class FirstCountsOut(Answer, frozen=True):
    """The counts of the newest series. Their lines are told only where two counts differ: the second is made blind."""

    state: Annotated[
        FirstCountState,
        Meta(
            description="none: nobody has counted yet. waiting: one count is saved, and a second is needed. differ: "
            "some lines have to be counted again. nothing: two counts agree that the kit is empty. made: the kit has "
            "its list."
        ),
    ]
    counts: Annotated[list[FirstCountOut], Meta(description="The counts, in the order in which they were made.")]
    differences: Annotated[list[CountedDifferentlyOut], Meta(description="The lines on which no two counts agree yet.")]
    agreed: Annotated[int, Meta(description="The number of lines on which two counts agree.")]
    revision: Annotated[int | None, Meta(description="The kit's newest version.")]

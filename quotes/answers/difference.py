"""The difference between a version of a quote and the version before it."""

from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer, Exact, Instant

ChangeCause = Literal["begun", "since", "all"]


class ChangedLineOut(Answer, frozen=True):
    """A line whose price changed, or that only one of the two versions has."""

    title: str
    before: Annotated[Exact | None, Meta(description="Null for a line that the version before does not have.")]
    after: Annotated[Exact | None, Meta(description="Null for a line that this version does not have.")]
    more: Annotated[Exact, Meta(description="The price after less the price before.")]
    why: Annotated[str, Meta(description="The quantity before and after, in words; empty where it is the same.")]


class ChangeGroupOut(Answer, frozen=True):
    """Changes of one cause."""

    cause: Annotated[
        ChangeCause,
        Meta(description="The rules, prices and kits of the day it was begun; what was changed since; or not known."),
    ]
    title: str
    more: Annotated[Exact, Meta(description="The amount that these changes add to the total.")]
    words: Annotated[list[str], Meta(description="Newer price rules and newer versions of kits, in sentences.")]
    lines: Annotated[
        list[ChangedLineOut], Meta(description="The lines that are new, gone or different; of many the largest first.")
    ]
    rest: Annotated[list[ChangedLineOut], Meta(description="The smaller ones, where there are more than twelve.")]


class VersionDifferenceOut(Answer, frozen=True):
    """A version compared with the version before it."""

    revision: Annotated[int, Meta(description="The number of the version before.")]
    sent_at: Annotated[Instant, Meta(description="The time at which the version before was sent.")]
    title: str
    words: Annotated[str, Meta(description="The total before and after, in words.")]
    before: Annotated[Exact, Meta(description="The total of the version before.")]
    after: Annotated[Exact, Meta(description="The total of this version.")]
    more: Annotated[Exact, Meta(description="The total after less the total before.")]
    groups: Annotated[list[ChangeGroupOut], Meta(description="By cause; without those that changed nothing.")]

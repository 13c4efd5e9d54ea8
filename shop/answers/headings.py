"""The headings of every kind of file that can be imported, and what stands below them."""

from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer

Needed = Literal["every_row", "column", "no"]


class FileHeadingOut(Answer, frozen=True):
    """A heading that a file may have."""

    heading: Annotated[str, Meta(description="As our own files write it.")]
    also: Annotated[list[str], Meta(description="Other headings under which the same is read.")]
    means: Annotated[str, Meta(description="What stands in the column, in words.")]
    needed: Annotated[Needed, Meta(description="Whether every row needs a value, or the list its column.")]
    example: Annotated[str, Meta(description="The cell in the example of this kind of file; empty without one.")]
    words: Annotated[
        list[list[str]],
        Meta(description="The words that a cell may hold, those of one meaning together. Empty: any text or number."),
    ]


class FileSheetOut(Answer, frozen=True):
    """A list that a file of the kind may hold."""

    name: Annotated[str, Meta(description="As our own files name the sheet.")]
    also: Annotated[list[str], Meta(description="Other names of the sheet under which the same is read.")]
    headings: list[FileHeadingOut]


class FileHeadingsOut(Answer, frozen=True):
    """A kind of file with the headings of each of its lists."""

    kind: str
    has_example: Annotated[bool, Meta(description="There is an example of this kind of file.")]
    sheets: list[FileSheetOut]


class HeadingsOut(Answer, frozen=True):
    """The kinds of file that this person may import."""

    kinds: list[FileHeadingsOut]

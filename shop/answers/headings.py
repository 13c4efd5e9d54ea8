"""The headings of every kind of file that can be imported."""

from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer
from shop.tables.registry import kinds

Needed = Literal["every_row", "column", "no"]


class FileHeadingOut(Answer, frozen=True):
    """A heading that a file may have."""

    heading: Annotated[str, Meta(description="As our own files write it.")]
    also: Annotated[list[str], Meta(description="Other headings under which the same is read.")]
    means: Annotated[str, Meta(description="The meaning of the column, in words.")]
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
    headings: Annotated[
        list[FileHeadingOut], Meta(description="The headings of the list, in the order of our own files.")
    ]


class FileHeadingsOut(Answer, frozen=True):
    """A kind of file with the headings of each of its lists."""

    kind: Annotated[str, Meta(description="The kind of file.", extra_json_schema={"enum": sorted(kinds())})]
    has_example: Annotated[bool, Meta(description="There is an example of this kind of file.")]
    sheets: Annotated[
        list[FileSheetOut], Meta(description="The lists of the file, in the order in which we write them.")
    ]


class HeadingsOut(Answer, frozen=True):
    """The kinds of file that this person may import."""

    kinds: Annotated[list[FileHeadingsOut], Meta(description="One for each kind of file that may be imported.")]

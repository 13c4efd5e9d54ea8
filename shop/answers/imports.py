"""Files as they were read, before and after they are imported."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.models.files import FileState
from shop.tables.registry import kinds

Weight = Literal["must_fix", "please_check", "done_for_you"]


class BecomesOut(Answer, frozen=True):
    """The rows that importing the file would make, or has made."""

    title: str
    words: list[str]


class ColumnOut(Answer, frozen=True):
    """A column that is read, with the field that it fills."""

    sheet: str
    column: Annotated[str, Meta(description="Its letters.")]
    heading: str
    field: Annotated[str, Meta(description="The field that it fills.")]


class HeadingOut(Answer, frozen=True):
    """A column of the file, read or not."""

    sheet: str
    column: Annotated[str, Meta(description="Its letters.")]
    heading: str


class ImportFieldOut(Answer, frozen=True):
    """A field that a column can fill."""

    field: Annotated[str, Meta(description="As `mapping` names it.")]
    words: str
    required: Annotated[bool, Meta(description="No table is read without it.")]


class FindingOut(Answer, frozen=True):
    """One remark about one place of the file."""

    sheet: str
    row: Annotated[int | None, Meta(description="Null where it concerns the sheet or the file.")]
    column: Annotated[str, Meta(description="Its letters; empty where it concerns no column.")]
    cell: Annotated[str, Meta(description="As in D47; empty where it concerns no single cell.")]
    weight: Annotated[Weight, Meta(description="The question that it asks.")]
    words: str
    remedy: Annotated[str, Meta(description="The remedy, in words.")]
    says: Annotated[str, Meta(description="The text in the cell.")]


class FindingCountsOut(Answer, frozen=True):
    """The number of findings of each weight, listed or not."""

    must_fix: int
    please_check: Annotated[int, Meta(description="Findings that a person should look at.")]
    done_for_you: Annotated[int, Meta(description="The corrections made as the file was read.")]


class FileOut(Answer, frozen=True):
    """An uploaded file."""

    id: UUID
    kind: Annotated[str, Meta(description="The kind of file.", extra_json_schema={"enum": sorted(kinds())})]
    file_name: str
    supplier: str
    state: Annotated[FileState, Meta(description="Whether it was imported.")]
    by: str | None
    read_at: Instant
    taken_at: Annotated[Instant | None, Meta(description="The time at which it was imported.")]


class ImportRowOut(FileOut, frozen=True):
    """A file in the list of files."""

    title: str
    must_fix: int


class ImportOut(FileOut, frozen=True):
    """A file as read: what it would become, and every problem by its cell. Nothing is saved until it is imported."""

    becomes: Annotated[BecomesOut, Meta(description="The rows that importing it would make, or has made.")]
    rows: Annotated[int, Meta(description="Rows that hold data.")]
    good: Annotated[int, Meta(description="Rows in which nothing must be fixed.")]
    skipped: Annotated[int, Meta(description="Rows that hold no data, such as titles and totals.")]
    columns: Annotated[list[ColumnOut], Meta(description="Those that are read.")]
    headings: Annotated[list[HeadingOut], Meta(description="All columns.")]
    fields: Annotated[list[ImportFieldOut], Meta(description="Those that a column can fill.")]
    findings: Annotated[list[FindingOut], Meta(description="By place in the file, at most a few hundred.")]
    counts: Annotated[FindingCountsOut, Meta(description="The number of all findings.")]
    can_take_in: Annotated[bool, Meta(description="Nothing has to be fixed, and it has not been imported.")]

"""Files as they were read, before and after they are imported."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.models.files import FileState

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
    field: str


class HeadingOut(Answer, frozen=True):
    """A column of the file, read or not."""

    sheet: str
    column: Annotated[str, Meta(description="Its letters.")]
    heading: str


class ImportFieldOut(Answer, frozen=True):
    """A field that a column can fill."""

    field: str
    words: str
    required: bool


class FindingOut(Answer, frozen=True):
    """One remark about one place of the file."""

    sheet: str
    row: Annotated[int | None, Meta(description="Null where it concerns the sheet or the file.")]
    column: str
    cell: Annotated[str, Meta(description="As in D47; empty where it concerns no single cell.")]
    weight: Weight
    words: str
    remedy: str
    says: Annotated[str, Meta(description="The text in the cell.")]


class FindingCountsOut(Answer, frozen=True):
    """The number of findings of each weight, listed or not."""

    must_fix: int
    please_check: int
    done_for_you: int


class FileOut(Answer, frozen=True):
    """An uploaded file."""

    id: UUID
    kind: Annotated[str, Meta(description="The kind of file, such as kit or customers.")]
    file_name: str
    supplier: str
    state: FileState
    by: str | None
    read_at: Instant
    taken_at: Annotated[Instant | None, Meta(description="When it was imported.")]


class ImportRowOut(FileOut, frozen=True):
    """A file in the list of files."""

    title: str
    must_fix: int


class ImportOut(FileOut, frozen=True):
    """A file as read: what it would become, and every problem by its cell. Nothing is saved until it is imported."""

    becomes: BecomesOut
    rows: int
    good: Annotated[int, Meta(description="Rows in which nothing must be fixed.")]
    skipped: int
    columns: list[ColumnOut]
    headings: list[HeadingOut]
    fields: list[ImportFieldOut]
    findings: list[FindingOut]
    counts: FindingCountsOut
    can_take_in: bool

"""Files as they were read, before and after they are imported."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import UNSET, Meta, UnsetType

from shop.answers.base import Answer, Instant
from shop.models.files import FileState, FileTaskKind, FileTaskState
from shop.tables.registry import kinds

StepKind = Literal["field", "answer", "value", "leave_out", "place"]
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
    table: Annotated[str | UnsetType, Meta(description="The list it belongs to: a sheet may hold more.")] = UNSET
    holds: Annotated[
        list[str] | UnsetType,
        Meta(description="Some of its texts, in a list without headings, whose columns are called by their letters."),
    ] = UNSET


class ImportFieldOut(Answer, frozen=True):
    """A field that a column can fill."""

    field: Annotated[str, Meta(description="As `mapping` names it.")]
    words: str
    required: Annotated[bool, Meta(description="No list that the file seems to hold is read without it.")]
    tables: Annotated[list[str] | UnsetType, Meta(description="The lists that have it, as `headings` name them.")] = (
        UNSET
    )


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


class AnswerChoiceOut(Answer, frozen=True):
    """A possible answer to a question."""

    value: Annotated[str, Meta(description="As a step sends it.")]
    words: str


class FileQuestionOut(Answer, frozen=True):
    """A doubt about a whole column or a kind of row, asked once and remembered for the supplier."""

    key: Annotated[str, Meta(description="As a step names it.")]
    words: str
    why: Annotated[str, Meta(description="The rows that raise it.")]
    sheet: str
    column: Annotated[str, Meta(description="Its letters; empty where it concerns no column.")]
    choices: Annotated[list[AnswerChoiceOut], Meta(description="The possible answers.")]
    value: Annotated[str | None, Meta(description="The answer; null while it is open.")]
    needed: Annotated[bool, Meta(description="The file cannot be imported before it is answered.")]


class TypedFieldOut(Answer, frozen=True):
    """A fact about the whole file, such as the kit's number, that a person may type."""

    field: Annotated[str, Meta(description="As a step names it.")]
    words: str
    text: Annotated[str, Meta(description="Empty where neither the file nor a person says it.")]
    in_the_file: Annotated[bool, Meta(description="Whether the file itself says it.")]


class PlaceOut(Answer, frozen=True):
    """A carton, a bag, or the lines of a carton in no bag, as the list will have them."""

    place: Annotated[int, Meta(description="Its position, as the query of the lines names it.")]
    carton: Annotated[str, Meta(description="Empty where there is none.")]
    bag: Annotated[str, Meta(description="Empty where there is none.")]
    lines: Annotated[int, Meta(description="The number of its lines.")]
    must_fix: int
    please_check: Annotated[int, Meta(description="The number of its remarks that a person should look at.")]


class LeftOutOut(Answer, frozen=True):
    """A row of the file that becomes no line."""

    sheet: str
    row: Annotated[int, Meta(description="The row of the file.")]
    words: Annotated[str, Meta(description="The reason.")]
    text: Annotated[str, Meta(description="The texts of its cells.")]
    by_you: Annotated[bool, Meta(description="A person left it out.")]


class LeftOutCountOut(Answer, frozen=True):
    """The number of rows left out for one reason."""

    words: str
    rows: Annotated[int, Meta(description="The number of rows.")]


class StepOut(Answer, frozen=True):
    """A decision of a person about the file, which can be undone by its id."""

    id: UUID
    do: Annotated[StepKind, Meta(description="The kind of decision.")]
    sheet: str
    rows: Annotated[list[int], Meta(description="The rows of the file that it is about.")]
    field: Annotated[str, Meta(description="The field that was typed or corrected; else empty.")]
    text: Annotated[str, Meta(description="The text that was typed or chosen; else empty.")]
    question: Annotated[str, Meta(description="The question that was answered; else empty.")]
    carton: str
    bag: str


class OfferOut(Answer, frozen=True):
    """A correction that one tap makes."""

    field: Annotated[str, Meta(description="The field that it fills.")]
    text: Annotated[str, Meta(description="The text that it writes into the field.")]


class RemarkOut(Answer, frozen=True):
    """A thing to fix or to check in a line."""

    weight: Annotated[Weight, Meta(description="The question that it asks.")]
    field: Annotated[str, Meta(description="The field that it is about; empty where it is about the row.")]
    field_words: Annotated[str, Meta(description="The field, in words.")]
    words: str
    remedy: Annotated[str, Meta(description="The remedy, in words.")]
    says: Annotated[str, Meta(description="The text in the cell.")]
    offers: Annotated[list[OfferOut], Meta(description="The corrections that one tap makes.")]
    problem: Annotated[str | UnsetType, Meta(description="Its key, which a step for all rows with it names.")] = UNSET
    same: Annotated[int | UnsetType, Meta(description="The number of other rows with the same problem.")] = UNSET
    leaves_out: Annotated[bool | UnsetType, Meta(description="Its row is not imported.")] = UNSET


class CorrectedOut(Answer, frozen=True):
    """A cell that a person corrected."""

    field: Annotated[str, Meta(description="The field that was corrected.")]
    words: str
    was: Annotated[str, Meta(description="The text in the file.")]


class ImportLineOut(Answer, frozen=True):
    """A line of the list as it will become."""

    place: Annotated[int, Meta(description="The position of its carton and bag.")]
    sheet: str
    row: Annotated[int, Meta(description="The row of the file.")]
    part: Annotated[str, Meta(description="The part number; empty where it cannot be read.")]
    title: str
    quantity: Annotated[str, Meta(description="Empty where it cannot be read.")]
    unit: str
    when: Annotated[str, Meta(description="The condition on the vehicle; empty where it fits every one.")]
    filled_down: Annotated[list[str], Meta(description="Fields whose value stands in a row above.")]
    corrected: Annotated[list[CorrectedOut], Meta(description="The cells that a person corrected.")]
    findings: Annotated[list[RemarkOut], Meta(description="The remarks about this line.")]


class ImportLinesOut(Answer, frozen=True):
    """The lines of one carton or bag."""

    lines: Annotated[list[ImportLineOut], Meta(description="At most as many as one answer holds.")]
    all: Annotated[int, Meta(description="The number of its lines, listed or not.")]


class FindingCountsOut(Answer, frozen=True):
    """The number of findings of each weight, listed or not."""

    must_fix: int
    please_check: Annotated[int, Meta(description="Findings that a person should look at.")]
    done_for_you: Annotated[int, Meta(description="The corrections made as the file was read.")]


class FileTaskOut(Answer, frozen=True):
    """Work on a large file that goes on while nobody waits for it."""

    kind: Annotated[FileTaskKind, Meta(description="Whether it is read or imported.")]
    state: FileTaskState
    rows_done: Annotated[int, Meta(description="The number of rows read so far.")]
    rows_in_all: Annotated[int, Meta(description="The number of its rows; 0 until they are counted.")]
    asked_at: Annotated[Instant, Meta(description="The time at which a person asked for it.")]
    reason: Annotated[str, Meta(description="The reason for which it failed, and its remedy; else empty.")]


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
    task: Annotated[FileTaskOut | None, Meta(description="Null where nothing is being done with it.")]


class ImportRowOut(FileOut, frozen=True):
    """A file in the list of files."""

    title: str
    must_fix: int


class ImportOut(FileOut, frozen=True):
    """A file as read: what it would become, and every problem by its cell. Nothing is saved until it is imported."""

    taken_by: Annotated[str | None, Meta(description="The person who imported it.")]
    made: Annotated[
        UUID | None,
        Meta(description="The id of the kit that it became, or of the job whose goods arrive; null for other files."),
    ]
    becomes: Annotated[BecomesOut, Meta(description="The rows that importing it would make, or has made.")]
    rows: Annotated[int, Meta(description="Rows that hold data and are not left out.")]
    good: Annotated[int, Meta(description="Rows in which nothing must be fixed.")]
    skipped: Annotated[int, Meta(description="Rows that hold no data, such as titles and totals.")]
    columns: Annotated[list[ColumnOut], Meta(description="Those that are read.")]
    headings: Annotated[list[HeadingOut], Meta(description="All columns.")]
    fields: Annotated[list[ImportFieldOut], Meta(description="Those that a column can fill.")]
    findings: Annotated[list[FindingOut], Meta(description="By place in the file, at most a few hundred.")]
    questions: Annotated[list[FileQuestionOut], Meta(description="Those about this file, answered or not.")]
    typed: Annotated[list[TypedFieldOut], Meta(description="Facts about the file that a person may type.")]
    places: Annotated[list[PlaceOut], Meta(description="The cartons and bags of the list, in their order.")]
    left_out: Annotated[list[LeftOutOut], Meta(description="At most a few hundred rows that become no line.")]
    left_out_counts: Annotated[list[LeftOutCountOut], Meta(description="The number of all of them by reason.")]
    steps: Annotated[list[StepOut], Meta(description="The decisions made so far, in their order.")]
    counts: Annotated[FindingCountsOut, Meta(description="The number of all findings.")]
    can_take_in: Annotated[bool, Meta(description="Nothing has to be fixed, and it has not been imported.")]

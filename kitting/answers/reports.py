"""The report of a pull list: every line that is not all here."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from kitting.answers.pull_lists import JobOfListOut
from kitting.answers.units import Unit
from kitting.calc.line_state import Code
from kitting.models.pulling import PullLineKind, PullListState
from shop.answers.base import Answer, Instant


class LineStateOut(Answer, frozen=True):
    """One state of a line."""

    code: Annotated[Code, Meta(description="The state.")]
    count: Annotated[int, Meta(description="The pieces or observations it is about; 0 where the code says all.")]
    words: str


class CountedByOut(Answer, frozen=True):
    """A count or a wrong-part note that stands."""

    who: Annotated[str, Meta(description="The name of the person.")]
    at: Annotated[Instant, Meta(description="By the phone's clock.")]
    words: str


class DifferenceOut(Answer, frozen=True):
    """A line that is not all here, in whole pieces."""

    line: UUID
    kind: Annotated[PullLineKind, Meta(description="The reason for which it is on the list.")]
    number: Annotated[str, Meta(description="The part's number.")]
    title: str
    carton: str
    bag: str
    expected: Annotated[int, Meta(description="The pieces that should be there.")]
    unit: Unit
    total: Annotated[int | None, Meta(description="Null while nobody has counted the line.")]
    damaged: Annotated[int | None, Meta(description="Null while nobody has counted the line.")]
    low: Annotated[
        int | None,
        Meta(description="The lowest of the totals that disagree. Null while nobody has counted the line."),
    ]
    weighed: Annotated[bool, Meta(description="Its last count was made on a scale.")]
    states: Annotated[list[LineStateOut], Meta(description="The most urgent first.")]
    counted_by: Annotated[
        list[CountedByOut],
        Meta(description="The counts that its figures rest on, the first one first, then its wrong-part notes."),
    ]
    counted: Annotated[bool, Meta(description="Whether it is one of the report's `counted` lines.")]
    differs: Annotated[bool, Meta(description="Whether it is one of the report's lines that `differ`.")]
    count_again: Annotated[bool, Meta(description="Whether it is one of the report's lines to `count_again`.")]
    sealed: Annotated[bool, Meta(description="Whether it is one of the report's `sealed` lines.")]
    operation: str


class ReportOut(Answer, frozen=True):
    """Every line that is not all here, as of `seq`. The figures are numbers of lines."""

    id: UUID
    job: JobOfListOut
    state: PullListState
    seq: int
    closed_at: Annotated[Instant | None, Meta(description="The time at which it was closed; null while it is open.")]
    closed_by: Annotated[str | None, Meta(description="The name of the person who closed it; null while it is open.")]
    lines: Annotated[int, Meta(description="Without re-used parts: `counted` and `not_counted` together.")]
    counted: Annotated[int, Meta(description="Lines that somebody has counted.")]
    not_counted: Annotated[int, Meta(description="Lines that nobody has counted.")]
    differ: Annotated[
        int,
        Meta(description="Counted with another total than expected, or with damaged pieces or a wrong-part note."),
    ]
    count_again: Annotated[int, Meta(description="Lines whose counts disagree.")]
    sealed: Annotated[int, Meta(description="Accepted without opening the bag.")]
    late: Annotated[int, Meta(description="With a count that came after closing.")]
    differences: Annotated[list[DifferenceOut], Meta(description="In the order of the list.")]

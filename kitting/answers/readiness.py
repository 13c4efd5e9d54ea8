"""The answers on how far a job can go with what was counted for it."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta, field

from kitting.answers.orders import ProposedOrderOut
from kitting.answers.pull_lists import JobOfListOut
from kitting.answers.units import Unit
from kitting.calc.job_readiness import StepState
from kitting.calc.missing import GroupKind
from kitting.calc.readiness import Verdict
from kitting.models.pulling import PullListState
from shop.answers.base import Answer, Exact, Instant
from shop.answers.explained import ExplainedOut
from shop.answers.promise import PromiseOut


class StepNameOut(Answer, frozen=True):
    """A step of the job."""

    position: int
    code: Annotated[str, Meta(description="The code of the operation.")]
    title: str


class HoldOut(StepNameOut, frozen=True):
    """The step before which the work has to stop."""

    words: Annotated[str, Meta(description="The sentence on the bar before the step.")]
    waits_at: Annotated[int | None, Meta(description="The position of the first step that the stop is for.")]


class ListOfJobOut(Answer, frozen=True):
    """The job's pull list."""

    id: UUID
    state: PullListState
    seq: int


class StepPartOut(Answer, frozen=True):
    """A part or a pack that the step takes."""

    line: UUID
    title: str
    number: Annotated[str, Meta(description="The part's number.")]
    need: Annotated[int, Meta(description="Pieces.")]
    here: Annotated[int, Meta(description="Pieces of `need` that are here.")]
    counted: Annotated[bool, Meta(description="Whether somebody has counted a line of it.")]
    states: Annotated[list[str], Meta(description="The counts of its lines, where pieces are not here.")]
    minor: Annotated[
        bool, Meta(description="The step does not wait for it: a leaflet, or what the shop supplies cover.")
    ]
    amount: Annotated[str | None, Meta(description="Of each, or of all packs together, in words.")]
    places: Annotated[list[str], Meta(description="Its place: carton and bag, or the shelf.")]
    kit: Annotated[str | None, Meta(description="In whose box it lies, where the job has several.")]


class StepReadinessOut(StepNameOut, frozen=True):
    """A step, what it lacks and what to take in hand for it."""

    hours: Exact
    no_return: bool
    mobile_again: bool
    state: Annotated[
        StepState,
        Meta(
            description="clear: nothing is missing; comes: what is missing comes in time; waits: it does not; after: "
            "only steps before it wait."
        ),
    ]
    words: str
    missing: Annotated[list[str], Meta(description="The things that it lacks, a sentence for each.")]
    parts: Annotated[list[StepPartOut], Meta(description="Also where all is here.")]
    hazards: Annotated[list[str], Meta(description="The warnings on the packs among its parts.")]


class MissingLineOut(Answer, frozen=True):
    """A line of which pieces are missing, in whole pieces."""

    line: UUID
    number: Annotated[str, Meta(description="The part's number.")]
    title: str
    unit: Unit
    have: Annotated[int, Meta(description="Pieces that are here.")]
    need: Annotated[int, Meta(description="Pieces that the work needs.")]
    missing: Annotated[int, Meta(description="Pieces that are not here.")]
    because: Annotated[list[str], Meta(description="The words of the line's states.")]


class MissingOut(Answer, frozen=True):
    """A line, or the lines nobody has counted of a kit, a carton, a bag or the shelf."""

    key: Annotated[str, Meta(description="It stays the same while the thing is missing.")]
    kind: Annotated[GroupKind, Meta(description="Its meaning.")]
    title: str
    words: str
    step: Annotated[
        StepNameOut | None, Meta(description="The first that stops without it; null for spares and papers.")
    ]
    stops: Annotated[str, Meta(description="The step that stops without it, in words.")]
    have: Annotated[int | None, Meta(description="Of a single line.")]
    need: Annotated[int | None, Meta(description="Of a single line.")]
    due: Annotated[Instant | None, Meta(description="The arrival; null where nobody knows it.")]
    due_words: str
    overdue: Annotated[bool, Meta(description="That day has passed.")]
    uncounted: Annotated[bool, Meta(description="It may be here, and only has to be counted.")]
    typed: Annotated[bool, Meta(description="A person has recorded when it comes.")]
    needed: Annotated[int, Meta(description="The number of its lines that some step waits for.")]
    lines: Annotated[list[MissingLineOut], Meta(description="The lines of which pieces are missing.")]


class ArrivalOut(Answer, frozen=True):
    """Something that has to arrive for a step. What several steps need stands once for each."""

    key: Annotated[str, Meta(description="That of the missing thing.")]
    title: str
    step: Annotated[StepNameOut, Meta(description="The step that waits for it.")]
    due: Annotated[Instant, Meta(description="The arrival.")]
    due_words: str
    needed_at: Annotated[Instant, Meta(description="The time at which the work needs it.")]
    words: str


class ReadinessOut(Answer, frozen=True):
    """The work that the job can do with what was counted, and the time at which its vehicle can be ready."""

    job: JobOfListOut
    customer: str
    vehicle: str
    verdict: Annotated[Verdict | None, Meta(description="Null where nothing can be said; `sentence` then says why.")]
    not_before: Annotated[
        date | None,
        Meta(description="The customer may withdraw until then, and nothing is ordered or begun."),
    ]
    sentence: Annotated[str, Meta(description="The point up to which the job can go, and what to count first.")]
    reach: Annotated[str, Meta(description="The point up to which the job can go, alone.")]
    count_first: Annotated[str | None, Meta(description="The lines to count first, in words; null where none is.")]
    notes: Annotated[list[str], Meta(description="Further facts worth knowing, in words.")]
    hold_before: Annotated[HoldOut | None, Meta(description="Null where the work need not stop.")]
    cleared_hours: Annotated[Exact, Meta(description="Hours of the steps that can be done.")]
    hours_before_hold: Annotated[Exact | None, Meta(description="Hours of the clear steps up to the hold.")]
    total_hours: Annotated[Exact, Meta(description="Hours of all steps.")]
    counted: Annotated[int, Meta(description="Lines of the pull list, also of what is not for this vehicle.")]
    lines: Annotated[int, Meta(description="Lines of the pull list, also of what is not for this vehicle.")]
    pull_list: Annotated[ListOfJobOut | None, Meta(description="Null where the job has none.")] = field(name="list")
    last_counted_at: Annotated[Instant | None, Meta(description="The time of the last count; null without one.")]
    steps: Annotated[list[StepReadinessOut], Meta(description="In the order of the work.")]
    missing: Annotated[list[MissingOut], Meta(description="The parts that are not here, the most urgent first.")]
    arrivals: Annotated[
        list[ArrivalOut], Meta(description="The deliveries that have to arrive, in the order of the steps.")
    ]
    to_order: Annotated[list[ProposedOrderOut], Meta(description="Order proposals for what nobody has ordered.")]
    promise: PromiseOut | None
    no_promise: Annotated[str | None, Meta(description="The reason for which there is no date, in words.")]
    here: bool
    here_from: date | None
    how: ExplainedOut

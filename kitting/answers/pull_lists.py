"""A pull list and its lines."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from kitting.answers.units import Unit
from kitting.models.pulling import PullLineKind, PullListState
from shop.answers.base import Answer, Exact, Instant


class KitOfListOut(Answer, frozen=True):
    """A kit by its name as it was when the list was opened."""

    code: str
    title: str


class PullListRowOut(Answer, frozen=True):
    """A pull list in a list of them."""

    id: UUID
    job: Annotated[str, Meta(description="The job's number.")]
    job_id: Annotated[UUID, Meta(description="The id of the job.")]
    number: Annotated[str, Meta(description="The job's number.")]
    customer: str
    vehicle: str
    kits: Annotated[list[KitOfListOut], Meta(description="In the list's order.")]
    state: PullListState
    lines: Annotated[int, Meta(description="Without re-used parts, which are on the vehicle.")]
    counted: Annotated[int, Meta(description="The number of these lines that somebody has counted.")]
    opened_at: Instant


class JobOfListOut(Answer, frozen=True):
    """The job that a list is for."""

    id: UUID
    number: Annotated[str, Meta(description="The job's number.")]


class PullLineOut(Answer, frozen=True):
    """One place on the list."""

    id: UUID
    position: int
    kind: Annotated[PullLineKind, Meta(description="The reason for which it is on the list.")]
    kit: Annotated[str, Meta(description="The kit's code, or empty.")]
    number: Annotated[str, Meta(description="The part's number.")]
    title: str
    quantity: Annotated[Exact, Meta(description="Exact, in the unit of the part.")]
    pieces: Annotated[int, Meta(description="The number that a person counts.")]
    unit: Unit
    carton: str
    bag: str
    operation: Annotated[str, Meta(description="The code of the step that first needs it, or empty.")]
    codes: Annotated[list[str], Meta(description="A code that a scanner may read on the part, besides its number.")]


class PullListOut(Answer, frozen=True):
    """A pull list with its lines in order."""

    id: UUID
    job: JobOfListOut
    customer: str
    vehicle: str
    state: PullListState
    seq: Annotated[int, Meta(description="The last place in the list's log.")]
    epoch: Annotated[int, Meta(description="The log's own: it is raised when a backup is restored.")]
    version: int
    kits: Annotated[list[KitOfListOut], Meta(description="In the list's order.")]
    lines: Annotated[list[PullLineOut], Meta(description="In the order of the list.")]

"""The orders that an accepted quote proposes, and those released. The parts counter reads them: no price, no cost."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from kitting.answers.orders import ProposedOrderOut
from shop.answers.base import Answer, Instant


class OutsideOrderOut(Answer, frozen=True):
    """Work to order from another firm."""

    title: str
    firm: str
    they_need: Annotated[str, Meta(description="The things that the firm needs from the workshop.")]


class ToReleaseOut(Answer, frozen=True):
    """Orders by supplier and work by other firms."""

    suppliers: Annotated[list[ProposedOrderOut], Meta(description="An order for each supplier.")]
    outside: Annotated[list[OutsideOrderOut], Meta(description="Work of other firms.")]
    text: Annotated[str, Meta(description="All of it as text, to print or paste.")]


class ReleaseOut(ToReleaseOut, frozen=True):
    """One release: its orders, its person and its time."""

    id: UUID
    at: Annotated[Instant, Meta(description="The time at which it was released.")]
    by: Annotated[str, Meta(description="The person or the deposit that released it, in words.")]


class ReleasesOut(Answer, frozen=True):
    """The orders of a job that can be released, and its earlier releases."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    number: Annotated[str, Meta(description="The job's number.")]
    proposed: Annotated[ToReleaseOut, Meta(description="The orders that would be released now.")]
    stops: Annotated[list[str], Meta(description="The reasons for which it cannot be released.")]
    notes: Annotated[list[str], Meta(description="Facts worth knowing before it is released.")]
    releases: Annotated[list[ReleaseOut], Meta(description="The last one first.")]

"""What an accepted quote would order, and what was released. No price and no cost: the parts counter reads it."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from kitting.answers.orders import ProposedOrderOut
from shop.answers.base import Answer, Instant


class OutsideOrderOut(Answer, frozen=True):
    """Work to order from another firm."""

    title: str
    firm: str
    they_need: Annotated[str, Meta(description="What the firm needs from the workshop.")]


class ToReleaseOut(Answer, frozen=True):
    """Orders by supplier and work by other firms."""

    suppliers: Annotated[list[ProposedOrderOut], Meta(description="An order for each supplier.")]
    outside: Annotated[list[OutsideOrderOut], Meta(description="Work of other firms.")]
    text: Annotated[str, Meta(description="All of it as text, to print or paste.")]


class ReleaseOut(ToReleaseOut, frozen=True):
    """What was released once."""

    id: UUID
    at: Annotated[Instant, Meta(description="When it was released.")]
    by: Annotated[str, Meta(description="Who released it, and whether the deposit did, in words.")]


class ReleasesOut(Answer, frozen=True):
    """What can be released of a job, and what was."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    number: Annotated[str, Meta(description="The job's number.")]
    proposed: Annotated[ToReleaseOut, Meta(description="What would be ordered now.")]
    stops: Annotated[list[str], Meta(description="What keeps it from being released.")]
    notes: Annotated[list[str], Meta(description="What is worth knowing before it is released.")]
    releases: Annotated[list[ReleaseOut], Meta(description="The last one first.")]

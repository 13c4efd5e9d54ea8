"""Results of the search box."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from quotes.answers.rows import QuoteState
from shop.answers.base import Answer, Exact
from shop.models.jobs import JobState

Kind = Literal["customer", "vehicle", "quote", "kit", "part", "job", "outside"]
# The states of a quote and those of a job: msgspec knows no union of two enumerations.
State = Annotated[str, Meta(extra_json_schema={"enum": [*dict.fromkeys([*QuoteState.values, *JobState.values])]})]


class FoundVehicleOut(Answer, frozen=True):
    """A vehicle of a customer that was found, or the one that was found."""

    id: UUID
    title: Annotated[str, Meta(description="The make and model.")]
    plate: str


class FoundOut(Answer, frozen=True):
    """One thing that was found."""

    kind: Annotated[Kind, Meta(description="The finding.")]
    id: Annotated[UUID, Meta(description="That of the thing; for outside work, of the newest quote with it.")]
    title: str
    detail: Annotated[str, Meta(description="More words to tell it from others.")]
    state: Annotated[State | None, Meta(description="Of a quote or a job.")]
    amount: Annotated[Exact | None, Meta(description="The total of a quote, or a part's price.")]
    amount_high: Annotated[Exact | None, Meta(description="The highest total of a quote with several prices.")]
    customer: Annotated[UUID | None, Meta(description="The id of the customer; null where there is none.")]
    vehicles: list[FoundVehicleOut]
    archived: Annotated[bool, Meta(description="A part that is kept, and no longer bought or quoted.")]
    why: Annotated[str, Meta(description="The kits or steps that use a part or outside work, in words.")]

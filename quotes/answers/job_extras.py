"""Extra work on a job beyond what was agreed, and what is left of a job that was called off."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from kitting.answers.units import Unit
from shop.answers.base import Answer, Exact


class ExtraWorkRowOut(Answer, frozen=True):
    """A change to the job as the bay reads it: no price."""

    quote: Annotated[UUID, Meta(description="The id of its quote.")]
    titles: Annotated[list[str], Meta(description="The lines that it adds and removes, in words.")]
    verdict: Annotated[
        Literal["agreed", "go_ahead", "ask_first"], Meta(description="agreed: the customer or the workshop said yes.")
    ]
    words: str


class ExtraWorkOut(Answer, frozen=True):
    """Extra work on a job as the bay reads it: no price."""

    words: Annotated[str, Meta(description="Whether extra work may go ahead at all without asking.")]
    changes: Annotated[list[ExtraWorkRowOut], Meta(description="Those that were declined or withdrawn are left out.")]


class CountedOut(Answer, frozen=True):
    """A line of the pull list that is here and can go back."""

    number: Annotated[str, Meta(description="The part's number.")]
    title: str
    kit: Annotated[str, Meta(description="The code of its kit, or empty.")]
    quantity: Annotated[Exact, Meta(description="The good ones that were counted.")]
    unit: Unit


class AgreedLabourOut(Answer, frozen=True):
    """A step with a price of its own, and the hours of it that are owed once the job is called off."""

    step: Annotated[UUID, Meta(description="The id of the step.")]
    title: str
    agreed: Annotated[Exact, Meta(description="The hours that were agreed.")]
    hours: Annotated[Exact, Meta(description="The hours that are owed: corrected, or those of a step that is done.")]
    amount: Annotated[Exact, Meta(description="The price of the hours that are owed, with tax.")]
    why: Annotated[list[str], Meta(description="The person who recorded it, the time, and the reason of a correction.")]


class CallOffOut(Answer, frozen=True):
    """The parts, money and outside work to settle after a job was called off."""

    back: Annotated[
        list[CountedOut], Meta(description="The counted goods that can go back to their supplier or the shelf.")
    ]
    ordered: Annotated[
        list[str], Meta(description="The released orders of goods that have not come, a sentence for each line.")
    ]
    received: Annotated[Exact | None, Meta(description="The sum of the customer's payments so far; null for nothing.")]
    outside: Annotated[list[str], Meta(description="Other firms' work that was agreed: what was sent out is owed.")]
    labour: Annotated[list[AgreedLabourOut], Meta(description="In the order of the agreements.")]
    settled: Annotated[bool, Meta(description="The job has its closing account: no hours are corrected any more.")]

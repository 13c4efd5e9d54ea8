"""The terms of outside work: beside the margin, the one answer that shows what something costs the workshop."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Exact


class OutsideTermsOut(Answer, frozen=True):
    """The price of another firm's work, and the workshop's markup or handling."""

    title: str
    firm: str
    cost: Annotated[Exact, Meta(description="Without recoverable tax.")]
    markup: Annotated[Exact, Meta(description="As a share: 0.15 is 15 %.")]
    handling: Annotated[Exact, Meta(description="An amount that the workshop adds.")]
    tax_class: str
    days: Annotated[int | None, Meta(description="Open days; null without a turnaround.")]
    starts_after: Annotated[str, Meta(description="The code of the step before it; empty for acceptance.")]
    needed_by: Annotated[str, Meta(description="The code of the step that waits for its result, or empty.")]
    they_do: Annotated[str, Meta(description="The firm's work, as the customer reads it.")]
    they_need: Annotated[str, Meta(description="The things that the firm needs from the workshop.")]
    reference: Annotated[str, Meta(description="The firm's reference of its offer.")]
    warranty: Annotated[str, Meta(description="The firm's warranty.")]
    we_warrant: Annotated[str, Meta(description="The workshop's warranty.")]
    rounds: Annotated[int | None, Meta(description="Rounds of a loop that are sold; null without one.")]
    per_round: Annotated[bool, Meta(description="The cost is that of one round.")]


class KitsOutsideOut(OutsideTermsOut, frozen=True):
    """Work of another firm that goes with a kit of the draft and is not on it yet."""

    line: Annotated[UUID, Meta(description="The line of the kit that it goes with.")]
    kit: Annotated[str, Meta(description="The title of that kit.")]

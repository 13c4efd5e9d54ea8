"""Exchange rates with their days."""

import datetime
from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant

RateState = Literal["in_force", "earlier", "coming"]


class RateOut(Answer, frozen=True):
    """The worth of one unit of a foreign currency from a day on."""

    id: UUID
    currency: Annotated[str, Meta(description="The foreign currency, in three letters.")]
    rate: Annotated[str, Meta(description="The worth of one unit in the shop's own currency.")]
    valid_from: Annotated[datetime.date, Meta(description="The day from which it counts.")]
    state: Annotated[RateState, Meta(description="Counting today, replaced by a newer one, or still to begin.")]
    by: Annotated[str | None, Meta(description="The person who added it; null where the command line did.")]
    added_at: Annotated[Instant | None, Meta(description="The time at which it was added.")]

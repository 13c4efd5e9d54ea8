"""The open points of a draft."""

from typing import Annotated, Literal

from msgspec import Meta

from shop.answers.base import Answer

Place = Literal[
    "customer",
    "vehicle",
    "vehicle_facts",
    "open_questions",
    "kits",
    "choices",
    "other_lines",
    "fluids",
    "discount",
    "ready",
    "notices",
]


class ToSettleOut(Answer, frozen=True):
    """One thing to settle on a draft."""

    place: Annotated[Place, Meta(description="The place on the quote where it is settled.")]
    words: str
    stops: Annotated[bool, Meta(description="The quote cannot be sent before it is settled.")]

"""Order proposals. They hold no cost."""

from typing import Annotated

from msgspec import Meta, field

from kitting.answers.units import Unit
from shop.answers.base import Answer, Exact


class ProposedLineOut(Answer, frozen=True):
    """A part or a kit to order."""

    number: Annotated[str, Meta(description="The number under which it is bought.")]
    title: str
    quantity: Exact
    unit: Unit
    purpose: Annotated[str, Meta(description="The kit or the step that it is for, in words.")] = field(name="for")


class ProposedOrderOut(Answer, frozen=True):
    """A proposed order to one supplier."""

    supplier: Annotated[str | None, Meta(description="Null for parts of which nobody knows where they are bought.")]
    lines: Annotated[list[ProposedLineOut], Meta(description="The thing to order.")]


class OrdersOut(Answer, frozen=True):
    """Proposed orders: nothing is stored or sent."""

    not_before: Annotated[str | None, Meta(description="A sentence, while the customer may withdraw.")]
    suppliers: Annotated[list[ProposedOrderOut], Meta(description="A proposal for each supplier.")]

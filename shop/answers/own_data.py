"""The shop's own data, which customers read on quotes and papers."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer


class OwnDataOut(Answer, frozen=True):
    """The shop as customers read it. What was sent keeps the data of its time."""

    name: Annotated[str, Meta(description="The name of the shop.")]
    address: str
    phone: str
    email: str
    registration: Annotated[str, Meta(description="The name of the register and the number in it.")]
    tax_number: Annotated[str, Meta(description="The number under which the shop pays taxes.")]
    currency: Annotated[str, Meta(description="It never changes.")]
    zone: Annotated[str, Meta(description="The time zone by its IANA name.")]

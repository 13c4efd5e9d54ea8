"""A supplier's shipment with its freight and brokerage shared. Only managers read it: it holds costs."""

from typing import Annotated

from msgspec import Meta

from quotes.calc.shipment import ShipmentReading
from shop.answers.base import Answer, Exact


class ShipmentLineOut(Answer, frozen=True):
    """A line of the shipment's list."""

    row: Annotated[int, Meta(description="The number of the line in the text, counted from 1.")]
    text: Annotated[str, Meta(description="The line as it was pasted.")]
    reading: Annotated[ShipmentReading, Meta(description="Whether it is shared over, or why not.")]
    number: Annotated[str, Meta(description="The part's number; of an unknown part, what the line calls it.")]
    title: Annotated[str, Meta(description="The part's title; empty for an unknown part.")]
    quantity: Exact
    cost: Annotated[Exact | None, Meta(description="The supplier's price of one unit; null where none is known.")]
    freight: Annotated[Exact | None, Meta(description="Of one unit; null while a line is wrong.")]
    brokerage: Annotated[Exact | None, Meta(description="Of one unit, in the shop's currency; null as above.")]
    words: Annotated[str, Meta(description="The fault and its remedy, or the meaning read; or empty.")]


class ShipmentOut(Answer, frozen=True):
    """The shipment. It can be saved once no line is wrong."""

    words: Annotated[str, Meta(description="The number of lines understood, in words.")]
    understood: Annotated[int, Meta(description="The number of lines that are shared over.")]
    wrong: Annotated[int, Meta(description="The number of lines that have to be put right first.")]
    currency: Annotated[str, Meta(description="That of costs and freight, in three letters.")]
    rows: Annotated[list[ShipmentLineOut], Meta(description="In the order of the text.")]

"""The prices that a quote can come to while something of the vehicle is not recorded."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer, Exact


class StatedOut(Answer, frozen=True):
    """A value of an attribute."""

    attribute: str
    value: Annotated[str | None, Meta(description="Null for any that is not named.")]


class PossiblePriceOut(Answer, frozen=True):
    """The total of the quote with these values."""

    stated: Annotated[list[StatedOut], Meta(description="A value for each attribute.")]
    words: str
    hours: Exact
    gross: Exact
    unfit: Annotated[str | None, Meta(description="The kits that the values rule out.")]
    nameable: Annotated[bool, Meta(description="Every value has a name, so that a customer can accept it.")]
    ready: Annotated[str | None, Meta(description="The half day from which the vehicle can be collected.")]


class UndecidedAttributeOut(Answer, frozen=True):
    """An attribute that is not recorded, with the values that can be."""

    attribute: str
    title: str
    values: Annotated[list[str], Meta(description="Those that have a name.")]


class UndecidedOut(Answer, frozen=True):
    """Facts of the vehicle that are not recorded and change price or hours, with a price for each combination."""

    title: Annotated[str, Meta(description="The fact that is not known, in words.")]
    words: str
    attributes: Annotated[
        list[UndecidedAttributeOut], Meta(description="Those that are not recorded; empty for a sent version.")
    ]
    hours: Annotated[str, Meta(description="From the least to the most, in words.")]
    prices: Annotated[list[PossiblePriceOut], Meta(description="The lowest that can be accepted first.")]


class PriceRangeOut(Answer, frozen=True):
    """The range to say on the phone, in whole numbers."""

    low: Annotated[Exact, Meta(description="The lowest total.")]
    high: Annotated[Exact, Meta(description="The highest total.")]
    hours_low: Annotated[Exact, Meta(description="The fewest hours.")]
    hours_high: Annotated[Exact, Meta(description="The most hours.")]
    words: str


class KitPriceRangeOut(Answer, frozen=True):
    """The range of a kit, fitted, for any vehicle."""

    range: Annotated[PriceRangeOut | None, Meta(description="Null where the kit has no price yet.")]

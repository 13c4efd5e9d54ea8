"""Consumables with their packs and the buying prices. Texts are those of a file of consumables."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from kitting.answers.units import Unit
from shop.answers.base import Answer


class ConsumableRowOut(Answer, frozen=True):
    """A consumable in the list."""

    id: UUID
    family: Annotated[str, Meta(description="Such as engine oil; fees and price rules name it.")]
    specification: Annotated[str, Meta(description="Class or grade, never a brand or a colour.")]
    unit: Annotated[Unit, Meta(description="The unit in which packs and needs of kits are measured.")]
    packs: Annotated[list[str], Meta(description="Sizes of the packs in use, the smallest first.")]
    archived: Annotated[bool, Meta(description="It is kept, and no longer offered.")]
    version: Annotated[int, Meta(description="It covers the packs too.")]


class PackOut(Answer, frozen=True):
    """A pack of a consumable."""

    id: UUID
    number: Annotated[str, Meta(description="Number of its supplier; it never changes.")]
    title: str
    pack_size: Annotated[str, Meta(description="In the unit of the consumable.")]
    sells: Annotated[str, Meta(description="Selling price of its own; empty where the markup makes it.")]
    codes: Annotated[list[str], Meta(description="Codes that a scanner reads for it.")]
    archived: Annotated[bool, Meta(description="It is kept, and no longer offered.")]


class ConsumableOut(Answer, frozen=True):
    """A consumable with all that a file says about it."""

    id: UUID
    family: Annotated[str, Meta(description="Such as engine oil; fees and price rules name it.")]
    specification: Annotated[str, Meta(description="Class or grade, never a brand or a colour.")]
    unit: Unit
    form: Annotated[str, Meta(description="Such as liquid or paste; empty for none.")]
    hazard: Annotated[str, Meta(description="Hazard words, which the bay shows; empty for none.")]
    shelf_life: Annotated[str, Meta(description="Days that it keeps; empty for no limit.")]
    tax_class: Annotated[str, Meta(description="Tax class of its packs; empty for that of bought parts.")]
    kits: Annotated[list[str], Meta(description="Codes of the kits whose newest version needs it.")]
    packs: Annotated[list[PackOut], Meta(description="Packs in use and archived, the smallest first.")]
    archived: Annotated[bool, Meta(description="It is kept, and no longer offered.")]
    version: Annotated[int, Meta(description="It covers the packs too.")]


class PackOfferOut(Answer, frozen=True):
    """The price at which a pack is bought today. All texts are empty where there is none."""

    pack: Annotated[UUID, Meta(description="The id of the pack.")]
    supplier: str
    cost: str
    currency: Annotated[str, Meta(description="Of the cost, in three letters.")]
    duty: Annotated[str, Meta(description="A percentage of the cost.")]
    freight: Annotated[str, Meta(description="Of one pack.")]
    brokerage: Annotated[str, Meta(description="Of one pack, in the currency of the shop.")]
    valid_until: Annotated[str, Meta(description="The last day of the price; empty where none is named.")]
    lead_days: Annotated[str, Meta(description="Days from order to delivery.")]
    valid_from: Annotated[str, Meta(description="The day from which the price is recorded; empty where there is none.")]
    notices: Annotated[list[str], Meta(description="Whole sentences about what a person has to look at.")]


class PackOffersOut(Answer, frozen=True):
    """The buying prices of the packs of a consumable."""

    items: list[PackOfferOut]

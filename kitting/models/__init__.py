"""Rows of kitting, a module a noun."""

from kitting.models.kits import Kit, KitLine, KitRevision, Need, ReusedPart
from kitting.models.parts import Code, Consumable, Offer, Part, Supplier
from kitting.models.pulling import CountEvent, PullLine, PullList

__all__ = [
    "Code",
    "Consumable",
    "CountEvent",
    "Kit",
    "KitLine",
    "KitRevision",
    "Need",
    "Offer",
    "Part",
    "PullLine",
    "PullList",
    "ReusedPart",
    "Supplier",
]

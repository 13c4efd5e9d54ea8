"""Rows of kitting, a module a noun."""

from kitting.models.copies import KitCopy
from kitting.models.first_counts import FirstCount
from kitting.models.kit_outside import KitOutside
from kitting.models.kits import Kit, KitLine, KitRevision, KitWord, Need, ReusedPart
from kitting.models.outside import OutsideEvent
from kitting.models.parts import Code, Consumable, Offer, Part, PartWord, Supplier
from kitting.models.pulling import CountEvent, PullLine, PullList

__all__ = [
    "Code",
    "Consumable",
    "CountEvent",
    "FirstCount",
    "Kit",
    "KitCopy",
    "KitLine",
    "KitOutside",
    "KitRevision",
    "KitWord",
    "Need",
    "Offer",
    "OutsideEvent",
    "Part",
    "PartWord",
    "PullLine",
    "PullList",
    "ReusedPart",
    "Supplier",
]

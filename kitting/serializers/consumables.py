from typing import Any

from rest_framework import serializers as s


def _text(longest: int, words: str = "", *, needed: bool = False) -> Any:
    if needed:
        return s.CharField(max_length=longest, help_text=words)
    return s.CharField(max_length=longest, allow_blank=True, default="", help_text=words)


class ConsumableChange(s.Serializer[Any]):
    """A consumable as it is typed; each text is read as the cell of a file of consumables."""

    family = _text(40, "Such as engine oil; fees and price rules name it.", needed=True)
    specification = _text(80, "Specification or class, never a brand or a colour.")
    form = _text(20, "Such as liquid or paste.")
    hazard = _text(200, "Hazard words, which the bay shows.")
    shelf_life = _text(20, "Days that it keeps.")
    tax_class = _text(20, "Tax class of its packs; empty for that of bought parts.")


class ConsumableRenamed(ConsumableChange):
    """A change of a consumable, and whether the price rules follow a new name of its family."""

    move_rules = s.BooleanField(
        default=False, help_text="True: fees and ways of charging that name the old family name the new one."
    )


class PackChange(s.Serializer[Any]):
    """A pack as it is typed; each text is read as the cell of a file of consumables."""

    title = _text(200, "Empty: family, specification and size.")
    pack_size = _text(40, "Size in the unit of the consumable, or with a unit.", needed=True)
    sells = _text(40, "Selling price of its own; empty where the markup makes it.")
    code = _text(40, "A code to add, that a scanner reads for it.")
    supplier = _text(120, "The firm that sells it; a new name is a new supplier.")
    cost = _text(40, "Buying price of one pack.")
    currency = _text(3, "In three letters; empty for that of the supplier.")
    duty = _text(20, "Duty as a percentage, such as 4 %.")
    freight = _text(40, "Freight of one pack.")
    brokerage = _text(40, "Brokerage of one pack, in the currency of the shop.")
    valid_until = _text(40, "The last day of the price.")
    lead_days = _text(20, "Days from order to delivery.")


class PackIn(PackChange):
    number = _text(60, "Its number; it stays for good.", needed=True)


class ConsumableIn(ConsumableChange, PackIn):
    """A consumable with its first pack."""

    unit = _text(20, "The unit in which it is measured; it stays for good.", needed=True)


class ConsumableArchived(s.Serializer[Any]):
    archived = s.BooleanField(help_text="True to archive it, false to bring it back.")

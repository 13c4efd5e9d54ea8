"""Cleans text that a person typed: nothing in it may be invisible or change the direction of other text."""

import unicodedata
from typing import Any

# Letters and marks that are drawn as nothing, besides the format characters (Unicode: Default_Ignorable_Code_Point).
INVISIBLE = frozenset(
    map(chr, (0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, *range(0x180B, 0x1810), 0x3164, *range(0xFE00, 0xFE10), 0xFFA0))
)


class ControlCharacterError(ValueError):
    """The text holds a control character or half a character, which no keyboard types."""


def visible(text: str) -> str:
    """The text composed (NFC), without format characters such as zero-width spaces and overrides of direction.

    Raises ControlCharacterError.
    """
    if text.isascii() and text.isprintable():
        return text
    kinds = {character: unicodedata.category(character) for character in set(text)}
    if {"Cc", "Cs"} & set(kinds.values()):
        raise ControlCharacterError
    printable = "".join(character for character in text if kinds[character] != "Cf" and character not in INVISIBLE)
    return unicodedata.normalize("NFC", printable)


def visible_in(value: Any) -> Any:
    """`visible` of a text, or of all texts in a map or list, each without blanks around it.

    Pairs of a map whose name or text comes out empty are left out. Raises ControlCharacterError.
    """
    if isinstance(value, str):
        return visible(value).strip()
    if isinstance(value, dict):
        pairs = ((visible_in(name), visible_in(item)) for name, item in value.items())
        return {name: item for name, item in pairs if name != "" and item != ""}
    return [visible_in(item) for item in value] if isinstance(value, list) else value


def is_blank(text: str) -> bool:
    """Whether nothing of the text can be seen. A control character counts as seen: its field refuses it."""
    try:
        return not visible_in(text)
    except ControlCharacterError:
        return False


def person_name(text: str) -> str:
    """The name with single spaces; empty if it has no letter of any script, or a control character."""
    try:
        name = " ".join(visible(text).split())
    except ControlCharacterError:
        return ""
    return name if any(unicodedata.category(character).startswith("L") for character in name) else ""

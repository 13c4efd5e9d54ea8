"""Refuses values of a request that one of the two databases cannot store."""

from typing import Any

from shop.errors import field_error

DEEPEST = 32  # levels of lists and objects; a body of ours has five
LARGEST = 2**63 - 1


def refuse_unstorable(value: Any, pointer: str = "") -> None:
    """Raises RequestError for the first text with NUL or a lone surrogate, number too large, or list too deep."""
    waiting = [(value, pointer, 0)]
    while waiting:
        value, pointer, depth = waiting.pop()
        if isinstance(value, str):
            if not is_text(value):
                raise field_error(pointer, "surrogate_characters_not_allowed")
        elif isinstance(value, dict | list):
            if depth >= DEEPEST:
                raise field_error(pointer, "too_deep")
            if isinstance(value, dict) and not all(map(is_text, value)):
                raise field_error(pointer, "surrogate_characters_not_allowed")
            items = value.items() if isinstance(value, dict) else enumerate(value)
            waiting += [(item, f"{pointer}/{_escaped(name)}", depth + 1) for name, item in items]
        elif isinstance(value, int) and abs(value) > LARGEST:
            raise field_error(pointer, "whole_number_large")


def is_text(value: str) -> bool:
    """Returns whether both databases can store the text."""
    return "\0" not in value and (value.isascii() or not any("\ud800" <= character <= "\udfff" for character in value))


def _escaped(name: object) -> str:
    """A step of a JSON pointer (RFC 6901)."""
    return str(name).replace("~", "~0").replace("/", "~1")

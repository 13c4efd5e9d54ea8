"""Query parameters that name or number something."""

from uuid import UUID

from shop.problems import field_problem


def uuid_asked(text: str, pointer: str) -> UUID:
    try:
        return UUID(text)
    except ValueError:
        raise field_problem(pointer, "not_yours") from None


def whole_asked(text: str, pointer: str, least: int) -> int:
    if not (text.isascii() and text.isdigit()) or len(text) > 9 or int(text) < least:
        raise field_problem(pointer, "whole_number")
    return int(text)

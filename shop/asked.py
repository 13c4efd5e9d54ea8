"""What a request names, numbers, measures or prices."""

import re
from decimal import Decimal
from uuid import UUID

from shop.calc.money import rounded
from shop.problems import field_problem

MOST_HOURS = 999  # of one piece of work: more is a slip of the pen, and would be counted day by day


def uuid_asked(text: str, pointer: str) -> UUID:
    try:
        return UUID(text)
    except ValueError:
        raise field_problem(pointer, "not_yours") from None


def whole_asked(text: str, pointer: str, least: int) -> int:
    if not (text.isascii() and text.isdigit()) or len(text) > 9 or int(text) < least:
        raise field_problem(pointer, "whole_number")
    return int(text)


def decimal_asked(text: str, pointer: str, key: str, *, places: int) -> Decimal:
    """A plain decimal of at most that many places; else the field's problem `field.KEY`."""
    if not re.fullmatch(rf"-?[0-9]{{1,6}}(\.[0-9]{{1,{places}}})?", text):
        raise field_problem(pointer, key)
    return Decimal(text)


def price_asked(amount: Decimal, pointer: str, exponent: int) -> Decimal:
    """A price of at most the currency's decimals: a finer one is refused, never rounded in silence."""
    if rounded(amount, exponent) != amount:
        raise field_problem(pointer, "currency_decimals" if exponent else "currency_whole", n=exponent)
    return amount

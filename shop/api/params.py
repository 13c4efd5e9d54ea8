"""Parses and checks ids, numbers, measures and prices of a request."""

from decimal import Decimal
from uuid import UUID

from shop.calc.money import rounded
from shop.calc.rules import MOST_HOURS
from shop.errors import field_error

MOST_MONEY = Decimal(10) ** 10  # below it a line is kept, and any sum of lines too


def parse_uuid(text: str, pointer: str) -> UUID:
    try:
        return UUID(text)
    except ValueError:
        raise field_error(pointer, "not_yours") from None


def parse_whole(text: str, pointer: str, least: int) -> int:
    if not (text.isascii() and text.isdigit()) or len(text) > 9 or int(text) < least:
        raise field_error(pointer, "whole_number")
    return int(text)


def check_line_amount(quantity: Decimal, price: Decimal | None, pointer: str) -> None:
    """Refuses a line whose amount is too large to store and add up."""
    if price is not None and quantity * price >= MOST_MONEY:
        raise field_error(pointer, "too_much")


def check_hours(hours: Decimal, pointer: str) -> Decimal:
    """The hours of one operation. Refuses more than MOST_HOURS."""
    if hours > MOST_HOURS:
        raise field_error(pointer, "hours_most", n=MOST_HOURS)
    return hours


def check_price(amount: Decimal, pointer: str, exponent: int) -> Decimal:
    """The price. Refuses more decimals than the currency has, and never rounds."""
    if rounded(amount, exponent) != amount:
        raise field_error(pointer, "currency_decimals" if exponent else "currency_whole", n=exponent)
    return amount

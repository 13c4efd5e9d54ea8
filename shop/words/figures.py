"""Numbers and days in the current language by CLDR: digit groups, decimal sign, order of a date."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from functools import lru_cache

from shop.calc.quantity import hours, plain
from shop.words.languages import language

MINUS = "\u2212"


def figure(amount: str) -> str:
    """The number in the language's notation: '-15608.40' gives '−15,608.40'. Every digit stays."""
    return _figure(amount, language())


def number(value: Decimal) -> str:
    """A quantity, a percentage or a factor as people write it, without trailing zeros: '1,200.5'."""
    return figure(plain(value))


def tenths(value: Decimal) -> str:
    """Hours as people write them, rounded to one decimal place: '15.0'."""
    return figure(hours(value))


@lru_cache(maxsize=4000)
def _figure(amount: str, spoken: str) -> str:
    from babel.numbers import format_decimal

    whole, point, rest = amount.lstrip("-").partition(".")
    pattern = f"#,##0.{'0' * len(rest)}" if point else "#,##0"
    written = format_decimal(Decimal(f"{whole}{point}{rest}"), pattern, spoken.replace("-", "_"))
    return f"{MINUS}{written}" if amount.startswith("-") else written


def day(value: date) -> str:
    """'Tue 8 Dec'"""
    return _day(value, "MMMEd", language())


def day_with_year(value: date) -> str:
    """'Tue 8 Dec 2026'"""
    return _day(value, "yMMMEd", language())


def day_of_month(value: date) -> str:
    """'8 Dec'"""
    return _day(value, "MMMd", language())


def day_of_year(value: date) -> str:
    """'8 Dec 2026'"""
    return _day(value, "yMMMd", language())


def weekday(value: date) -> str:
    """'Tue'"""
    return _day(value, "E", language())


@lru_cache(maxsize=4000)
def _day(value: date, skeleton: str, spoken: str) -> str:
    """The day by a CLDR skeleton, without a comma after the weekday, as in the front end."""
    from babel.dates import format_skeleton

    return format_skeleton(skeleton, value, locale=spoken.replace("-", "_")).replace(",", "", 1)


def listed(items: Sequence[str], *, choice: bool = False) -> str:
    """'labour, fabrication and fees'; 'manual or automatic' with `choice`.

    Semicolons separate items that contain a comma themselves.
    """
    if any("," in item for item in items):
        return "; ".join(items)
    from babel.lists import format_list

    return format_list([*items], "or" if choice else "standard", language().replace("-", "_"))

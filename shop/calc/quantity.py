"""Formatting of exact quantities in plain notation, without binary floating point.

Plain notation has no exponent, no plus sign and never -0.
"""

from decimal import Decimal

from shop.calc.errors import CalculationError
from shop.calc.money import rounded


def exact(value: Decimal, culprit: str) -> Decimal:
    """Returns `value` if it is a finite Decimal. Refuses `not_exact` (above all floats), naming `culprit`."""
    if not isinstance(value, Decimal) or not value.is_finite():
        raise CalculationError("not_exact", f"{culprit} {value!r}")
    return value


def plain(value: Decimal) -> str:
    """The number without trailing zeros: 2.50 is "2.5", 1E+3 is "1000"."""
    text = format(value, "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "-") else text


def at_least(value: Decimal, places: int) -> str:
    """The exact number with at least `places` decimal places: 2 is "2.0", 0.75 is "0.75"; with 0 places 2 is "2"."""
    whole, _, decimals = plain(value).partition(".")
    padded = decimals.ljust(places, "0")
    return f"{whole}.{padded}" if padded else whole


def fixed(value: Decimal, places: int) -> str:
    """The number with exactly `places` decimal places. Never rounds: refuses `not_rounded` for a finer value."""
    rounded_value = rounded(value, places)
    if rounded_value != value:
        raise CalculationError("not_rounded", str(value))
    return format(rounded_value, "f")


def money(amount: Decimal, exponent: int) -> str:
    """The amount rounded to the currency's decimal places."""
    return format(rounded(amount, exponent), "f")


def unit_money(amount: Decimal, exponent: int) -> str:
    """A unit price with at least the currency's decimal places and at most four."""
    text = plain(amount)
    return text if len(text.partition(".")[2]) >= exponent else money(amount, exponent)


def hours(amount: Decimal) -> str:
    """The hours rounded to one decimal place."""
    return format(rounded(amount, 1), "f")

"""Exact quantities: read without binary floating point, written in plain notation.

Plain notation: no exponent, no plus sign, never -0.
"""

from decimal import Decimal

from shop.calc.errors import CalculationError
from shop.calc.money import rounded


def exact(value: Decimal, culprit: str) -> Decimal:
    """`value` itself, if it is a finite Decimal; refuses `not_exact` (floats above all) naming `culprit`."""
    if not isinstance(value, Decimal) or not value.is_finite():
        raise CalculationError("not_exact", f"{culprit} {value!r}")
    return value


def plain(value: Decimal) -> str:
    """Plain decimals without trailing zeros: 2.50 is "2.5", 1E+3 is "1000"."""
    text = format(value, "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text in ("-0", "-") else text


def at_least(value: Decimal, places: int) -> str:
    """Exact, with at least `places` decimals: 2 is "2.0", 0.75 is "0.75"; with 0 places 2 is "2"."""
    whole, _, decimals = plain(value).partition(".")
    padded = decimals.ljust(places, "0")
    return f"{whole}.{padded}" if padded else whole


def fixed(value: Decimal, places: int) -> str:
    """Exactly `places` decimals; writes, never rounds: a finer value is refused with `not_rounded`."""
    rounded_value = rounded(value, places)
    if rounded_value != value:
        raise CalculationError("not_rounded", str(value))
    return format(rounded_value, "f")


def money(amount: Decimal, exponent: int) -> str:
    """Exactly the currency's decimals, rounded."""
    return format(rounded(amount, exponent), "f")


def unit_money(amount: Decimal, exponent: int) -> str:
    """A unit price: at least the currency's decimals, at most four."""
    text = plain(amount)
    return text if len(text.partition(".")[2]) >= exponent else money(amount, exponent)


def hours(amount: Decimal) -> str:
    """One decimal, rounded."""
    return format(rounded(amount, 1), "f")


def figure(amount: str) -> str:
    """'15608.40' -> '15,608.40', with a real minus."""
    sign, digits = ("\u2212", amount[1:]) if amount.startswith("-") else ("", amount)
    whole, point, decimals = digits.partition(".")
    return f"{sign}{int(whole):,}{point}{decimals}"

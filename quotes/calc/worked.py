"""The price of a step that was not finished: the share of its agreed price for the hours really worked.

Units: money of one currency with at most `exponent` decimal places, and hours. Worked cases:
fixtures/vectors/worked.json.
"""

from decimal import Decimal
from fractions import Fraction

from shop.calc.errors import CalculationError
from shop.calc.money import rounded


def worked_share(price: Decimal, agreed: Decimal, worked: Decimal, exponent: int = 2) -> Decimal:
    """The share of a step's agreed price for the hours that were really worked on it, rounded once.

    Refuses `bad_hours`: none agreed, fewer than none worked, or more worked than agreed.
    """
    if agreed <= 0 or not 0 <= worked <= agreed:
        raise CalculationError("bad_hours", f"{worked} of {agreed}")
    return rounded(Fraction(price) * Fraction(worked) / Fraction(agreed), exponent)

"""Lines that are charged only if something happens: the price of one time, and the charge for what happened.

Units: money of one currency with at most `exponent` decimal places. Worked cases: fixtures/vectors/contingency.json.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from shop.calc.document import Document, DocumentLine, Rounding, Tax
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT
from shop.calc.tax import total_document


@dataclass(frozen=True, slots=True)
class TaxTerms:
    """The taxes of a quote, and how its prices hold them."""

    taxes: tuple[Tax, ...]
    rounding: Rounding
    prices_include_tax: bool
    exponent: int = 2


@dataclass(frozen=True, slots=True)
class PriceOnce:
    """The price of one time, with the tax inside it."""

    amount: Decimal
    tax: Decimal


@dataclass(frozen=True, slots=True)
class HappenedCharge:
    """The charge for what happened: `charged` times at the price of once; `rest` may still be charged.

    `over` is how often it happened beyond the cap, which is not charged.
    """

    charged: int
    amount: Decimal
    tax: Decimal
    rest: int
    over: int


def price_once(quantity: Decimal, unit_price: Decimal, tax_class: str, terms: TaxTerms) -> PriceOnce:
    """The price of one time with tax: no discount, no shop supplies and no minimum charge changes it.

    Refuses `negative_amount` (the unit price) and `bad_quantity`.
    """
    if unit_price < 0:
        raise CalculationError("negative_amount", f"unit price {unit_price}")
    if quantity <= 0:
        raise CalculationError("bad_quantity", f"quantity {quantity}")
    document = Document(
        lines=(DocumentLine("once", tax_class, quantity, unit_price),),
        taxes=terms.taxes,
        rounding=terms.rounding,
        prices_include_tax=terms.prices_include_tax,
        exponent=terms.exponent,
    )
    totals = total_document(document)
    return PriceOnce(totals.gross, totals.tax_total)


def highest_charge(once: PriceOnce, cap: int) -> Decimal:
    """The charge if it happens as often as may be charged. Refuses `bad_quantity` (a cap below 1)."""
    if cap < 1:
        raise CalculationError("bad_quantity", f"cap {cap}")
    with localcontext(EXACT):
        return once.amount * cap


def charge_happened(counts: Sequence[int], cap: int, once: PriceOnce) -> HappenedCharge:
    """The charge for what was recorded; the opposite row of a mistake is a negative count.

    Refuses `bad_quantity`: a cap below 1, or counts that come to less than nothing.
    """
    happened = sum(counts)
    if cap < 1:
        raise CalculationError("bad_quantity", f"cap {cap}")
    if happened < 0:
        raise CalculationError("bad_quantity", f"happened {happened}")
    charged = min(happened, cap)
    with localcontext(EXACT):
        return HappenedCharge(
            charged=charged,
            amount=once.amount * charged,
            tax=once.tax * charged,
            rest=cap - charged,
            over=happened - charged,
        )

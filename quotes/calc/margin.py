"""The margin of a quote before tax, over the lines with a known cost, compared with the floor of the rules."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from quotes.calc.priced import PricedQuote
from quotes.calc.pricing import before_tax, margin_rate
from quotes.calc.quote_input import QuoteInput
from shop.calc.money import rounded
from shop.calc.rules import Rules

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class MarginLine:
    """Price and cost of one line; `cost` is None if it is not known."""

    price: Decimal
    tax_class: str
    cost: Decimal | None

    @property
    def unknown(self) -> bool:
        """True for a line with a price and no known cost."""
        return self.cost is None and bool(self.price)


@dataclass(frozen=True, slots=True)
class QuoteTotals:
    """The quote's total with and without tax, and its discounts by tax class. `free`: it includes supplies or fees."""

    gross: Decimal
    net: Decimal
    free: bool
    allowances: Mapping[str, Decimal]


@dataclass(frozen=True, slots=True)
class KnownMargin:
    """The part of the net total with a known cost, and that cost. `left_out` is the rest of the net total."""

    net: Decimal
    cost: Decimal
    left_out: Decimal

    @property
    def profit(self) -> Decimal:
        return self.net - self.cost

    @property
    def rate(self) -> Decimal | None:
        return margin_rate(self.net, self.cost)


def is_below_floor(quote: QuoteInput, priced: PricedQuote) -> bool:
    """True if the margin over the lines with a known cost is below the floor of the rules."""
    floor, rate = quote.rules.margin_floor, _known_margin(quote, priced)[0].rate
    return rate is not None and floor is not None and rate < floor


def whole_rate(quote: QuoteInput, priced: PricedQuote) -> Decimal | None:
    """The margin of the whole quote; None while any cost is not known."""
    margin, unknown = _known_margin(quote, priced)
    return None if unknown else margin.rate


def quote_totals(priced: PricedQuote) -> QuoteTotals:
    """The totals of a priced quote that its margin is worked out from."""
    free = bool(priced.fees or priced.totals.supplies)
    allowances = {allowance.tax_class: allowance.amount for allowance in priced.document.allowances}
    return QuoteTotals(priced.totals.gross, priced.totals.net, free, allowances)


def known_margin(lines: Sequence[MarginLine], whole: QuoteTotals, rules: Rules, exponent: int) -> KnownMargin:
    """The `whole` without the lines of unknown cost, each reduced by its share of the discount on its tax class."""
    unknown_prices = [(line.tax_class, _discounted(line, lines, whole, exponent)) for line in lines if line.unknown]
    left_out = sum((before_tax(price, tax_class, rules, exponent) for tax_class, price in unknown_prices), NOTHING)
    return KnownMargin(
        whole.net - left_out, sum((line.cost for line in lines if line.cost is not None), NOTHING), left_out
    )


def _known_margin(quote: QuoteInput, priced: PricedQuote) -> tuple[KnownMargin, bool]:
    """(margin over the lines with a known cost, True if other lines exist)"""
    rules, classes = quote.rules, {kit.line: kit.tax_class for kit in quote.kits}
    lines = [
        *(MarginLine(kit.price, classes[kit.line], kit.cost) for kit in priced.kits),
        *(MarginLine(skill.price, rules.labour_class(skill.skill), skill.cost) for skill in priced.skills),
        *(MarginLine(need.price, need.tax_class, need.cost) for need in priced.needs),
        *(MarginLine(work.price, work.tax_class, work.cost) for work in priced.outside),
        *(MarginLine(extra.price, extra.tax_class, extra.cost) for extra in priced.extras),
        *(MarginLine(-taken.amount, taken.tax_class, None) for taken in priced.taken),
    ]
    return known_margin(lines, quote_totals(priced), rules, quote.exponent), any(line.unknown for line in lines)


def _discounted(line: MarginLine, lines: Sequence[MarginLine], whole: QuoteTotals, exponent: int) -> Decimal:
    allowance = whole.allowances.get(line.tax_class)
    if allowance is None:
        return line.price
    of_class = sum((member.price for member in lines if member.tax_class == line.tax_class), NOTHING)
    return line.price - rounded(Fraction(allowance) * Fraction(line.price) / Fraction(of_class), exponent)

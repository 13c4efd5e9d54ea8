"""The price of work that is bought from another firm: the calculation named outside (fixtures/vectors/outside.json).

Units: money of one currency; `cost` excludes the tax that the workshop recovers; a markup of 15 % is 0.15.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal, localcontext

from shop.calc.document import Tax
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, rounded
from shop.calc.quantity import exact
from shop.calc.tax_stack import TaxStack

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class OutsideTerms:
    """The firm's price, and the workshop's surcharge: a share (`markup`), an amount (`handling`), or both.

    `cost` is that of one of `times` rounds; handling is added once.
    """

    cost: Decimal
    markup: Decimal = NOTHING
    handling: Decimal = NOTHING
    tax_class: str = ""
    times: int = 1

    @property
    def whole_cost(self) -> Decimal:
        """The cost of all rounds."""
        return self.cost * self.times


@dataclass(frozen=True, slots=True)
class OutsidePrice:
    """The price.

    `before_tax` is exact; `price` is rounded once and includes tax at `rate` (0 where prices exclude tax).
    """

    before_tax: Decimal
    rate: Decimal
    price: Decimal


def price_outside(terms: OutsideTerms, taxes: tuple[Tax, ...], inside: bool, exponent: int) -> OutsidePrice:
    """cost x times x (1 + markup) + handling; if prices include tax (`inside`), also x 1 + the rates of its tax class.

    Refuses `negative_amount` (the figure), `not_exact`, and what the taxes refuse.
    """
    with localcontext(EXACT):
        for name, figure in _figures(terms):
            if exact(figure, name) < 0:
                raise CalculationError("negative_amount", f"{name} {figure}")
        before_tax = terms.whole_cost * (1 + terms.markup) + terms.handling
        rate = TaxStack(taxes, exponent).rate(terms.tax_class) if inside else NOTHING
        return OutsidePrice(before_tax, rate, rounded(before_tax * (1 + rate), exponent))


def _figures(terms: OutsideTerms) -> Iterator[tuple[str, Decimal]]:
    for name in ("cost", "markup", "handling"):
        yield name, getattr(terms, name)

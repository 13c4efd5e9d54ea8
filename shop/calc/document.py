"""The input and the result of the totals of one document (worked cases: fixtures/vectors/totals.json).

Money is Decimal with at most the document's `exponent` decimals; quantities, unit prices and rates are
exact. A rate of 20 % is 0.2.
"""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from shop.calc.errors import CalculationError

_NOTHING = Decimal(0)
_ONE = Decimal(1)


class Rounding(StrEnum):
    """Whether a tax is rounded once on the whole document or line by line."""

    DOCUMENT = "document"
    LINE = "line"


@dataclass(frozen=True, slots=True)
class DocumentLine:
    """`unit_price` buys `base_quantity`; allowances are subtracted and charges added, both money."""

    id: str
    tax_class: str
    quantity: Decimal
    unit_price: Decimal
    base_quantity: Decimal = _ONE
    allowances: tuple[Decimal, ...] = ()
    charges: tuple[Decimal, ...] = ()


@dataclass(frozen=True, slots=True)
class ClassAmount:
    """An allowance or a charge on the whole document, in one tax class."""

    tax_class: str
    amount: Decimal


@dataclass(frozen=True, slots=True)
class Supplies:
    """Shop supplies: a share of the lines in the `basis` classes, up to `cap` (None: no cap)."""

    basis: tuple[str, ...]
    rate: Decimal
    cap: Decimal | None
    tax_class: str


@dataclass(frozen=True, slots=True)
class Tax:
    code: str
    rate: Decimal
    classes: tuple[str, ...]
    on_top_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Document:
    lines: tuple[DocumentLine, ...] = ()
    allowances: tuple[ClassAmount, ...] = ()
    charges: tuple[ClassAmount, ...] = ()
    supplies: Supplies | None = None
    taxes: tuple[Tax, ...] = ()
    rounding: Rounding = Rounding.DOCUMENT
    prices_include_tax: bool = False
    paid: Decimal = _NOTHING
    payable_rounding: Decimal = _NOTHING
    exponent: int = 2


@dataclass(frozen=True, slots=True)
class LineTotal:
    """A line after its own allowances and charges; it holds the tax if the prices include tax."""

    id: str
    tax_class: str
    amount: Decimal


@dataclass(frozen=True, slots=True)
class TaxTotal:
    """One tax: the amount it was taken on (with the taxes it stands on) and the tax."""

    code: str
    taxable: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True)
class ClassTotal:
    """One tax class over the whole document; `tax_inside` is 0 unless the prices include tax."""

    tax_class: str
    amount: Decimal
    tax_inside: Decimal


@dataclass(frozen=True, slots=True)
class Totals:
    """The figures of one document; they cannot be made unless they add up."""

    lines: tuple[LineTotal, ...]
    supplies: Decimal
    classes: tuple[ClassTotal, ...]
    taxes: tuple[TaxTotal, ...]
    net: Decimal
    tax_total: Decimal
    gross: Decimal
    due: Decimal
    exponent: int

    def __post_init__(self) -> None:
        if self.net + self.tax_total != self.gross:
            raise CalculationError("totals_do_not_add", f"{self.net} + {self.tax_total} is not {self.gross}")
        if sum(tax.amount for tax in self.taxes) != self.tax_total:
            raise CalculationError("totals_do_not_add", f"the taxes are not {self.tax_total}")

"""The input and the result of the totals of one document (worked cases: fixtures/vectors/totals.json).

Money is Decimal with at most the document's `exponent` decimal places; quantities, unit prices and rates are
exact. A rate of 20 % is 0.2.
"""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from shop.calc.errors import CalculationError

_NOTHING = Decimal(0)
_ONE = Decimal(1)


class Rounding(StrEnum):
    """The level at which a tax is rounded: once on the whole document, or on each line."""

    DOCUMENT = "document"
    LINE = "line"


@dataclass(frozen=True, slots=True)
class DocumentLine:
    """A line.

    `unit_price` is for `base_quantity` units; allowances (subtracted) and charges (added) are amounts of money.
    """

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
    """Shop supplies: a share (`rate`) of the lines in the `basis` tax classes, at most `cap` (None: no cap)."""

    basis: tuple[str, ...]
    rate: Decimal
    cap: Decimal | None
    tax_class: str


@dataclass(frozen=True, slots=True)
class Tax:
    """A tax on the lines of `classes`, added on top of the taxes whose codes are in `on_top_of`."""

    code: str
    rate: Decimal
    classes: tuple[str, ...]
    on_top_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Document:
    """The lines, allowances, charges and taxes of a document, and the rules by which they are totalled."""

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
    """A line after its own allowances and charges. It includes the tax if the document's prices do."""

    id: str
    tax_class: str
    amount: Decimal


@dataclass(frozen=True, slots=True)
class TaxTotal:
    """The amount of one tax. `taxable` is its base, including the taxes that it is added on top of."""

    code: str
    taxable: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True)
class ClassTotal:
    """The total of one tax class over the whole document. `tax_inside` is 0 unless prices include tax."""

    tax_class: str
    amount: Decimal
    tax_inside: Decimal


@dataclass(frozen=True, slots=True)
class Totals:
    """The totals of one document. The constructor refuses figures that do not add up."""

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

"""Everything that the price of a quote is worked out from: frozen, loaded in one go, free of rows."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from kitting.calc.needs import NeedRow
from quotes.calc.labour import KitOperation, LabourOperation, Overlap
from quotes.calc.outside import OutsideTerms
from shop.calc.outside import PlannedOutsideWork
from shop.calc.rules import Rules

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Buying:
    """The cost of buying one unit of a part: price and freight in the supplier's currency, brokerage in ours.

    `sells` is what the workshop sells one for, in its own money, where that is not left to the bands; it holds the tax
    where prices do.
    """

    supplier: str
    currency: str
    unit_cost: Decimal
    rate: Decimal | None  # local per foreign; None where no exchange rate is known
    rate_date: date | None
    rate_days: int | None  # how old the rate is on the day of pricing
    duty_rate: Decimal = NOTHING
    freight: Decimal = NOTHING
    brokerage: Decimal = NOTHING
    valid_from: date | None = None
    lead_days: int | None = None
    sells: Decimal | None = None


@dataclass(frozen=True, slots=True)
class ChosenKit:
    """A kit on the quote. `letter` names it there; `operations` are those that apply to this vehicle."""

    line: str
    letter: str
    code: str
    title: str
    operations: tuple[KitOperation, ...]
    tax_class: str
    buying: Buying | None = None
    own_price: Decimal | None = None  # the kit's own, where there is no offer
    own_hours: Decimal | None = None  # the kit's own, where there is no labour template
    own_cost: Decimal | None = None  # its own cost and days until it comes, where there is no offer
    own_lead_days: int | None = None
    first_fit: Decimal = Decimal(1)
    fits: tuple[tuple[str, tuple[str, ...]], ...] = ()  # (attribute, its values) the kit is for; () for any vehicle


@dataclass(frozen=True, slots=True)
class OfferedItem:
    """An item that is needed: a consumable with its packs, or a part (its own single pack of one)."""

    id: str
    title: str
    family: str
    unit: str
    tax_class: str
    packs: tuple["PackOffer", ...]


@dataclass(frozen=True, slots=True)
class PackOffer:
    part: str
    number: str
    title: str
    size: Decimal
    buying: Buying | None


@dataclass(frozen=True, slots=True)
class Extra:
    """A loose part or a hand-written line. A part is priced from its offer unless it has a price here."""

    line: str
    title: str
    tax_class: str
    quantity: Decimal
    unit_price: Decimal | None
    buying: Buying | None = None
    part: str | None = None


@dataclass(frozen=True, slots=True)
class ChosenOutside:
    """Work that is bought from another firm: what it costs us, and its place in the plan.

    `title` says what it is without the firm; `they_need` and `warranty` are a person's own sentences.
    """

    line: str
    title: str
    terms: OutsideTerms
    work: PlannedOutsideWork
    they_need: str = ""
    warranty: str = ""


@dataclass(frozen=True, slots=True)
class FigureOverride:
    value: Decimal
    because: str


@dataclass(frozen=True, slots=True)
class AgreedDiscount:
    """Either `percent` (10 is a tenth) or an `amount`, and why the customer gets it."""

    percent: Decimal | None
    amount: Decimal | None
    because: str


@dataclass(frozen=True, slots=True)
class QuoteInput:
    rules: Rules
    exponent: int
    kits: tuple[ChosenKit, ...] = ()
    operations: tuple[LabourOperation, ...] = ()
    titles: Mapping[str, str] = field(default_factory=dict)  # of operations, by code
    overlaps: tuple[Overlap, ...] = ()
    needs: tuple[NeedRow, ...] = ()
    items: Mapping[str, OfferedItem] = field(default_factory=dict)
    capacities: Mapping[str, Decimal] = field(default_factory=dict)
    attributes: Mapping[str, str] | None = None  # what is recorded of the vehicle; None where none is chosen
    condition: str = "none"
    extras: tuple[Extra, ...] = ()
    outside: tuple[ChosenOutside, ...] = ()
    overrides: Mapping[str, FigureOverride] = field(
        default_factory=dict
    )  # by labour:CODE, kit:LINE, need:KEY, outside:LINE
    discount: AgreedDiscount | None = None

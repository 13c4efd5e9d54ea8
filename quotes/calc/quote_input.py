"""The complete input of a quote's price: frozen values, loaded in one go, without database rows."""

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
    """The cost of buying one unit: price and freight in the supplier's currency, brokerage in the shop's.

    `sells` is the workshop's own selling price of one unit in its own currency; None: the bands set it. It includes tax
    if prices do.
    """

    supplier: str
    currency: str
    unit_cost: Decimal
    rate: Decimal | None  # local money per unit of foreign money; None if not known
    rate_date: date | None
    rate_days: int | None  # age of the rate on the day of pricing
    duty_rate: Decimal = NOTHING
    freight: Decimal = NOTHING
    brokerage: Decimal = NOTHING
    valid_from: date | None = None
    days_left: int | None = None  # from the day of pricing to the last day of the offer; None: it names none
    lead_days: int | None = None
    sells: Decimal | None = None


@dataclass(frozen=True, slots=True)
class ChosenKit:
    """A kit on the quote. `letter` identifies it there; `operations` are those that apply to this vehicle."""

    line: str
    letter: str
    code: str
    title: str
    operations: tuple[KitOperation, ...]
    tax_class: str
    buying: Buying | None = None
    own_price: Decimal | None = None  # used if there is no offer
    own_hours: Decimal | None = None  # used if there is no labour template
    own_cost: Decimal | None = None  # used with `own_lead_days` if there is no offer
    own_lead_days: int | None = None
    first_fit: Decimal = Decimal(1)
    fits: tuple[tuple[str, tuple[str, ...]], ...] = ()  # (attribute, values) that the kit is for; (): any vehicle
    returnable: bool = True  # False: its supplier does not take it back
    supplied: bool = False  # the customer brings it: no price and no cost, whatever its offer


@dataclass(frozen=True, slots=True)
class OfferedItem:
    """An item that can meet a need: a consumable with its packs, or a part as a single pack of one."""

    id: str
    title: str
    family: str
    unit: str
    tax_class: str
    packs: tuple["PackOffer", ...]


@dataclass(frozen=True, slots=True)
class PackOffer:
    """A pack that can be bought, and its cost if an offer exists."""

    part: str
    number: str
    title: str
    size: Decimal
    buying: Buying | None


@dataclass(frozen=True, slots=True)
class Extra:
    """A loose part or a line written by hand. A part without `unit_price` is priced from its offer."""

    line: str
    title: str
    tax_class: str
    quantity: Decimal
    unit_price: Decimal | None
    buying: Buying | None = None
    part: str | None = None
    condition: str = ""  # of a part: new, used or reconditioned
    original: bool = False  # a part of the vehicle's manufacturer
    because: str = ""  # of a part with a price of its own
    core: bool = False  # a deposit on the old part: never discounted
    supplied: bool = False  # the customer brings it
    fitted_by: str = ""  # the code of the operation that fits it
    returnable: bool = True  # False: its supplier does not take it back


@dataclass(frozen=True, slots=True)
class Contingency:
    """A line that is charged only if `event` happens, `cap` times at most. `quantity` is that of one time.

    Labour has a `skill`, and its quantity are hours; a part without `unit_price` is priced from its offer.
    """

    line: str
    event: str
    title: str
    tax_class: str
    quantity: Decimal
    cap: int
    unit_price: Decimal | None = None
    buying: Buying | None = None
    part: str | None = None
    skill: str = ""
    because: str = ""  # of a part with a price of its own


@dataclass(frozen=True, slots=True)
class OutsideDetails:
    """A person's words on outside work; `rounds` of a loop are sold, None without one."""

    they_do: str = ""
    reference: str = ""
    we_warrant: str = ""
    rounds: int | None = None
    per_round: bool = False


@dataclass(frozen=True, slots=True)
class ChosenOutside:
    """Work that is bought from another firm: its cost to the workshop, and its place in the plan.

    `title` describes the work without the firm; `they_need` and `warranty` are sentences that a person wrote.
    """

    line: str
    title: str
    terms: OutsideTerms
    work: PlannedOutsideWork
    they_need: str = ""
    warranty: str = ""
    details: OutsideDetails = OutsideDetails()
    returnable: bool = True  # False: its supplier does not take it back


@dataclass(frozen=True, slots=True)
class ChosenLabour:
    """Labour that a person added to the quote: an operation of the list, or hours at the rate of a skill.

    `code` is that of the operation, which the input contains; for hours alone it is WORK and the line's id.
    """

    line: str
    code: str
    hours: Decimal


@dataclass(frozen=True, slots=True)
class TakenLine:
    """An agreed item that a change takes off a job: `item` is its key in the frozen text of revision `source`.

    `amount` is the sum that its removal subtracts, above 0. `hours` are those of an operation.
    """

    source: str
    item: str
    kind: str
    title: str
    tax_class: str
    amount: Decimal
    hours: Decimal = NOTHING


@dataclass(frozen=True, slots=True)
class FigureOverride:
    """A figure that a person set in place of the calculated one, and the reason."""

    value: Decimal
    because: str


@dataclass(frozen=True, slots=True)
class AgreedDiscount:
    """Either `percent` (10 is a tenth) or an `amount`, and the reason for the discount."""

    percent: Decimal | None
    amount: Decimal | None
    because: str


@dataclass(frozen=True, slots=True)
class QuoteInput:
    """The input. Keys of `overrides` are labour:CODE, kit:LINE, need:KEY and outside:LINE."""

    rules: Rules
    exponent: int
    kits: tuple[ChosenKit, ...] = ()
    labour: tuple[ChosenLabour, ...] = ()
    operations: tuple[LabourOperation, ...] = ()
    titles: Mapping[str, str] = field(default_factory=dict)  # of operations, by code
    overlaps: tuple[Overlap, ...] = ()
    needs: tuple[NeedRow, ...] = ()
    items: Mapping[str, OfferedItem] = field(default_factory=dict)
    capacities: Mapping[str, Decimal] = field(default_factory=dict)
    attributes: Mapping[str, str] | None = None  # recorded for the vehicle; None without a vehicle
    condition: str = "none"
    extras: tuple[Extra, ...] = ()
    contingencies: tuple[Contingency, ...] = ()
    outside: tuple[ChosenOutside, ...] = ()
    overrides: Mapping[str, FigureOverride] = field(
        default_factory=dict
    )  # by labour:CODE, kit:LINE, need:KEY, outside:LINE
    discount: AgreedDiscount | None = None
    taken: tuple[TakenLine, ...] = ()  # the items that a change takes off its job
    charges: Mapping[str, str] = field(default_factory=dict)  # item of a need -> the way that the advisor chose

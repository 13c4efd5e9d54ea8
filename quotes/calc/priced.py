"""The result of pricing a quote: every figure with its reasons, as codes and facts."""

from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.buying import UnitPricing
from quotes.calc.deposit import Deposit
from quotes.calc.labour import LabourLine
from quotes.calc.quote_input import AgreedDiscount, TakenLine
from shop.calc.document import ClassAmount, Document, Totals
from shop.calc.reason import Reason

Reasons = tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class PricedKit:
    """The price of one kit line."""

    line: str
    letter: str
    code: str
    title: str
    price: Decimal
    cost: Decimal | None
    alone_hours: Decimal
    computed: Decimal  # the price before an override
    sold: UnitPricing | None  # None for a kit with its own price, and for one that the customer brings
    reasons: Reasons
    supplied: bool


@dataclass(frozen=True, slots=True)
class PricedOperation:
    """The labour of one operation. `line` is the labour as charged before an override."""

    code: str
    title: str
    skill: str
    kits: tuple[str, ...]
    hours: Decimal
    rate: Decimal
    price: Decimal
    line: LabourLine
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedSkill:
    """The labour of one skill over all its operations."""

    skill: str
    hours: Decimal
    rate: Decimal
    price: Decimal
    cost: Decimal | None


@dataclass(frozen=True, slots=True)
class TakenPack:
    """A pack that the quote buys for a need, `count` times."""

    part: str
    number: str
    title: str
    size: Decimal
    count: int
    sold: UnitPricing


@dataclass(frozen=True, slots=True)
class PricedNeed:
    """One need. `quantity` is used by the job, `left` remains. `price` is 0 if the shop supplies cover it.

    `charge` is one way for all kits, decided by `charged_because` (see `quotes/calc/charge.py`). `key` is the item.
    """

    key: str
    item: str
    title: str
    unit: str
    quantity: Decimal
    left: Decimal
    packs: tuple[TakenPack, ...]
    charge: str
    charged_because: str
    kits: tuple[str, ...]
    operation: str
    price: Decimal
    cost: Decimal | None
    tax_class: str
    steps: Reasons  # the derivation of the quantity, kit by kit
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedExtra:
    """A loose part or a line written by hand. `priced` is False for a part with neither an offer nor a price."""

    line: str
    part: str | None
    priced: bool
    title: str
    quantity: Decimal
    unit_price: Decimal
    price: Decimal
    cost: Decimal | None
    tax_class: str
    sold: UnitPricing | None  # None for a line written by hand and a part without an offer
    condition: str  # new, used or reconditioned; empty for a line written by hand
    original: bool
    because: str  # the reason for a part's own price; empty for the price worked out
    core: bool
    supplied: bool
    fitted_by: str
    returnable: bool


@dataclass(frozen=True, slots=True)
class PricedContingency:
    """A line that is charged only if it happens. `price` with `tax` inside it is that of one time, `highest` of all.

    `priced` is False for a part with neither an offer nor a price, and for a skill without a rate.
    """

    line: str
    part: str | None
    skill: str
    priced: bool
    event: str
    title: str
    quantity: Decimal
    unit_price: Decimal
    price: Decimal
    tax: Decimal
    cap: int
    highest: Decimal
    tax_class: str
    sold: UnitPricing | None
    because: str  # the reason for a part's own price; empty for the price worked out


@dataclass(frozen=True, slots=True)
class PricedOutside:
    """Work by another firm. `computed` is its price before an override."""

    line: str
    title: str
    price: Decimal
    cost: Decimal
    computed: Decimal
    tax_class: str
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedFee:
    """A fee, or the rest of the minimum charge, which has no title of its own.

    `quantity` is 1 per quote, litres or hours; `amount` is the fee for one of them.
    """

    key: str
    title: str
    quantity: Decimal
    amount: Decimal
    price: Decimal
    tax_class: str
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedDiscount:
    """The discount. `amount` is subtracted from the lines that are discounted, whose sum is `base`.

    If the agreed amount exceeds the base, nothing is subtracted and `too_large` is set.
    """

    agreed: AgreedDiscount
    amount: Decimal
    base: Decimal
    allowances: tuple[ClassAmount, ...]
    too_large: bool
    steps: Reasons


@dataclass(frozen=True, slots=True)
class Saving:
    """The saving if a kit is left out: `hours` and `amount` (with tax), and the remaining hours and amount."""

    line: str
    hours: Decimal
    amount: Decimal
    left_hours: Decimal
    left_amount: Decimal


@dataclass(frozen=True, slots=True)
class PricedLabour:
    """A labour line that a person put on the quote. `alone_hours` are charged for it on a visit of its own."""

    line: str
    code: str
    title: str
    alone_hours: Decimal


@dataclass(frozen=True, slots=True)
class PricedQuote:
    """All figures of a quote. What is charged only if it happens is in no sum and no cost."""

    kits: tuple[PricedKit, ...]
    operations: tuple[PricedOperation, ...]
    skills: tuple[PricedSkill, ...]
    needs: tuple[PricedNeed, ...]
    extras: tuple[PricedExtra, ...]
    contingencies: tuple[PricedContingency, ...]
    outside: tuple[PricedOutside, ...]
    fees: tuple[PricedFee, ...]
    taken: tuple[TakenLine, ...]
    discount: PricedDiscount | None
    deposit: Deposit | None
    hours: Decimal
    apart_hours: Decimal
    labour_total: Decimal
    document: Document
    totals: Totals
    notices: Reasons  # for the person who sends the quote
    labour: tuple[PricedLabour, ...] = ()  # its hours and prices are among the operations

    @property
    def empty(self) -> bool:
        """Whether nothing was put on the quote."""
        return not (self.kits or self.labour or self.extras or self.outside or self.taken)

    @property
    def cost(self) -> Decimal:
        """The sum of all known costs."""
        costs = [
            *(kit.cost for kit in self.kits),
            *(skill.cost for skill in self.skills),
            *(need.cost for need in self.needs),
            *(extra.cost for extra in self.extras),
            *(work.cost for work in self.outside),
        ]
        return sum((cost for cost in costs if cost is not None), Decimal(0))

"""The result of pricing a quote: every figure with its reasons, not yet in words."""

from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.buying import UnitPricing
from quotes.calc.labour import LabourLine
from quotes.calc.quote_input import AgreedDiscount
from shop.calc.document import ClassAmount, Document, Totals
from shop.calc.reason import Reason

Reasons = tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class PricedKit:
    line: str
    letter: str
    code: str
    title: str
    price: Decimal
    cost: Decimal | None
    alone_hours: Decimal
    computed: Decimal  # the price before a person put theirs in its place
    sold: UnitPricing | None  # None where it has a price of its own
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedOperation:
    """`line` is the labour as it was charged, before a person put their hours in its place."""

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
    skill: str
    hours: Decimal
    rate: Decimal
    price: Decimal
    cost: Decimal | None


@dataclass(frozen=True, slots=True)
class TakenPack:
    part: str
    number: str
    title: str
    size: Decimal
    count: int
    sold: UnitPricing


@dataclass(frozen=True, slots=True)
class PricedNeed:
    """`price` is 0 for what the shop supplies cover. `quantity` is what the job uses, `left` stays over."""

    key: str
    item: str
    title: str
    unit: str
    quantity: Decimal
    left: Decimal
    packs: tuple[TakenPack, ...]
    charge: str
    kits: tuple[str, ...]
    operation: str
    price: Decimal
    cost: Decimal | None
    tax_class: str
    steps: Reasons  # how the quantity came about, kit by kit
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedExtra:
    """`priced` is False for a part that has neither an offer nor a price of its own."""

    line: str
    part: str | None
    priced: bool
    title: str
    quantity: Decimal
    unit_price: Decimal
    price: Decimal
    cost: Decimal | None
    tax_class: str
    sold: UnitPricing | None  # None for a line written by hand, and for a part without an offer


@dataclass(frozen=True, slots=True)
class PricedOutside:
    """`computed` is the price before a person put theirs in its place."""

    line: str
    title: str
    price: Decimal
    cost: Decimal
    computed: Decimal
    tax_class: str
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedFee:
    """`quantity` is 1 a quote, or litres; `amount` is for one of them."""

    key: str
    title: str
    quantity: Decimal
    amount: Decimal
    price: Decimal
    tax_class: str
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedDiscount:
    """`amount` is subtracted from the lines that a discount is given on, which come to `base`.

    Where more was agreed than there is, nothing is subtracted and `too_large` says so.
    """

    agreed: AgreedDiscount
    amount: Decimal
    base: Decimal
    allowances: tuple[ClassAmount, ...]
    too_large: bool
    steps: Reasons


@dataclass(frozen=True, slots=True)
class Saving:
    """The saving without a kit: `hours` and `amount` (with tax) of the whole quote, and what would be left."""

    line: str
    hours: Decimal
    amount: Decimal
    left_hours: Decimal
    left_amount: Decimal


@dataclass(frozen=True, slots=True)
class PricedQuote:
    kits: tuple[PricedKit, ...]
    operations: tuple[PricedOperation, ...]
    skills: tuple[PricedSkill, ...]
    needs: tuple[PricedNeed, ...]
    extras: tuple[PricedExtra, ...]
    outside: tuple[PricedOutside, ...]
    fees: tuple[PricedFee, ...]
    discount: PricedDiscount | None
    hours: Decimal
    apart_hours: Decimal
    labour_total: Decimal
    document: Document
    totals: Totals
    notices: Reasons  # what is worth knowing before it is sent

    @property
    def cost(self) -> Decimal:
        """Of everything whose cost is known."""
        costs = [
            *(kit.cost for kit in self.kits),
            *(skill.cost for skill in self.skills),
            *(need.cost for need in self.needs),
            *(extra.cost for extra in self.extras),
            *(work.cost for work in self.outside),
        ]
        return sum((cost for cost in costs if cost is not None), Decimal(0))

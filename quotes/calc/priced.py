"""What the pricing of a quote gives: every figure with its reasons, before anybody words them."""

from dataclasses import dataclass
from decimal import Decimal

from shop.calc.document import Document, Totals
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
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class PricedOperation:
    code: str
    title: str
    skill: str
    kits: tuple[str, ...]
    hours: Decimal
    rate: Decimal
    price: Decimal
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


@dataclass(frozen=True, slots=True)
class PricedFee:
    key: str
    title: str
    quantity: Decimal
    price: Decimal
    tax_class: str
    reasons: Reasons


@dataclass(frozen=True, slots=True)
class Saving:
    """What taking a kit off would save of the whole, beside what it is charged alone."""

    line: str
    hours: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True)
class PricedQuote:
    kits: tuple[PricedKit, ...]
    operations: tuple[PricedOperation, ...]
    skills: tuple[PricedSkill, ...]
    needs: tuple[PricedNeed, ...]
    extras: tuple[PricedExtra, ...]
    fees: tuple[PricedFee, ...]
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
        ]
        return sum((cost for cost in costs if cost is not None), Decimal(0))

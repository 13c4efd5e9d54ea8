"""The way in which a quote charges a consumable: as whole packs, as used, or within the shop supplies.

One way holds for one consumable on one quote, however many kits need it.

Worked cases: fixtures/vectors/charge.json. Units: `quantity` and `size` are in the unit of the consumable.
"""

from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from shop.calc.errors import CalculationError
from shop.calc.money import rounded
from shop.calc.rules import CHARGES

PACK, SUPPLIES = "pack", "supplies"
CHOSEN, BY_RULES, BY_KIT, KITS_DIFFER = "chosen", "rules", "kit", "kits_differ"
NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class ChargeWay:
    """A way of charging, and who decided it: the advisor (`chosen`), the `rules`, the `kit`, or kits that differ."""

    way: str
    because: str


@dataclass(frozen=True, slots=True)
class OpenedPacks:
    """The packs opened for a need: their price and cost, the `size` of all, and the `quantity` that the job uses."""

    price: Decimal
    cost: Decimal
    size: Decimal
    quantity: Decimal


@dataclass(frozen=True, slots=True)
class ChargedNeed:
    """The price that the customer pays for a need, and its cost to the workshop."""

    price: Decimal
    cost: Decimal


def choose_way(stated: Collection[str], rule: str | None, chosen: str | None) -> ChargeWay:
    """The advisor's choice, else the price rule, else what the kits state.

    Kits that differ are charged in the first of pack, used and supplies that one of them states: a pack that one kit
    sells serves the others. Refuses `unknown_charge`, also without any way.
    """
    for way in (*stated, rule, chosen):
        if way is not None and way not in CHARGES:
            raise CalculationError("unknown_charge", way)
    if chosen is not None:
        return ChargeWay(chosen, CHOSEN)
    if rule is not None:
        return ChargeWay(rule, BY_RULES)
    if not stated:
        raise CalculationError("unknown_charge", "none")
    return ChargeWay(min(stated, key=CHARGES.index), BY_KIT if len(set(stated)) == 1 else KITS_DIFFER)


def charge_need(way: str, packs: OpenedPacks, exponent: int) -> ChargedNeed:
    """The price and the cost of a need, rounded once each.

    Whole packs are the customer's: all of their cost belongs to the job. In the other ways the rest stays in the
    workshop, and the cost is that of what is used.
    """
    if way == PACK or not packs.size:
        return ChargedNeed(rounded(packs.price, exponent), rounded(packs.cost, exponent))
    share = Fraction(packs.quantity) / Fraction(packs.size)
    price = NOTHING if way == SUPPLIES else Fraction(packs.price) * share
    return ChargedNeed(rounded(price, exponent), rounded(Fraction(packs.cost) * share, exponent))

"""Shares the freight and the brokerage of a shipment over its parts (calculations: landed cost, allocation).

Units: freight and costs in the supplier's currency, brokerage in the shop's; quantities in each part's own unit.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from quotes.calc.part_list import Reading
from shop.calc.money import allocate, rounded

ShipmentReading = Reading | Literal["no_price", "other_currency"]
UNIT_DECIMALS = 4  # of the charges of one unit, as offers keep them


@dataclass(frozen=True, slots=True)
class ShippedPart:
    """A part of the shipment; `unit_cost` is the supplier's price of one unit."""

    quantity: Decimal
    unit_cost: Decimal


@dataclass(frozen=True, slots=True)
class Charges:
    """The freight and the brokerage of a shipment, or of one unit of a part in it."""

    freight: Decimal
    brokerage: Decimal


def share_charges(
    parts: Sequence[ShippedPart], charges: Charges, decimals: int, own_decimals: int
) -> tuple[Charges, ...]:
    """The charges of one unit of each part, in the order of `parts`. Each part has a quantity above 0.

    Both are shared by the value of the goods, or equally where no part costs anything. The shares of the parts, in
    whole cents, add up to the charges; those of one unit are rounded. `decimals` are those of the supplier's currency,
    `own_decimals` those of the shop's. Refuses `not_rounded` and `nothing_to_share_over`.
    """
    goods = [Fraction(part.quantity) * Fraction(part.unit_cost) for part in parts]
    freight = allocate(charges.freight, goods, decimals)
    brokerage = allocate(charges.brokerage, goods, own_decimals)
    return tuple(
        Charges(_of_one(of_freight, part), _of_one(of_brokerage, part))
        for part, of_freight, of_brokerage in zip(parts, freight, brokerage, strict=True)
    )


def _of_one(share: Decimal, part: ShippedPart) -> Decimal:
    return rounded(Fraction(share) / Fraction(part.quantity), UNIT_DECIMALS)

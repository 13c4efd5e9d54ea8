"""Landed cost and selling price of imported parts (worked cases: fixtures/vectors/landed.json).

Units: foreign money and local money, `rate` is local money per unit of foreign money; shares are rates (6 % is 0.06);
quantities are in each part's own unit. Money is rounded to the currency's `exponent`, unit costs stay exact.
"""

from dataclasses import dataclass
from decimal import Decimal, localcontext
from enum import StrEnum
from fractions import Fraction

from quotes.calc.markup import Band, Markup, MarkupMode, sell_price
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, Exact, allocate, rounded
from shop.calc.quantity import exact

__all__ = [
    "Band",
    "DutyBase",
    "ImportLine",
    "LandedShipment",
    "LandedLine",
    "Markup",
    "MarkupMode",
    "Shipment",
    "land",
    "sell_price",
]

_NOTHING = Decimal(0)


class DutyBase(StrEnum):
    """The amount on which duty is charged."""

    GOODS = "goods"
    GOODS_AND_FREIGHT = "goods_and_freight"


@dataclass(frozen=True, slots=True)
class ImportLine:
    """One part of a shipment. `unit_foreign` is the supplier's price of one unit in the supplier's currency."""

    id: str
    quantity: Decimal
    unit_foreign: Decimal
    duty_rate: Decimal = _NOTHING


@dataclass(frozen=True, slots=True)
class Shipment:
    """A shipment. `rate` is local money per unit of foreign money; `exponent` is the local currency's."""

    rate: Decimal
    lines: tuple[ImportLine, ...]
    markup: Markup
    freight_foreign: Decimal = _NOTHING
    brokerage_local: Decimal = _NOTHING
    duty_base: DutyBase = DutyBase.GOODS
    recoverable_tax_rate: Decimal = _NOTHING
    exponent: int = 2


@dataclass(frozen=True, slots=True)
class LandedLine:
    """The cost of one line in local money. `unit_cost` is exact, all other amounts are rounded to the currency."""

    id: str
    quantity: Decimal
    value: Decimal
    freight: Decimal
    brokerage: Decimal
    duty_base: Decimal
    duty: Decimal
    landed: Decimal
    unit_cost: Exact
    sell_unit: Decimal
    sell: Decimal


@dataclass(frozen=True, slots=True)
class LandedShipment:
    """The cost of a shipment. `margin` is profit over sales, `markup_rate` profit over cost.

    Both have four decimal places; they are None where the divisor is 0.
    """

    lines: tuple[LandedLine, ...]
    landed_total: Decimal
    sell_total: Decimal
    gross_profit: Decimal
    margin: Decimal | None
    markup_rate: Decimal | None
    recoverable_tax: Decimal


def land(shipment: Shipment) -> LandedShipment:
    """Cost and price of each line.

    Refuses `bad_quantity` (not above 0; the line), `bad_markup` (the band), `not_exact` (the figure).
    """
    _check(shipment)
    with localcontext(EXACT):
        goods = [line.quantity * line.unit_foreign for line in shipment.lines]
        freight = _shares(shipment.freight_foreign * shipment.rate, goods, shipment.exponent)
        brokerage = _shares(shipment.brokerage_local, goods, shipment.exponent)
        parts = zip(shipment.lines, goods, freight, brokerage, strict=True)
        return _landed(shipment, tuple(_line(shipment, *part) for part in parts))


def _landed(shipment: Shipment, lines: tuple[LandedLine, ...]) -> LandedShipment:
    nothing = rounded(_NOTHING, shipment.exponent)
    landed_total = sum((line.landed for line in lines), nothing)
    sell_total = sum((line.sell for line in lines), nothing)
    profit = sell_total - landed_total
    taxed = sum((line.duty_base + line.duty for line in lines), nothing)
    return LandedShipment(
        lines=lines,
        landed_total=landed_total,
        sell_total=sell_total,
        gross_profit=profit,
        margin=_ratio(profit, sell_total),
        markup_rate=_ratio(profit, landed_total),
        recoverable_tax=rounded(taxed * shipment.recoverable_tax_rate, shipment.exponent),
    )


def _line(shipment: Shipment, line: ImportLine, goods: Decimal, freight: Decimal, brokerage: Decimal) -> LandedLine:
    value = rounded(goods * shipment.rate, shipment.exponent)
    with_freight = shipment.duty_base is DutyBase.GOODS_AND_FREIGHT
    duty_base = value + freight if with_freight else value
    duty = rounded(duty_base * line.duty_rate, shipment.exponent)
    landed = value + duty + freight + brokerage
    unit_cost = landed if line.quantity == 1 else Fraction(landed) / Fraction(line.quantity)
    sell_unit = sell_price(unit_cost, shipment.markup, shipment.exponent)
    return LandedLine(
        id=line.id,
        quantity=line.quantity,
        value=value,
        freight=freight,
        brokerage=brokerage,
        duty_base=duty_base,
        duty=duty,
        landed=landed,
        unit_cost=unit_cost,
        sell_unit=sell_unit,
        sell=rounded(line.quantity * sell_unit, shipment.exponent),
    )


def _shares(amount: Decimal, goods: list[Decimal], exponent: int) -> tuple[Decimal, ...]:
    return allocate(rounded(amount, exponent), goods, exponent) if goods else ()


def _ratio(part: Decimal, whole: Decimal) -> Decimal | None:
    return rounded(Fraction(part) / Fraction(whole), 4) if whole else None


def _check(shipment: Shipment) -> None:
    for name in ("rate", "freight_foreign", "brokerage_local", "recoverable_tax_rate"):
        exact(getattr(shipment, name), name)
    for line in shipment.lines:
        exact(line.unit_foreign, line.id)
        exact(line.duty_rate, line.id)
        if exact(line.quantity, line.id) <= 0:
            raise CalculationError("bad_quantity", f"{line.id} {line.quantity}")

"""Cost and selling price of one bought unit: landed cost, then markup by bands (the calculation of landed cost)."""

from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.landed import DutyBase, ImportLine, LandedLine, Shipment, land
from quotes.calc.markup import Band, Markup, MarkupMode, up_to_step
from quotes.calc.quote_input import Buying
from shop.calc.money import rounded
from shop.calc.reason import Reason
from shop.calc.rules import Rules

ONE = Decimal(1)


@dataclass(frozen=True, slots=True)
class UnitPricing:
    """Landed `cost` and selling `price` of one unit; `landed` holds the steps between them."""

    cost: Decimal
    price: Decimal
    buying: Buying
    landed: LandedLine
    reasons: tuple[Reason, ...]


def price_unit(buying: Buying, rules: Rules, exponent: int) -> UnitPricing | None:
    """One unit at today's cost, sold at its own price, or by the bands and rounded up to the rules' step.

    None if its currency has no exchange rate.
    """
    if buying.rate is None:
        return None
    landed = land(
        Shipment(
            rate=buying.rate,
            lines=(ImportLine("unit", ONE, buying.unit_cost, buying.duty_rate),),
            markup=markup(rules),
            freight_foreign=buying.freight,
            brokerage_local=buying.brokerage,
            duty_base=DutyBase(rules.duty_base),
            recoverable_tax_rate=rules.recoverable_tax_rate,
            exponent=exponent,
        )
    )
    line = landed.lines[0]
    price = up_to_step(line.sell_unit, rules.price_step) if buying.sells is None else buying.sells
    return UnitPricing(landed.landed_total, rounded(price, exponent), buying, line, tuple(_why(buying)))


def markup(rules: Rules) -> Markup:
    """The markup of the rules as the calculation of landed cost takes it."""
    return Markup(
        MarkupMode(rules.markup_mode), tuple(Band(band.up_to, band.multiplier) for band in rules.markup_bands)
    )


def _why(buying: Buying) -> list[Reason]:
    if buying.rate_date is None:
        return []
    date, days = buying.rate_date.isoformat(), buying.rate_days or 0
    return [Reason.of("landed", currency=buying.currency, date=date, days=days)]

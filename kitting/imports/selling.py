"""Findings for packs with a selling price of their own that is below cost."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from zoneinfo import ZoneInfo

from django.utils import timezone

from kitting.imports.buying import ImportedOffer, suppliers
from shop.access import Actor, rules_on
from shop.calc.keys import search_key
from shop.calc.money import rounded
from shop.calc.rules import Rules
from shop.calc.tax_stack import TaxStack
from shop.models import Rate
from shop.tables.findings import Finding, please_check


@dataclass(frozen=True, slots=True)
class PackPrice:
    """A pack's own selling price with its offer, tax class, and place in the file."""

    price: Decimal
    offer: ImportedOffer | None
    tax_class: str
    where: Finding


def sold_below_cost(actor: Actor, packs: Sequence[PackPrice]) -> Iterator[Finding]:
    """A finding for each selling price that leaves less than the purchase cost after the tax inside it.

    The cost is the supplier's price with duty, freight and brokerage, at the latest exchange rate. Without a rate there
    is no finding.
    """
    if not packs:
        return
    taxes, exponent = _taxes_inside(actor), actor.shop.exponent
    homes, rates = {key: row.currency for key, row in suppliers(actor).items()}, _rates(actor)
    for pack in packs:
        if pack.offer is None:
            yield please_check("sells_without_cost", pack.where)
            continue
        currency = pack.offer.currency or homes.get(search_key(pack.offer.supplier), actor.shop.currency)
        if currency not in rates:
            continue
        cost = _cost(pack.offer, rates[currency], exponent)
        factor = Fraction(1 + (taxes.rate(pack.tax_class) if taxes else 0))
        net = rounded(Fraction(pack.price) / factor, exponent)
        if net < cost:
            least = rounded(Fraction(cost) * factor, exponent)
            yield please_check("sells_below_cost", pack.where, price=pack.price, net=net, cost=cost, least=least)


def _taxes_inside(actor: Actor) -> TaxStack | None:
    """The taxes included in prices; None if prices exclude tax or there are no rules yet."""
    rule_set = rules_on(actor.shop, timezone.now().astimezone(ZoneInfo(actor.shop.zone)).date())
    rules = Rules.from_json(rule_set.rules) if rule_set else None
    if rules is None or not rules.prices_include_tax:
        return None
    return TaxStack(tuple(named.tax for named in rules.taxes), actor.shop.exponent)


def _cost(offer: ImportedOffer, rate: Decimal, exponent: int) -> Decimal:
    return rounded((offer.cost * (1 + offer.duty) + offer.freight) * rate + offer.brokerage, exponent)


def _rates(actor: Actor) -> dict[str, Decimal]:
    """{currency: value of one unit in the shop's currency}, at the latest rates."""
    rates = {row.currency: row.rate for row in Rate.objects.filter(shop=actor.shop).order_by("valid_from")}
    return rates | {actor.shop.currency: Decimal(1)}

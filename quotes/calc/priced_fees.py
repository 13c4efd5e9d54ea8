"""The fees of a quote: once, per litre used of a consumable family, or per litre drained."""

from collections.abc import Iterable
from decimal import Decimal

from kitting.calc.drained import drained_litres
from kitting.calc.needs import CircuitAssumptions
from quotes.calc.priced import PricedFee, PricedNeed, Reasons
from quotes.calc.quote_input import QuoteInput
from shop.calc.money import rounded
from shop.calc.reason import Reason
from shop.calc.rules import DRAINED, Fee

NOTHING, ONE = Decimal(0), Decimal(1)


def price_fees(quote: QuoteInput, needs: Iterable[PricedNeed]) -> tuple[tuple[PricedFee, ...], Reasons]:
    """The fees with something to charge, and a notice `drained_unknown` for each fee that needs a missing capacity."""
    used = _used(quote, needs)
    rules = quote.rules
    drained = drained_litres(quote.needs, CircuitAssumptions(quote.capacities, rules.coolant, rules.bead_waste))
    anything = ONE if quote.kits or quote.extras or quote.outside else NOTHING
    fees, notices = [], []
    for fee in rules.fees:
        if fee.per == DRAINED and fee.fluid in drained and drained[fee.fluid] is None:
            notices.append(Reason.of("drained_unknown", title=fee.title, of=fee.fluid))
            continue
        litres = drained.get(fee.fluid) if fee.per == DRAINED else used.get(fee.per)
        quantity = anything if fee.per == "quote" else litres or NOTHING
        if quantity > 0:
            fees.append(_fee(fee, quantity, quote.exponent))
    return tuple(fees), tuple(notices)


def _used(quote: QuoteInput, needs: Iterable[PricedNeed]) -> dict[str, Decimal]:
    """Maps a consumable family to the litres that the job uses."""
    litres: dict[str, Decimal] = {}
    for need in needs:
        family = quote.items[need.item].family
        if need.unit == "L":
            litres[family] = litres.get(family, NOTHING) + need.quantity
    return litres


def _fee(fee: Fee, quantity: Decimal, exponent: int) -> PricedFee:
    price = rounded(quantity * fee.amount, exponent)
    return PricedFee(f"fee:{fee.code}", fee.title, quantity, fee.amount, price, fee.tax_class, _reasons(fee, quantity))


def _reasons(fee: Fee, quantity: Decimal) -> Reasons:
    if fee.per == "quote":
        return ()
    if fee.per == DRAINED:
        return (Reason.of("fee_per_litre_drained", litres=quantity, amount=fee.amount, of=fee.fluid),)
    return (Reason.of("fee_per_litre", litres=quantity, amount=fee.amount, family=fee.per),)

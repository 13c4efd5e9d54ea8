"""The days for which a quote can be accepted: no longer than the prices that it was built from hold."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from quotes.calc.priced import PricedContingency, PricedExtra, PricedQuote
from quotes.calc.quote_input import Buying
from shop.calc.reason import Reason
from shop.calc.rules import Rules


@dataclass(frozen=True, slots=True)
class Validity:
    """`days` after the day of sending; `because` is `valid_rules`, `valid_offer` or `valid_currency`."""

    days: int
    because: Reason


def validity(rules: Rules, quotes: Iterable[PricedQuote]) -> Validity:
    """The shortest of the rule, the offers used, and the days for which prices in foreign money are guaranteed.

    `quotes` are all prices that the customer can choose between. An offer that has ended already shortens nothing: its
    price was used, and the pricing has a notice of it.
    """
    limits = [Validity(rules.validity_days, Reason.of("valid_rules"))]
    for quote in quotes:
        for title, buying in bought(quote):
            limits += _limits(title, buying, rules)
    return min(limits, key=lambda limit: limit.days)  # the first of equals


def bought(quote: PricedQuote) -> Iterator[tuple[str, Buying]]:
    """(title, terms of purchase) of everything on the quote that has an offer."""
    for kit in quote.kits:
        if kit.sold:
            yield kit.title, kit.sold.buying
    for need in quote.needs:
        yield from ((pack.title, pack.sold.buying) for pack in need.packs)
    loose: tuple[PricedExtra | PricedContingency, ...] = (*quote.extras, *quote.contingencies)
    for line in loose:
        if line.sold:
            yield line.title, line.sold.buying


def _limits(title: str, buying: Buying, rules: Rules) -> Iterator[Validity]:
    if buying.days_left is not None and buying.days_left >= 0:
        yield Validity(buying.days_left, Reason.of("valid_offer", supplier=buying.supplier, title=title))
    if buying.rate_date is not None and rules.currency_days is not None:
        yield Validity(rules.currency_days, Reason.of("valid_currency", currency=buying.currency))

"""The amounts of a totalled document before tax, line by line.

Units: money with the currency's decimal places. They add up to the net of the totals exactly. Where prices include tax,
each item loses the tax inside it; the cents by which the rounded parts differ from their tax class go to the largest
items, one each.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from shop.calc.document import Document, Totals
from shop.calc.money import EXACT
from shop.calc.tax_stack import TaxStack

Item = tuple[str, Decimal]
"""(tax class, amount)"""


@dataclass(frozen=True, slots=True)
class NetAmounts:
    """The net of each line, of the shop supplies, and of each allowance, as a positive amount."""

    lines: tuple[Decimal, ...]
    supplies: Decimal
    allowances: tuple[Decimal, ...]


def net_amounts(document: Document, totals: Totals) -> NetAmounts:
    """The net amounts of `document`, of which `totals` are the totals."""
    with localcontext(EXACT):
        items = [
            *((line.tax_class, line.amount) for line in totals.lines),
            (document.supplies.tax_class if document.supplies else "", totals.supplies),
            *((allowance.tax_class, -allowance.amount) for allowance in document.allowances),
        ]
        nets = _without_tax(items, document, totals) if document.prices_include_tax else [net for _, net in items]
        count = len(totals.lines)
        return NetAmounts(tuple(nets[:count]), nets[count], tuple(-net for net in nets[count + 1 :]))


def _without_tax(items: Sequence[Item], document: Document, totals: Totals) -> list[Decimal]:
    stack = TaxStack(document.taxes, document.exponent)
    nets = [
        amount - sum((tax.amount for tax in stack.inside(tax_class, amount)), Decimal(0)) for tax_class, amount in items
    ]
    cent = Decimal((0, (1,), -document.exponent))
    for total in totals.classes:
        places = [place for place, (tax_class, _) in enumerate(items) if tax_class == total.tax_class]
        places.sort(key=lambda place: -abs(items[place][1]))
        rest = total.amount - total.tax_inside - sum((nets[place] for place in places), Decimal(0))
        for step in range(int(abs(rest) / cent)):
            nets[places[step % len(places)]] += cent.copy_sign(rest)
    return nets

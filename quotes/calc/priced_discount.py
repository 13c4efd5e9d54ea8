"""The discount of a quote, over the lines that may be discounted."""

from collections.abc import Collection
from decimal import Decimal

from quotes.calc.discount import DiscountInput, split_discount
from quotes.calc.priced import PricedDiscount
from quotes.calc.priced_minimum import MINIMUM
from quotes.calc.priced_supplied import SUPPLIED
from quotes.calc.quote_input import AgreedDiscount
from shop.calc.document import ClassAmount, Document
from shop.calc.errors import CalculationError
from shop.calc.money import rounded
from shop.calc.tax import total_document

NEVER_DISCOUNTED = frozenset({"fee", "taken", MINIMUM, SUPPLIED})  # first words of ids; supplies are not a line


def price_discount(
    document: Document, agreed: AgreedDiscount | None, cores: Collection[str] = ()
) -> PricedDiscount | None:
    """The discount of the document's lines and its share in each tax class; None if none was agreed.

    `cores` are the ids of the core deposits, which are paid back whole. Refuses `bad_discount`, `not_exact`.
    """
    if agreed is None:
        return None
    totals, exponent = total_document(document), document.exponent
    lines = tuple(
        ClassAmount(line.tax_class, line.amount)
        for line in totals.lines
        if line.id.partition(":")[0] not in NEVER_DISCOUNTED and line.id not in cores
    )
    base = sum((line.amount for line in lines), Decimal(0))
    try:
        split = split_discount(DiscountInput(lines, agreed.percent, agreed.amount, exponent))
    except CalculationError as refusal:
        if refusal.code != "discount_too_large":
            raise
        return PricedDiscount(agreed, rounded(Decimal(0), exponent), base, (), True, ())
    return PricedDiscount(agreed, split.discount, base, split.allowances, False, split.steps)

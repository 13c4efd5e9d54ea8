"""The deposit of a quote by its price rules (the calculation itself: `deposit.py`)."""

from collections.abc import Collection
from dataclasses import replace
from decimal import Decimal

from quotes.calc.deposit import Deposit, DepositInput, DepositRule, ask_deposit
from shop.calc.document import Document
from shop.calc.rules import Rules
from shop.calc.tax import total_document

NOTHING = Decimal(0)


def price_deposit(
    rules: Rules, document: Document, gross: Decimal, parts: Collection[str], not_returnable: Decimal
) -> Deposit | None:
    """The deposit on a document with the total `gross`; None where the rules ask for none.

    `parts` are the ids of the lines of kits and loose parts. They count before discount and with tax. `not_returnable`
    is what the workshop pays for goods that cannot be sent back.
    """
    if rules.deposit is None:
        return None
    lines = tuple(line for line in document.lines if line.id in parts)
    bought = total_document(replace(document, lines=lines, allowances=(), supplies=None)).gross
    return ask_deposit(
        DepositInput(
            rule=DepositRule(rules.deposit.base, rules.deposit.share * 100, rules.deposit.cover),
            parts=max(bought, NOTHING),
            total=max(gross, NOTHING),
            not_returnable=not_returnable,
            exponent=document.exponent,
        )
    )

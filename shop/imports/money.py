"""Amounts of a file that are money of the shop itself: they go as fine as its currency, and no finer."""

from collections.abc import Iterable
from decimal import Decimal

from shop.access import Actor
from shop.calc.money import rounded
from shop.imports.findings import Finding, must_fix

Placed = tuple[Decimal | None, Finding]  # an amount, if there is one, and where it stands


def finer_than_currency(actor: Actor, amounts: Iterable[Placed]) -> list[Finding]:
    """Each amount that would have to be rounded; nobody is charged what no file says."""
    limit, currency = actor.shop.exponent, actor.shop.currency
    finer = [at for amount, at in amounts if amount is not None and rounded(amount, limit) != amount]
    return [must_fix("finer_than_currency", at, currency=currency, limit=limit) for at in finer]

"""Checks that a file's amounts in the shop's own money are no finer than its currency."""

from collections.abc import Iterable
from decimal import Decimal

from shop.access import Actor
from shop.calc.money import rounded
from shop.tables.findings import Finding, must_fix

Placed = tuple[Decimal | None, Finding]  # (amount, its place in the file)


def finer_than_currency(actor: Actor, amounts: Iterable[Placed]) -> list[Finding]:
    """A finding for each amount that would have to be rounded: prices are never other than the file states."""
    limit, currency = actor.shop.exponent, actor.shop.currency
    finer = [at for amount, at in amounts if amount is not None and rounded(amount, limit) != amount]
    return [must_fix("finer_than_currency", at, currency=currency, limit=limit) for at in finer]

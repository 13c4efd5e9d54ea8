"""Proposed orders as the lines of a spreadsheet. They hold no cost."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from decimal import Decimal

from kitting.models import PullList
from kitting.presenters.orders import orders_answer
from shop.access import Actor
from shop.tables.writing import Content
from shop.words import say

COLUMNS = ("supplier", "number", "title", "quantity", "unit", "purpose", "not_before")


def orders_headings() -> list[str]:
    return [say(f"list.column.{name}") for name in COLUMNS]


def orders_lines(actor: Actor, pull_list: PullList, now: datetime) -> Iterator[Sequence[Content]]:
    """A row for each part or kit to order, by supplier, with the day before which nothing may be ordered."""
    answer = orders_answer(actor, pull_list, now)
    for order in answer.suppliers:
        for line in order.lines:
            quantity = Decimal(line.quantity)
            yield order.supplier, line.number, line.title, quantity, line.unit, line.purpose, answer.not_before

"""A month's payments and closing accounts as one list: a row each, the kind of row first."""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from zoneinfo import ZoneInfo

from quotes.models import ClosingAccount
from quotes.queries.month import closed_in_month, late_cores_of_month, payments_of_month, quote_numbers
from shop.calc.quantity import money
from shop.models import CoreReturn, Payment, Shop
from shop.tables.writing import Content
from shop.words import say

COLUMNS = (
    *("row", "date", "job", "quote", "customer", "means", "reference", "amount"),
    *("total", "tax", "received", "due", "person", "reason"),
)
SUMS = tuple(COLUMNS.index(name) for name in ("amount", "total", "tax", "received", "due"))


def month_headings() -> list[str]:
    return [say(f"account.column.{name}") for name in COLUMNS]


def month_rows(shop: Shop, first: date) -> list[list[str]]:
    """The rows of the month that begins on `first`; amounts are with a point and in the shop's currency."""
    payments, closed = payments_of_month(shop, first), closed_in_month(shop, first)
    cores = late_cores_of_month(shop, first)
    jobs = {row.job_id for row in payments} | {row.job_id for row in closed} | {row.job_id for row in cores}
    quotes = quote_numbers(shop, jobs)
    rows = [_payment(row, quotes.get(row.job_id, ""), shop) for row in payments]
    rows += [_closed(row, quotes.get(row.job_id, ""), shop) for row in closed]
    return [*rows, *(_core(row, quotes.get(row.job_id, ""), shop) for row in cores)]


def with_figures(rows: Iterable[Sequence[str]]) -> list[list[Content]]:
    """The rows with figures for amounts, which a workbook can sum up."""
    return [[Decimal(cell) if cell and at in SUMS else cell for at, cell in enumerate(row)] for row in rows]


def _payment(row: Payment, quote: str, shop: Shop) -> list[str]:
    means = say(f"account.means.{row.means}")
    who = [str(row.job), quote, row.job.customer.name]
    amount, sums = money(row.amount, shop.exponent), [""] * 4
    day = row.received_on.isoformat()
    return [say("account.kind.payment"), day, *who, means, row.reference, amount, *sums, _name(row), row.reason]


def _closed(row: ClosingAccount, quote: str, shop: Shop) -> list[str]:
    day = row.closed_at.astimezone(ZoneInfo(shop.zone)).date().isoformat()
    sums = [money(amount, shop.exponent) for amount in (row.total, row.tax, row.received, row.due)]
    who = [str(row.job), quote, row.job.customer.name]
    return [say("account.kind.closing"), day, *who, "", "", "", *sums, row.closed_by.user.name, ""]


def _core(row: CoreReturn, quote: str, shop: Shop) -> list[str]:
    """Money that the workshop owes the customer: its amount is below 0."""
    who = [str(row.job), quote, row.job.customer.name]
    amount, name = money(-row.amount, shop.exponent), str(row.recorded_by.user.name)
    return [say("account.kind.core"), row.returned_on.isoformat(), *who, "", row.title, amount, *[""] * 4, name, ""]


def _name(row: Payment) -> str:
    return str(row.recorded_by.user.name)

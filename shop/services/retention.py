"""Deletes records that are older than the shop's retention period. Each app registers how to delete its own."""

from collections.abc import Callable
from datetime import date, datetime
from zoneinfo import ZoneInfo

from shop.access import rules_on
from shop.calc.rules import Rules
from shop.models import Shop

Purge = Callable[[Shop, datetime], int]  # (shop, instant up to which rows are old) -> number of deleted rows
Period = Callable[[Rules], int | None]  # months; None: for good
_purges: list[tuple[Purge, Period]] = []


def purged_after(period: Period) -> Callable[[Purge], Purge]:
    """Registers a function that deletes old rows of a shop, and the period for which its rules keep them."""

    def register(purge: Purge) -> Purge:
        _purges.append((purge, period))
        return purge

    return register


purged_after_retention = purged_after(lambda rules: rules.retention_months)


def purge_kept(*, now: datetime) -> int:
    """Deletes the rows of every shop that are older than its rules in force allow. A shop without rules keeps all."""
    thrown = 0
    for shop in Shop.objects.order_by("pk"):
        today = now.astimezone(ZoneInfo(shop.zone)).date()
        rules = rules_on(shop, today)
        if rules is not None:
            thrown += _purge_shop(shop, Rules.from_json(rules.rules), today)
    return thrown


def _purge_shop(shop: Shop, rules: Rules, today: date) -> int:
    thrown = 0
    for purge, period in _purges:
        if (months := period(rules)) is not None:
            day = months_before(today, months)
            thrown += purge(shop, datetime(day.year, day.month, day.day, tzinfo=ZoneInfo(shop.zone)))
    return thrown


def months_before(day: date, months: int) -> date:
    """The same day so many months earlier; the last day of a month that is too short."""
    year, month = divmod(day.year * 12 + day.month - 1 - months, 12)
    if year < 1:
        return date.min
    following = date(year + month // 11, (month + 1) % 12 + 1, 1)
    return date(year, month + 1, min(day.day, (following - date.resolution).day))

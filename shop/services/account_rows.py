"""Rules that payments and returned cores share: their amount, their day, the opposite row and how they are saved."""

from datetime import date, datetime
from decimal import Decimal
from typing import TypeVar
from uuid import UUID
from zoneinfo import ZoneInfo

from shop.access import Actor
from shop.calc.money import rounded
from shop.errors import RequestError, field_error
from shop.models import CoreReturn, Job, Payment
from shop.services import feed, history
from shop.services.jobs import check_day

Row = TypeVar("Row", Payment, CoreReturn)


def lock_job(actor: Actor, job: UUID) -> Job:
    return Job.objects.select_for_update().get(shop=actor.shop, pk=job)


def check_amount(actor: Actor, amount: Decimal) -> None:
    """Refuses an amount of zero, and one finer than the currency."""
    if amount <= 0:
        raise field_error("/amount", "payment_amount")
    if rounded(amount, actor.shop.exponent) != amount:
        raise field_error("/amount", "currency_decimals", n=actor.shop.exponent)


def check_day_has_come(actor: Actor, day: date, now: datetime, *, pointer: str, refusal: str) -> None:
    """Refuses a day in the future in the shop's zone, and one that is too early for any job."""
    today = now.astimezone(ZoneInfo(actor.shop.zone)).date()
    if day > today:
        raise field_error(pointer, refusal)
    check_day(day, today, pointer)


def check_reversal(*, reversed_before: bool, reason: str) -> None:
    """Refuses a second reversal, the reversal of an opposite row, and one without a reason."""
    if reversed_before:
        raise RequestError(409, "payment-reversed")
    if not reason.strip():
        raise field_error("/reason", "payment_reason")


def save_row(*, actor: Actor, row: Row, verb: str) -> Row:
    row.clean_fields()
    row.save(force_insert=True)
    history.record(actor=actor, verb=verb, row=row)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return row

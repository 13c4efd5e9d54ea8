"""Core deposits returned to a customer: the old part came back. No row is erased, a mistake gets an opposite row."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from django.db import transaction

from shop.access import Actor
from shop.calc.money import rounded
from shop.errors import RequestError, field_error
from shop.models import CoreReturn, Job
from shop.services import feed, history
from shop.services.jobs import check_day


@dataclass(frozen=True, slots=True)
class CoreFacts:
    """What a person says of a returned core: the old part, the amount with tax, and the day."""

    title: str
    amount: Decimal
    returned_on: date


@transaction.atomic
def record_core(*, actor: Actor, job: Job, facts: CoreFacts, now: datetime) -> CoreReturn:
    """Records a returned core. Refused: no amount, one finer than the currency, a day to come."""
    row = Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk)
    if facts.amount <= 0:
        raise field_error("/amount", "payment_amount")
    if rounded(facts.amount, actor.shop.exponent) != facts.amount:
        raise field_error("/amount", "currency_decimals", n=actor.shop.exponent)
    today = now.astimezone(ZoneInfo(actor.shop.zone)).date()
    if facts.returned_on > today:
        raise field_error("/returned_on", "core_day_to_come")
    check_day(facts.returned_on, today, "/returned_on")
    core = CoreReturn(
        shop=row.shop,
        job=row,
        title=facts.title.strip(),
        amount=facts.amount,
        returned_on=facts.returned_on,
        recorded_at=now,
        recorded_by=actor.member,
    )
    return _saved(actor, core, "recorded")


@transaction.atomic
def reverse_core(*, actor: Actor, core: CoreReturn, reason: str, now: datetime) -> CoreReturn:
    """Writes the opposite row of a core that was recorded by mistake, once."""
    row = Job.objects.select_for_update().get(shop=actor.shop, pk=core.job_id)
    reversals = CoreReturn.objects.filter(shop=actor.shop, reversed_core=core)
    if core.reversed_core_id is not None or reversals.exists():
        raise RequestError(409, "payment-reversed")
    if not reason.strip():
        raise field_error("/reason", "payment_reason")
    opposite = CoreReturn(
        shop=row.shop,
        job=row,
        title=core.title,
        amount=-core.amount,
        returned_on=core.returned_on,
        reason=reason.strip(),
        reversed_core=core,
        recorded_at=now,
        recorded_by=actor.member,
    )
    return _saved(actor, opposite, "reversed")


def _saved(actor: Actor, core: CoreReturn, verb: str) -> CoreReturn:
    core.clean_fields()
    core.save(force_insert=True)
    history.record(actor=actor, verb=verb, row=core)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return core

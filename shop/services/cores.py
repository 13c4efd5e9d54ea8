"""Core deposits paid back because the old part came back. No row is deleted: a mistake gets an opposite row."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.db import transaction

from shop.access import Actor
from shop.models import CoreReturn, Job
from shop.services.account_rows import check_amount, check_day_has_come, check_reversal, lock_job, save_row


@dataclass(frozen=True, slots=True)
class CoreFacts:
    """A person's entry of a returned core: the old part, the amount with tax, and the day."""

    title: str
    amount: Decimal
    returned_on: date


@transaction.atomic
def record_core(*, actor: Actor, job: Job, facts: CoreFacts, now: datetime) -> CoreReturn:
    """Records a returned core. Refused: an amount of zero, one finer than the currency, a day in the future."""
    row = lock_job(actor, job.pk)
    check_amount(actor, facts.amount)
    check_day_has_come(actor, facts.returned_on, now, pointer="/returned_on", refusal="core_day_to_come")
    core = CoreReturn(
        shop=row.shop,
        job=row,
        title=facts.title.strip(),
        amount=facts.amount,
        returned_on=facts.returned_on,
        recorded_at=now,
        recorded_by=actor.member,
    )
    return save_row(actor=actor, row=core, verb="recorded")


@transaction.atomic
def reverse_core(*, actor: Actor, core: CoreReturn, reason: str, now: datetime) -> CoreReturn:
    """Writes the opposite row of a core that was recorded by mistake, once."""
    row = lock_job(actor, core.job_id)
    reversals = CoreReturn.objects.filter(shop=actor.shop, reversed_core=core)
    check_reversal(reversed_before=core.reversed_core_id is not None or reversals.exists(), reason=reason)
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
    return save_row(actor=actor, row=opposite, verb="reversed")

"""Money received for a job. No row is deleted: a mistake is reversed by an opposite row with a reason."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal

from django.db import transaction

from shop.access import Actor
from shop.errors import field_error
from shop.models import Job, Payment
from shop.queries.payments import received
from shop.services.account_rows import check_amount, check_day_has_come, check_reversal, lock_job, save_row
from shop.services.webhooks import Event, announce


@dataclass(frozen=True, slots=True)
class PaymentFacts:
    """A person's entry of a payment. `back`: the workshop pays the amount back, for `reason`."""

    amount: Decimal
    received_on: date
    means: str
    reference: str = ""
    back: bool = False
    reason: str = ""


@transaction.atomic
def record_payment(*, actor: Actor, job: Job, facts: PaymentFacts, now: datetime) -> Payment:
    """Records a payment under the job's lock.

    Refused: an amount of zero, one finer than the currency, a day in the future, more paid back than was received,
    money paid back without a reason.
    """
    row = lock_job(actor, job.pk)
    check_amount(actor, facts.amount)
    check_day_has_come(actor, facts.received_on, now, pointer="/received_on", refusal="payment_day_to_come")
    if facts.back and not facts.reason.strip():
        raise field_error("/reason", "payment_reason")
    if facts.back and facts.amount > received(row):
        raise field_error("/amount", "payment_back_too_much")
    payment = Payment(
        shop=row.shop,
        job=row,
        amount=-facts.amount if facts.back else facts.amount,
        received_on=facts.received_on,
        means=facts.means,
        reference=facts.reference.strip(),
        reason=facts.reason.strip() if facts.back else "",
        recorded_at=now,
        recorded_by=actor.member,
    )
    _announce(actor, row, payment, "recorded")
    return save_row(actor=actor, row=payment, verb="recorded")


@transaction.atomic
def reverse_payment(*, actor: Actor, payment: Payment, reason: str, now: datetime) -> Payment:
    """Writes the opposite row of a payment that was recorded by mistake. Refused for a row reversed before."""
    row = lock_job(actor, payment.job_id)
    reversals = Payment.objects.filter(shop=actor.shop, reversed_payment=payment)
    check_reversal(reversed_before=payment.reversed_payment_id is not None or reversals.exists(), reason=reason)
    opposite = Payment(
        shop=row.shop,
        job=row,
        amount=-payment.amount,
        received_on=payment.received_on,
        means=payment.means,
        reference=payment.reference,
        reason=reason.strip(),
        reversed_payment=payment,
        recorded_at=now,
        recorded_by=actor.member,
    )
    _announce(actor, row, opposite, "reversed")
    return save_row(actor=actor, row=opposite, verb="reversed")


def _announce(actor: Actor, job: Job, payment: Payment, state: str) -> None:
    data = {"payment": str(payment.pk), "job": str(job.pk), "number": str(job), "state": state}
    announce(actor=actor, event=Event.PAYMENT, data=data)

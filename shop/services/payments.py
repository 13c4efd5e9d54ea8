"""Money received for a job. No row is erased: a mistake is reversed by an opposite row with a reason."""

from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from django.db import transaction

from shop.access import Actor
from shop.calc.money import rounded
from shop.errors import RequestError, field_error
from shop.models import Job, Payment
from shop.queries.payments import received
from shop.services import feed, history
from shop.services.jobs import check_day


@dataclass(frozen=True, slots=True)
class PaymentFacts:
    """What a person says of a payment. `back`: the workshop pays the amount back, for `reason`."""

    amount: Decimal
    received_on: date
    means: str
    reference: str = ""
    back: bool = False
    reason: str = ""


@transaction.atomic
def record_payment(*, actor: Actor, job: Job, facts: PaymentFacts, now: datetime) -> Payment:
    """Records a payment under the job's lock. Refused: no amount, one finer than the currency, a day to come,
    more paid back than was received, money paid back without a reason."""
    row = Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk)
    if facts.amount <= 0:
        raise field_error("/amount", "payment_amount")
    if rounded(facts.amount, actor.shop.exponent) != facts.amount:
        raise field_error("/amount", "currency_decimals", n=actor.shop.exponent)
    today = now.astimezone(ZoneInfo(actor.shop.zone)).date()
    if facts.received_on > today:
        raise field_error("/received_on", "payment_day_to_come")
    check_day(facts.received_on, today, "/received_on")
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
    return _saved(actor, payment, "recorded")


@transaction.atomic
def reverse_payment(*, actor: Actor, payment: Payment, reason: str, now: datetime) -> Payment:
    """Writes the opposite row of a payment that was recorded by mistake. Refused for a row reversed before."""
    row = Job.objects.select_for_update().get(shop=actor.shop, pk=payment.job_id)
    reversals = Payment.objects.filter(shop=actor.shop, reversed_payment=payment)
    if payment.reversed_payment_id is not None or reversals.exists():
        raise RequestError(409, "payment-reversed")
    if not reason.strip():
        raise field_error("/reason", "payment_reason")
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
    return _saved(actor, opposite, "reversed")


def _saved(actor: Actor, payment: Payment, verb: str) -> Payment:
    payment.clean_fields()
    payment.save(force_insert=True)
    history.record(actor=actor, verb=verb, row=payment)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return payment

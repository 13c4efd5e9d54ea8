"""The payments of a job."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from django.db.models import Sum

from shop.models import Job, Payment

NOTHING = Decimal(0)


def received(job: Job) -> Decimal:
    """The sum of the job's payments."""
    total = Payment.objects.filter(shop=job.shop_id, job=job).aggregate(total=Sum("amount"))["total"]
    return NOTHING if total is None else total


def payment_days(job: Job) -> Sequence[tuple[date, Decimal]]:
    """(day on which it was received, amount) of each payment of the job."""
    return list(Payment.objects.filter(shop=job.shop_id, job=job).values_list("received_on", "amount"))

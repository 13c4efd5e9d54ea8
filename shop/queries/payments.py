"""The payments of a job."""

from decimal import Decimal

from django.db.models import Sum

from shop.models import Job, Payment

NOTHING = Decimal(0)


def received(job: Job) -> Decimal:
    """The sum of the job's payments."""
    total = Payment.objects.filter(shop=job.shop_id, job=job).aggregate(total=Sum("amount"))["total"]
    return NOTHING if total is None else total

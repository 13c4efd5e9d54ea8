"""The steps of a job."""

from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from shop.models import JobOperation, Shop


def standing_steps(shop: Shop | UUID, job: Any) -> QuerySet[JobOperation]:
    """The job's steps that no agreement has cancelled, in order. `job` is a job or its id."""
    rows = JobOperation.objects.filter(shop=shop, job=job, cancellation__isnull=True)
    return rows.order_by("position")

"""The steps of a job."""

from typing import Any
from uuid import UUID

from django.db.models import Prefetch, QuerySet

from shop.models import JobOperation, Shop, StepCaution, StepValue


def standing_steps(shop: Shop | UUID, job: Any) -> QuerySet[JobOperation]:
    """The job's steps that no agreement has cancelled, in order. `job` is a job or its id."""
    rows = JobOperation.objects.filter(shop=shop, job=job, cancellation__isnull=True)
    return rows.order_by("position")


def steps_to_work_from(shop: Shop | UUID, job: Any) -> QuerySet[JobOperation]:
    """The standing steps with their cautions and required values in order, and the person who did each."""
    in_order = (
        Prefetch("cautions", StepCaution.objects.order_by("position")),
        Prefetch("required_values", StepValue.objects.order_by("position")),
    )
    return standing_steps(shop, job).select_related("done_by__user").prefetch_related(*in_order)

"""The steps of a job."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django.db.models import Prefetch, QuerySet

from shop.calc.placing import AgreedStep, place_steps
from shop.models import JobOperation, Shop, StepCaution, StepValue


def standing_steps(shop: Shop | UUID, job: Any) -> QuerySet[JobOperation]:
    """The job's steps that no agreement has cancelled, as they were agreed. `job` is a job or its id."""
    rows = JobOperation.objects.filter(shop=shop, job=job, cancellation__isnull=True)
    return rows.order_by("position")


def steps_in_order(rows: QuerySet[JobOperation]) -> list[JobOperation]:
    """The standing steps of a job in the order of the work: what was added later stands in its place."""
    steps = list(rows.select_related("origin"))
    by_code = {step.code: step for step in steps}
    return [by_code[code] for code in place_steps([agreed_step(step) for step in steps])]


def agreed_step(row: JobOperation) -> AgreedStep:
    """The step as its place depends on it. Select `origin` with the row."""
    sheet: Mapping[str, Any] = row.sheet
    return AgreedStep(
        row.code,
        stage=sheet.get("stage", ""),
        after=tuple(sheet.get("after", ())),
        before=tuple(sheet.get("before", ())),
        agreement=row.origin.number,
        agreed_at=row.origin.agreed_at,
        begun_at=row.started_at or row.done_at,
    )


def steps_to_work_from(shop: Shop | UUID, job: Any) -> list[JobOperation]:
    """The steps in order with their cautions and required values in order, and the person who did each."""
    in_order = (
        Prefetch("cautions", StepCaution.objects.order_by("position")),
        Prefetch("required_values", StepValue.objects.order_by("position")),
    )
    return steps_in_order(standing_steps(shop, job).select_related("done_by__user").prefetch_related(*in_order))

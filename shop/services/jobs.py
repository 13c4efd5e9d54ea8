"""Jobs: opened by an accepted quote, with a copy of the work as it was sold."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db import transaction
from django.db.models import Max, QuerySet

from shop.access import Actor
from shop.calc.placing import JoiningStep, joining_steps
from shop.calc.sheet import SheetStep
from shop.errors import RequestError, field_error
from shop.models import (
    Agreement,
    Customer,
    Job,
    JobOperation,
    OperationCaution,
    OperationValue,
    Shop,
    StepCaution,
    StepValue,
    Vehicle,
)
from shop.services import feed, history

YEARS = 5  # a day further ahead is a typing error


@dataclass(frozen=True, slots=True)
class SoldOperation:
    """A sold operation. `sheet` is for the technician: after, stage, waits, and how its hours were worked out.

    It holds no price. Cautions and required values come from `operation`.
    """

    code: str
    title: str
    hours: Decimal
    sheet: dict[str, Any] = field(default_factory=dict)
    operation: UUID | None = None


@transaction.atomic
def open_job(
    *,
    actor: Actor,
    customer: Customer,
    vehicle: Vehicle,
    operations: Sequence[SoldOperation],
    now: datetime,
    here: bool = False,
    here_from: date | None = None,
    promised_on: date | None = None,
    not_before: date | None = None,
) -> Agreement:
    """Opens a job and returns its first agreement. `promised_on`: the day promised to the customer.

    `not_before`: nothing is ordered or begun before that day, for the customer may still withdraw.
    """
    shop = Shop.objects.select_for_update().get(pk=actor.shop.pk)
    job = Job(
        shop=shop,
        number=shop.next_job,
        customer=customer,
        vehicle=vehicle,
        opened_at=now,
        here=here,
        here_from=here_from,
        promised_on=promised_on,
        not_before=not_before,
    )
    shop.next_job += 1
    shop.save(update_fields=["next_job"])
    job.clean_fields()
    job.save(force_insert=True)
    agreement = Agreement.objects.create(shop=shop, job=job, number=1, agreed_at=now)
    _add_steps(agreement, operations, 1)
    history.record(actor=actor, verb="opened", row=job)
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return agreement


@transaction.atomic
def change_steps(
    *,
    actor: Actor,
    job: Job,
    added: Sequence[SoldOperation],
    cancelled: Sequence[UUID],
    now: datetime,
    not_before: date | None = None,
) -> Agreement:
    """Records a further agreement on the job, with the steps that it adds and those that it cancels.

    Call it under the job's lock. What joins the job and under which code: `joining_steps`. Work that has begun is not
    cancelled. `not_before`: nothing that it adds is ordered or begun before that day.
    """
    agreements = Agreement.objects.filter(shop=job.shop_id, job=job)
    number = (agreements.aggregate(last=Max("number"))["last"] or 0) + 1
    agreement = Agreement.objects.create(shop=job.shop, job=job, number=number, agreed_at=now, not_before=not_before)
    steps = JobOperation.objects.filter(shop=job.shop_id, job=job)
    steps.filter(pk__in=cancelled, cancellation=None, state=JobOperation.State.OPEN).update(cancellation=agreement)
    last = steps.aggregate(last=Max("position"))["last"] or 0
    _add_steps(agreement, _joining(added, steps), last + 1)
    job.version += 1
    job.save(update_fields=["version"])
    history.record(actor=actor, verb="changed by agreement", row=job, changes={"agreement": ["", number]})
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return agreement


def _joining(added: Sequence[SoldOperation], steps: QuerySet[JobOperation]) -> list[SoldOperation]:
    """The operations that join the job's steps, each with its code, predecessors and followers there."""
    rows = list(steps.values_list("code", "cancellation"))
    sheet = [SheetStep(sold.code, tuple(sold.sheet.get("after", ())), hours=sold.hours) for sold in added]
    joining = joining_steps(sheet, {code for code, gone in rows if gone is None}, {code for code, _ in rows})
    codes, operations = {step.sold: step.code for step in joining}, {sold.code: sold for sold in added}
    return [_joined(operations[step.sold], step, codes) for step in joining]


def _joined(sold: SoldOperation, step: JoiningStep, codes: Mapping[str, str]) -> SoldOperation:
    sheet = {**sold.sheet, "after": [*step.after], "before": [*step.before]}
    if step.code != step.sold:
        sheet["sold"] = step.sold
    if "outside" in sheet:
        ends = ("starts_after", "needed_by")
        sheet["outside"] = [work | {end: codes.get(work[end], work[end]) for end in ends} for work in sheet["outside"]]
    return replace(sold, code=step.code, sheet=sheet)


def _add_steps(agreement: Agreement, operations: Sequence[SoldOperation], first: int) -> None:
    shop = agreement.shop
    steps = JobOperation.objects.bulk_create(
        JobOperation(
            shop=shop,
            job_id=agreement.job_id,
            position=position,
            code=operation.code,
            title=operation.title,
            quoted_hours=operation.hours,
            sheet=operation.sheet,
            origin=agreement,
            operation_id=operation.operation,
        )
        for position, operation in enumerate(operations, start=first)
    )
    _copy_cautions(shop, steps)


def _copy_cautions(shop: Shop, steps: Sequence[JobOperation]) -> None:
    """Copies the cautions and required values of the steps' operations as they stand today."""
    operations = {step.operation_id for step in steps}
    cautions: dict[UUID | None, list[OperationCaution]] = defaultdict(list)
    values: dict[UUID | None, list[OperationValue]] = defaultdict(list)
    for caution in OperationCaution.objects.filter(shop=shop, operation__in=operations):
        cautions[caution.operation_id].append(caution)
    for value in OperationValue.objects.filter(shop=shop, operation__in=operations):
        values[value.operation_id].append(value)
    StepCaution.objects.bulk_create(
        StepCaution(shop=shop, step=step, position=caution.position, text=caution.text)
        for step in steps
        for caution in cautions[step.operation_id]
    )
    StepValue.objects.bulk_create(
        StepValue(
            shop=shop,
            step=step,
            position=value.position,
            kind=value.kind,
            fastener=value.fastener,
            value=value.value,
        )
        for step in steps
        for value in values[step.operation_id]
    )


@transaction.atomic
def change_job(*, actor: Actor, job: Job, seen: int, changes: Mapping[str, Any], today: date) -> Job:
    """Sets `here` or `here_from`: the vehicle is here, it comes on a day, or neither is known.

    Refused if the row has changed since version `seen`.
    """
    changes = here_or_day(changes)
    if day := changes.get("here_from"):
        check_day(day, today, "/here_from")
    row = Job.objects.select_for_update().get(pk=job.pk)
    if row.version != seen:
        raise RequestError(412, "changed-meanwhile")
    before = {name: getattr(row, name) for name in changes}
    moved = {
        name: [_as_json(before[name]), _as_json(value)] for name, value in changes.items() if value != before[name]
    }
    for name, value in changes.items():
        setattr(row, name, value)
    row.version += 1
    row.clean_fields()
    row.save(update_fields=[*changes, "version"])
    history.record(actor=actor, verb="changed", row=row, changes=moved)
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return row


def _as_json(value: Any) -> Any:
    """The value as history stores it."""
    return value.isoformat() if isinstance(value, date) else value


def here_or_day(changes: Mapping[str, Any]) -> Mapping[str, Any]:
    """The changes, completed: setting `here` clears `here_from`, and the other way round."""
    if changes.get("here") and changes.get("here_from"):
        raise field_error("/here_from", "here_or_day")
    if changes.get("here"):
        return {**changes, "here_from": None}
    return {**changes, "here": False} if changes.get("here_from") else changes


def check_day(day: date, today: date, pointer: str) -> None:
    if abs(day - today) > timedelta(days=YEARS * 366):
        raise field_error(pointer, "day_far", years=YEARS)

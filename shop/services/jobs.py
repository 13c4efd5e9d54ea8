"""Jobs: opened by an accepted quote, with a copy of the work as it was sold."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import Any

from django.db import transaction

from shop.access import Actor
from shop.models import Customer, Job, JobOperation, Shop, Vehicle
from shop.problems import Problem, field_problem
from shop.services import feed, history

YEARS = 5  # a day further off is a slip of the finger


@dataclass(frozen=True, slots=True)
class SoldOperation:
    """`sheet` is what the technician will need of it: after, stage, waits, cautions, torque values, and how its hours
    came about. No price may stand in it."""

    code: str
    title: str
    hours: Decimal
    sheet: dict[str, Any] = field(default_factory=dict)


@transaction.atomic
def open_job(
    *,
    who: Actor,
    customer: Customer,
    vehicle: Vehicle,
    operations: Sequence[SoldOperation],
    now: datetime,
    here_from: date | None = None,
) -> Job:
    shop = Shop.objects.select_for_update().get(pk=who.shop.pk)
    job = Job(shop=shop, number=shop.next_job, customer=customer, vehicle=vehicle, opened_at=now, here_from=here_from)
    shop.next_job += 1
    shop.save(update_fields=["next_job"])
    job.clean_fields()
    job.save(force_insert=True)
    JobOperation.objects.bulk_create(
        JobOperation(
            shop=shop,
            job=job,
            position=position,
            code=each.code,
            title=each.title,
            quoted_hours=each.hours,
            sheet=each.sheet,
        )
        for position, each in enumerate(operations, start=1)
    )
    history.record(who=who, verb="opened", row=job)
    feed.record(who=who, kind=feed.Kind.JOBS)
    return job


@transaction.atomic
def change_job(*, who: Actor, job: Job, seen: int, here_from: date | None, today: date) -> Job:
    """Say from which day the vehicle is here (None: it is here, or nobody has said); one version on.

    Refused when it moved on since version `seen`.
    """
    if here_from is not None:
        check_day(here_from, today, "/here_from")
    row = Job.objects.select_for_update().get(pk=job.pk)
    if row.version != seen:
        raise Problem(412, "changed-meanwhile")
    before, row.here_from = row.here_from, here_from
    row.version += 1
    row.clean_fields()
    row.save(update_fields=["here_from", "version"])
    was, will = (each.isoformat() if each else None for each in (before, here_from))
    history.record(who=who, verb="changed", row=row, changes={"here_from": [was, will]})
    feed.record(who=who, kind=feed.Kind.JOBS)
    return row


def check_day(day: date, today: date, pointer: str) -> None:
    if abs(day - today) > timedelta(days=YEARS * 366):
        raise field_problem(pointer, "day_far", years=YEARS)

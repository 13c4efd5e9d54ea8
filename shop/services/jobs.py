"""Jobs: opened by an accepted quote, with a copy of the work as it was sold."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.db import transaction

from shop.access import Actor
from shop.models import Customer, Job, JobOperation, Shop, Vehicle
from shop.services import history


@dataclass(frozen=True, slots=True)
class SoldOperation:
    """`sheet` is what the technician will need of it: after, stage, waits, cautions, torque values."""

    code: str
    title: str
    hours: Decimal
    sheet: dict[str, Any] = field(default_factory=dict)


@transaction.atomic
def open_job(
    *, who: Actor, customer: Customer, vehicle: Vehicle, operations: Sequence[SoldOperation], now: datetime
) -> Job:
    shop = Shop.objects.select_for_update().get(pk=who.shop.pk)
    job = Job(shop=shop, number=shop.next_job, customer=customer, vehicle=vehicle, opened_at=now)
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
    return job

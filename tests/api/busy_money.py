"""Adds payments, old parts that came back and closing accounts to the jobs of a busy workshop."""

import uuid
from datetime import timedelta
from decimal import Decimal

from django.utils import timezone

from quotes.models import ClosingAccount
from shop.models import CoreReturn, Job, Payment, StoredFile
from tests.bulk import insert
from tests.quotes.stage import Stage


def grow_money(stage: Stage, jobs: list[Job]) -> None:
    """Jobs of years ago, each paid and closed, with an old part that came back afterwards."""
    shop, member, now = stage.cast.shop, stage.cast.advisor, timezone.now()
    closed, sum_paid = now - timedelta(days=900), Decimal(1)
    mark = uuid.uuid4().hex * 2
    file = {"sha256": mark, "size": 1, "media_type": "application/pdf", "path": mark, "stored_at": closed}
    paper = insert(StoredFile, [StoredFile(shop=shop, **file)])
    recording = {"shop": shop, "recorded_by": member, "recorded_at": closed + timedelta(days=1)}
    day = closed.date()
    insert(Payment, (Payment(job=job, amount=sum_paid, received_on=day, means="card", **recording) for job in jobs))
    insert(CoreReturn, (CoreReturn(job=job, title="x", amount=sum_paid, returned_on=day, **recording) for job in jobs))
    insert(
        ClosingAccount,
        (
            ClosingAccount(
                shop=shop,
                job=job,
                closed_at=closed,
                closed_by=member,
                total=sum_paid,
                tax=Decimal(0),
                received=sum_paid,
                due=Decimal(0),
                snapshot="{}",
                digest="0" * 64,
                paper=paper[0],
            )
            for job in jobs
        ),
    )

"""Core deposits of accepted quotes whose old parts have not come back."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef, Sum

from quotes.calc.agreed import agreed_items
from quotes.calc.frozen import total_alone
from quotes.models import ClosingAccount, Decision, Line, Revision
from quotes.queries import frozen
from quotes.queries.owed import LOOKED_BACK, MOST
from shop.models import CoreReturn, Job, Shop

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class CoreOwed:
    """The old parts that a job still waits for: their deposits with tax less what was paid back, since `agreed_at`."""

    job: Job
    titles: tuple[str, ...]
    amount: Decimal
    agreed_at: datetime


def cores_owed(shop: Shop, now: datetime) -> list[CoreOwed]:
    """The jobs with core deposits to be paid back, the longest open first. A closed or called-off job has none.

    Four queries at most, whatever the number of jobs.
    """
    decisions = list(_decisions_with_cores(shop, now))
    jobs = {decision.quote.job_id for decision in decisions}
    if not jobs:
        return []
    rows = CoreReturn.objects.filter(shop=shop, job__in=jobs).order_by().values_list("job")
    returned = dict(rows.annotate(sum=Sum("amount")))
    owed = (_owed(agreed, returned) for agreed in _by_job(decisions).values())
    return sorted((core for core in owed if core.amount > 0), key=lambda core: (core.agreed_at, core.job.number))


def _decisions_with_cores(shop: Shop, now: datetime) -> Any:
    """The acceptances of quotes with a core deposit and of all changes to their jobs, oldest first."""
    cores = Line.objects.filter(shop=shop, core=True, revision__state=Revision.State.ACCEPTED).order_by("-id")
    revisions = set(cores.values_list("revision", flat=True)[:MOST])  # by itself it reads only the newest of an index
    if not revisions:
        return []
    closed = ClosingAccount.objects.filter(shop=OuterRef("shop"), job=OuterRef("quote__job"))
    accepted = Decision.objects.filter(~Exists(closed), shop=shop, answer=Decision.Answer.ACCEPTED)
    jobs = accepted.filter(
        revision__in=revisions, answered_at__gte=now - LOOKED_BACK, quote__job__isnull=False
    ).exclude(quote__job__state=Job.State.CALLED_OFF)
    rows = accepted.filter(quote__job__in=jobs.values("quote__job"))
    return rows.select_related("quote__job__customer", "revision").order_by("answered_at", "id")


def _by_job(decisions: Iterable[Decision]) -> Mapping[UUID, list[Decision]]:
    jobs: dict[UUID, list[Decision]] = {}
    for decision in decisions:
        assert decision.quote.job_id is not None
        jobs.setdefault(decision.quote.job_id, []).append(decision)
    return jobs


def _owed(decisions: list[Decision], returned: Mapping[UUID, Decimal]) -> CoreOwed:
    documents = [(decision, frozen.read(decision.revision)) for decision in decisions]
    taken = {
        (line["source"], line["item"]) for _, document in documents for line in document["shown"].get("taken") or ()
    }
    cores = [
        (decision, item.title, total_alone(document["inputs"], item.tax_class, item.price).gross)
        for decision, document in documents
        for item in agreed_items(document)
        if item.core and (str(decision.revision_id), item.key) not in taken
    ]
    job = decisions[0].quote.job
    assert job is not None
    return CoreOwed(
        job=job,
        titles=tuple(title for _, title, _ in cores),
        amount=sum((amount for _, _, amount in cores), NOTHING) - returned.get(job.pk, NOTHING),
        agreed_at=min((decision.answered_at for decision, _, _ in cores), default=decisions[0].answered_at),
    )

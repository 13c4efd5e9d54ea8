"""Reads the closing account of a job, and the open changes that keep it from being closed."""

from django.db.models import Exists, OuterRef

from quotes.models import ClosingAccount, Quote, Revision
from shop.models import Job

OPEN = (Revision.State.DRAFT, Revision.State.SENT)


def closing_of(job: Job) -> ClosingAccount | None:
    """The closing account of a job; None while it is open."""
    return ClosingAccount.objects.filter(shop=job.shop_id, job=job).select_related("closed_by__user", "paper").first()


def open_changes(job: Job) -> list[Quote]:
    """The changes of a job that are drafts or wait for the customer's answer."""
    open_revisions = Revision.objects.filter(shop=job.shop_id, quote=OuterRef("pk"), state__in=OPEN)
    rows = Quote.objects.filter(Exists(open_revisions), shop=job.shop_id, job=job, additional=True, discarded_at=None)
    return sorted(rows, key=lambda change: change.number or 0)  # the database would read every quote to sort

"""The answers of customers: the newest one to a quote, and the acceptances of a job."""

from uuid import UUID

from django.db.models import QuerySet

from quotes.models import Decision, Link, Revision
from shop.compiled import compiled


def acceptances_of(shop: UUID, job: UUID) -> QuerySet[Decision]:
    """The acceptance of the quote that opened the job, and those of its changes."""
    return Decision.objects.filter(shop=shop, quote__job=job, quote__shop=shop, answer=Decision.Answer.ACCEPTED)


def decision_of(link: Link) -> Decision | None:
    """The newest answer to the quote of a link."""
    return _decision_of.first(link.shop_id, link.quote_id)


@compiled
def _decision_of(shop: UUID, quote: UUID) -> QuerySet[Decision]:
    rows = Decision.objects.filter(shop=shop, quote=quote).select_related("revision")
    return rows.order_by("-answered_at")[:1]


def revision_seen(link: Link, digest: str) -> Revision | None:
    """The version whose frozen text has this digest; None without a digest."""
    rows = Revision.objects.filter(shop=link.shop_id, quote=link.quote_id, digest=digest)
    return rows.first() if digest else None

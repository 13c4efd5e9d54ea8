"""Changes to an open job: begun at the counter, each a small quote of its own that may add and take away."""

from collections.abc import Sequence

from django.db import transaction
from django.utils import timezone

from quotes.models import Quote, Revision, TakenOff
from quotes.queries.changes import AgreedJob, TakenKey, agreed_job
from quotes.queries.closing import closing_of
from quotes.services.drafts import changed_draft, keep_total, new_draft, number_quote, open_draft
from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Job
from shop.models.jobs import ENDED
from shop.services import feed, history


@transaction.atomic
def start_change(*, actor: Actor, job: Job) -> Revision:
    """Adds the draft of a change to the job, priced by the rules of its quote. 409 once it has ended or was closed."""
    assert actor.member is not None
    list(Quote.objects.select_for_update().filter(shop=actor.shop, job=job).order_by("pk"))
    job = (
        Job.objects.select_for_update(of=("self",))
        .select_related("customer", "vehicle")
        .get(shop=actor.shop, pk=job.pk)
    )
    if job.state in ENDED:
        raise RequestError(409, "job-has-ended")
    if closing_of(job) is not None:
        raise RequestError(409, "job-closed")
    agreed = agreed_job(job, actor.shop)
    if not agreed.quotes:
        raise RequestError(409, "nothing-agreed")
    first = agreed.quotes[0].revision
    quote = Quote(
        shop=actor.shop,
        customer=job.customer,
        vehicle=job.vehicle,
        job=job,
        additional=True,
        advisor=actor.member,
        created_at=timezone.now(),
    )
    quote.clean_fields()
    quote.save(force_insert=True)
    revision = new_draft(actor, quote, first.rules, number=1, condition=first.condition)
    keep_total(revision)
    history.record(actor=actor, verb="change started", row=quote, changes={"job": ["", str(job)]})
    feed.record(actor=actor, kind=feed.Kind.DRAFTS)
    return revision


@transaction.atomic
def take_off(*, actor: Actor, quote: Quote, seen: int, chosen: Sequence[TakenKey]) -> Revision:
    """Sets what the change takes off its job, in place of what it took off before.

    Refused for anything that is not, or is no longer, agreed on the job.
    """
    revision = open_draft(quote=quote, seen=seen)
    if not revision.quote.additional:
        raise RequestError(409, "not-a-change")
    agreed = agreed_job(revision.quote.job_id, actor.shop)
    _check(agreed, chosen)
    rows = TakenOff.objects.filter(shop=revision.shop, revision=revision)
    before = [row.item for row in rows]
    rows.delete()
    TakenOff.objects.bulk_create(
        TakenOff(shop=revision.shop, revision=revision, source_id=source, item=item)
        for source, item in dict.fromkeys(chosen)
    )
    if chosen:
        number_quote(revision.quote)
    changes = {"taken off": [", ".join(before), ", ".join(item for _, item in chosen)]}
    return changed_draft(actor, revision, "taken off", changes)


def _check(agreed: AgreedJob, chosen: Sequence[TakenKey]) -> None:
    standing = {(str(quote.revision.pk), item.key) for quote in agreed.quotes for item in agreed.standing(quote)}
    if not standing.issuperset(chosen):
        raise field_error("/items", "not_agreed")

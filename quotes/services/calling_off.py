"""Calls off a job with its reason: open changes are withdrawn, its list is closed, its kits go to the shelf."""

from datetime import datetime
from zoneinfo import ZoneInfo

from django.db import transaction

from kitting.models import KitCopy, PullList
from kitting.services.copies import put_on_shelf
from quotes.models import Quote, Revision
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Job
from shop.models.jobs import ENDED
from shop.services import feed, history
from shop.services.webhooks import announce_job


@transaction.atomic
def call_off(*, actor: Actor, job: Job, because: str, now: datetime) -> Job:
    """Ends the job. The copies of its kits keep their lines and counts. 409 once the job has ended."""
    quotes = Quote.objects.select_for_update().filter(shop=actor.shop, job=job).order_by("pk")
    ids = list(quotes.values_list("pk", flat=True))
    row = Job.objects.select_for_update().get(pk=job.pk)
    if row.state in ENDED:
        raise RequestError(409, "job-has-ended")
    before = str(row.state)
    row.state, row.called_off_reason = Job.State.CALLED_OFF, because
    row.called_off_on = now.astimezone(ZoneInfo(actor.shop.zone)).date()
    row.version += 1
    row.clean_fields_as(called_off_reason="because")
    row.save(update_fields=["state", "called_off_reason", "called_off_on", "version"])
    sent = Revision.objects.filter(shop=actor.shop, quote__in=ids, state=Revision.State.SENT)
    sent.update(state=Revision.State.WITHDRAWN)
    lists = PullList.objects.filter(shop=actor.shop, job=row, state=PullList.State.OPEN)
    lists.update(state=PullList.State.CLOSED, closed_at=now, closed_by=actor.member)
    put_on_shelf(actor=actor, copies=list(KitCopy.objects.filter(shop=actor.shop, job=row).order_by("pk")))
    history.record(
        actor=actor, verb="called off", row=row, changes={"state": [before, "called_off"], "reason": ["", because]}
    )
    announce_job(actor=actor, job=row)
    for kind in (feed.Kind.JOBS, feed.Kind.PULL_LISTS, feed.Kind.QUOTES):
        feed.record(actor=actor, kind=kind)
    return row

"""Corrects the hours that a called-off job owes for a step: those that were really worked on it."""

from datetime import datetime
from decimal import Decimal

from django.db import transaction

from quotes.models import WorkedHours
from quotes.queries.called_off import agreed_labour
from quotes.queries.closing import closing_of
from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Job, JobOperation
from shop.services import feed, history
from shop.words.figures import tenths


@transaction.atomic
def correct_hours(*, actor: Actor, step: JobOperation, hours: Decimal, reason: str, now: datetime) -> WorkedHours:
    """Records the hours really worked on a step, with the reason.

    409 unless the job is called off and has no closing account, and for a step without a price of its own. Refuses more
    hours than were agreed: the customer accepted the price of those.
    """
    job = Job.objects.select_for_update().get(shop=actor.shop, pk=step.job_id)
    if job.state != Job.State.CALLED_OFF:
        raise RequestError(409, "job-not-called-off")
    if closing_of(job) is not None:
        raise RequestError(409, "job-closed")
    labour = next((work for work in agreed_labour(job) if work.step.pk == step.pk), None)
    if labour is None:
        raise RequestError(409, "step-without-price")
    if hours > labour.agreed:
        raise field_error("/hours", "hours_above_agreed", hours=tenths(labour.agreed))
    row = WorkedHours(
        shop=actor.shop, step=labour.step, hours=hours, reason=reason, recorded_at=now, recorded_by=actor.member
    )
    row.clean_fields()
    row.save(force_insert=True)
    changes = {"hours": [str(labour.hours), str(hours)], "reason": ["", reason]}
    history.record(actor=actor, verb="hours corrected", row=step, changes=changes)
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return row

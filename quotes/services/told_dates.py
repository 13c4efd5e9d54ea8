"""Records the sentence with which a person tells the customer a date that moved."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.db import transaction

from quotes.models import Quote, ToldDate
from quotes.queries.told_dates import told_dates
from quotes.services.mails import send_moved_date
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Job
from shop.models.jobs import ENDED
from shop.services import feed, history
from shop.services.jobs import check_day


@transaction.atomic
def tell_date(
    *, actor: Actor, job: Job, ready_on: date | None, half: str, words: str, means: str, now: datetime
) -> ToldDate:
    """Records what the customer was told by telephone, or asks for an e-mail that tells it.

    From then on the job counts as promised for that day.

    `ready_on` is None for the sentence that no date can be given. 409 for a job that has ended or that no quote
    opened, and for an e-mail to a customer without an address.
    """
    dates = told_dates(job)
    if dates is None:
        raise RequestError(409, "no-quote-of-job")
    Quote.objects.select_for_update().get(shop=actor.shop, pk=dates.quote.pk)
    locked = Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk)
    if locked.state in ENDED:
        raise RequestError(409, "no-date-to-tell")
    if ready_on is not None:
        check_day(ready_on, now.astimezone(ZoneInfo(actor.shop.zone)).date(), "/ready_on")
    row = ToldDate(
        shop=actor.shop,
        job=job,
        ready_on=ready_on,
        half=half if ready_on else "",
        words=words,
        means=means,
        told_at=now,
        told_by=actor.member,
    )
    row.clean_fields()
    row.save(force_insert=True)
    if means == ToldDate.Means.MAIL:
        send_moved_date(actor=actor, quote=dates.quote, date_row=row, now=now)
    locked.promised_on = ready_on
    locked.save(update_fields=["promised_on"])
    day = ready_on.isoformat() if ready_on else ""
    history.record(actor=actor, verb="date told", row=job, changes={"ready_on": ["", day], "means": ["", means]})
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return row

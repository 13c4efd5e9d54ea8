"""How many vehicles the workshop has promised for the same week."""

from datetime import date, timedelta
from uuid import UUID

from shop.models import Job, Shop


def promised_that_week(shop: Shop, day: date, but: UUID | None) -> int:
    """Other open jobs whose customers were told a day in the calendar week of `day`; `but` is the job in hand."""
    monday = day - timedelta(days=day.weekday())
    jobs = Job.objects.filter(shop=shop, promised_on__range=(monday, monday + timedelta(days=6)))
    if but is not None:
        jobs = jobs.exclude(pk=but)
    return jobs.exclude(state__in=[Job.State.HANDED_OVER, Job.State.CALLED_OFF]).count()

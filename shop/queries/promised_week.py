"""Counts the vehicles that the workshop has promised for one week."""

from datetime import date, timedelta
from uuid import UUID

from shop.models import Job, Shop


def promised_that_week(shop: Shop, day: date, but: UUID | None) -> int:
    """The number of open jobs, without `but`, that are promised for a day in the calendar week of `day`."""
    monday = day - timedelta(days=day.weekday())
    jobs = Job.objects.filter(shop=shop, promised_on__range=(monday, monday + timedelta(days=6)))
    if but is not None:
        jobs = jobs.exclude(pk=but)
    return jobs.exclude(state__in=[Job.State.HANDED_OVER, Job.State.CALLED_OFF]).count()

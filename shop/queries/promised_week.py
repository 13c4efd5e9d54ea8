"""Counts the vehicles that the workshop has promised for one week."""

from datetime import date, timedelta
from uuid import UUID

from django.db.models import QuerySet

from shop.compiled import NO_ROW, compiled
from shop.models import Job, Shop


def promised_that_week(shop: Shop, day: date, but: UUID | None) -> int:
    """The number of open jobs, without `but`, that are promised for a day in the calendar week of `day`."""
    monday = day - timedelta(days=day.weekday())
    return len(_promised(shop.pk, monday, monday + timedelta(days=6), but or NO_ROW))


@compiled
def _promised(shop: UUID, monday: date, sunday: date, but: UUID) -> QuerySet[Job, UUID]:
    jobs = Job.objects.filter(shop=shop, promised_on__range=(monday, sunday)).exclude(pk=but)
    return jobs.exclude(state__in=[Job.State.HANDED_OVER, Job.State.CALLED_OFF]).values_list("id", flat=True)

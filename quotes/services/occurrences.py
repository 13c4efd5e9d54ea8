"""Records what happened on a job. A fact from the floor is not refused: beyond the cap it is recorded, not charged."""

from datetime import datetime

from django.db import transaction

from quotes.models import Line, Occurrence, OccurrencePhotograph
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Job, Photograph
from shop.pictures import Picture
from shop.services import feed, history
from shop.services.photographs import keep_photograph

MOST_PHOTOGRAPHS = 6  # of one record


@transaction.atomic
def record_occurrence(*, actor: Actor, job: Job, line: Line, count: int, note: str, now: datetime) -> Occurrence:
    """Records under the job's lock that something happened `count` times more."""
    row = Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk)
    return _saved(
        actor,
        Occurrence(
            shop=row.shop, job=row, line=line, count=count, note=note, recorded_at=now, recorded_by=actor.member
        ),
        "recorded",
    )


@transaction.atomic
def photograph_occurrence(*, actor: Actor, occurrence: Occurrence, picture: Picture, now: datetime) -> Photograph:
    """Adds a stored picture to a record of what happened. Refused beyond `MOST_PHOTOGRAPHS` of one record."""
    job = Job.objects.select_for_update().get(shop=actor.shop, pk=occurrence.job_id)
    rows = OccurrencePhotograph.objects.filter(shop=actor.shop, occurrence=occurrence)
    if rows.count() >= MOST_PHOTOGRAPHS:
        raise RequestError(409, "too-many-photographs", n=MOST_PHOTOGRAPHS)
    photograph = keep_photograph(actor=actor, job=job, picture=picture, now=now)
    OccurrencePhotograph.objects.create(
        shop=actor.shop, job=job, line=occurrence.line, occurrence=occurrence, photograph=photograph
    )
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return photograph


@transaction.atomic
def reverse_occurrence(*, actor: Actor, occurrence: Occurrence, now: datetime) -> Occurrence:
    """Writes the opposite row of one that was recorded by mistake. Refused for a row that was reversed before."""
    row = Job.objects.select_for_update().get(shop=actor.shop, pk=occurrence.job_id)
    reversals = Occurrence.objects.filter(shop=actor.shop, reversed_occurrence=occurrence)
    if occurrence.reversed_occurrence_id is not None or reversals.exists():
        raise RequestError(409, "occurrence-reversed")
    opposite = Occurrence(
        shop=row.shop,
        job=row,
        line=occurrence.line,
        count=-occurrence.count,
        reversed_occurrence=occurrence,
        recorded_at=now,
        recorded_by=actor.member,
    )
    return _saved(actor, opposite, "reversed")


def _saved(actor: Actor, occurrence: Occurrence, verb: str) -> Occurrence:
    occurrence.clean_fields()
    occurrence.save(force_insert=True)
    fields = {occurrence.line.event: ["", str(occurrence.count)]}
    history.record(actor=actor, verb=verb, row=occurrence, changes=fields)
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    return occurrence

"""Marks photographs of what happened as ones that the customer sees on the link."""

from datetime import datetime

from django.db import transaction

from quotes.models import OccurrencePhotograph, ShownPhotograph
from quotes.queries.shown_photographs import newest_marks
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Job, Photograph
from shop.pictures import MEDIA_TYPE
from shop.services import feed, history
from shop.services.files import record_file
from shop.services.photographs import path_of, store_small_copy


@transaction.atomic
def show_photograph(*, actor: Actor, photograph: Photograph, visible: bool, now: datetime) -> None:
    """Shows a photograph on the customer's link, or removes it. 409 for one that belongs to no occurrence."""
    Job.objects.select_for_update().get(shop=actor.shop, pk=photograph.job_id)
    if not OccurrencePhotograph.objects.filter(shop=actor.shop, photograph=photograph).exists():
        raise RequestError(409, "photograph-of-nothing")
    before = newest_marks(actor.shop, [photograph.pk]).get(photograph.pk)
    if visible == (before is not None and before.shown):
        return
    row = ShownPhotograph(
        shop=actor.shop, photograph=photograph, shown=visible, recorded_at=now, recorded_by=actor.member
    )
    if visible:
        picture = store_small_copy(photograph)
        row.file = record_file(
            shop=actor.shop, body=picture.body, media_type=MEDIA_TYPE, path=path_of(picture), now=now
        )
        row.width, row.height = picture.width, picture.height
    row.clean_fields()
    row.save(force_insert=True)
    verb = "shown to the customer" if visible else "hidden from the customer"
    history.record(actor=actor, verb=verb, row=photograph)
    feed.record(actor=actor, kind=feed.Kind.JOBS)

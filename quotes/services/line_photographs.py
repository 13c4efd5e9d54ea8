"""Photographs of a draft's lines. Sending freezes them with the lines."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction

from quotes import access
from quotes.models import LinePhotograph, Quote, Revision
from quotes.services.drafts import changed_draft, open_draft
from shop.access import Actor
from shop.errors import RequestError
from shop.pictures import MEDIA_TYPE, Picture
from shop.services.files import record_file
from shop.services.photographs import path_of

MOST_PHOTOGRAPHS = 4  # of one line


@transaction.atomic
def add_photograph(
    *,
    actor: Actor,
    quote: Quote,
    line: UUID,
    picture: Picture,
    small: Picture,
    caption: str,
    visible: bool,
    now: datetime,
) -> Revision:
    """Adds a stored picture with its small copy to a line. Refused beyond `MOST_PHOTOGRAPHS` of one line."""
    revision = open_draft(quote=quote)
    row = access.line(revision, line)
    if LinePhotograph.objects.filter(shop=actor.shop, line=row).count() >= MOST_PHOTOGRAPHS:
        raise RequestError(409, "too-many-photographs-of-line", n=MOST_PHOTOGRAPHS)
    file, copy = (
        record_file(shop=actor.shop, body=jpeg.body, media_type=MEDIA_TYPE, path=path_of(jpeg), now=now)
        for jpeg in (picture, small)
    )
    photograph = LinePhotograph(
        shop=actor.shop,
        revision=revision,
        line=row,
        file=file,
        small=copy,
        width=small.width,
        height=small.height,
        caption=caption,
        shown=visible,
    )
    photograph.clean_fields()
    photograph.save(force_insert=True)
    fields = {row.title: ["", photograph.caption]}
    return changed_draft(actor, revision, "photograph added", fields, photograph.caption)


@transaction.atomic
def change_photograph(
    *, actor: Actor, quote: Quote, photograph: LinePhotograph, seen: int, changes: Mapping[str, Any]
) -> Revision:
    """Changes the caption, or whether the customer sees the photograph."""
    revision = open_draft(quote=quote, seen=seen)
    _check_version(revision, photograph)
    before = {name: str(getattr(photograph, name)) for name in changes}
    for name, value in changes.items():
        setattr(photograph, name, value)
    photograph.clean_fields()
    photograph.save(update_fields=list(changes))
    fields = {name: [before[name], str(getattr(photograph, name))] for name in changes}
    return changed_draft(actor, revision, "photograph changed", fields, photograph.caption)


@transaction.atomic
def remove_photograph(*, actor: Actor, quote: Quote, photograph: LinePhotograph, seen: int) -> Revision:
    """Removes a photograph from a line."""
    revision = open_draft(quote=quote, seen=seen)
    _check_version(revision, photograph)
    caption = photograph.caption
    photograph.delete()
    return changed_draft(actor, revision, "photograph removed", {"photograph": [caption, ""]}, caption)


def copy_photographs(old: Revision, new: Revision, moved: Mapping[str, str], *, visible: bool) -> None:
    """Copies the photographs of lines; `moved` maps the id of an old line to that of the new one.

    Without `visible` the customer sees none of the copies.
    """
    LinePhotograph.objects.bulk_create(
        LinePhotograph(
            shop=new.shop,
            revision=new,
            line_id=UUID(moved[str(row.line_id)]),
            file_id=row.file_id,
            small_id=row.small_id,
            width=row.width,
            height=row.height,
            caption=row.caption,
            shown=row.shown and visible,
        )
        for row in LinePhotograph.objects.filter(shop=old.shop, revision=old).order_by("id")
    )


def _check_version(revision: Revision, photograph: LinePhotograph) -> None:
    """Refuses a photograph of an earlier version of the quote, which can no longer change."""
    if photograph.revision_id != revision.pk:
        raise RequestError(409, "not-a-draft")

"""Keeps the photographs of jobs: the file in the storage, then its rows."""

import hashlib
from datetime import datetime

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import transaction

from shop.access import Actor
from shop.errors import field_error
from shop.models import Job, Photograph
from shop.pictures import MEDIA_TYPE, SMALL_SIDE, Picture, PictureError, picture_from
from shop.services import history
from shop.services.files import record_file

REFUSALS = {
    "no_jpeg": "photograph.no_jpeg",
    "more_than_a_picture": "photograph.more_than_a_picture",
    "too_many_pixels": "photograph.too_many_pixels",
    "unreadable": "photograph.unreadable",
}


def store_picture(body: bytes) -> Picture:
    """A JPEG of our own from the bytes of an upload, stored once under its SHA-256. Refused with the field `file`."""
    try:
        picture = picture_from(body)
    except PictureError as error:
        raise field_error("/file", REFUSALS[error.code]) from None
    return _stored(picture)


def store_small_copy(photograph: Photograph) -> Picture:
    """A small JPEG of a photograph, stored once under its SHA-256."""
    with default_storage.open(photograph.file.path) as file:
        return _stored(picture_from(file.read(), SMALL_SIDE))


def store_small_picture(picture: Picture) -> Picture:
    """A small JPEG of a picture, stored once under its SHA-256."""
    return _stored(picture_from(picture.body, SMALL_SIDE))


def _stored(picture: Picture) -> Picture:
    path = path_of(picture)
    if not default_storage.exists(path):
        default_storage.save(path, ContentFile(picture.body))
    return picture


def path_of(picture: Picture) -> str:
    mark = hashlib.sha256(picture.body).hexdigest()
    return f"photographs/{mark[:2]}/{mark}.jpg"


@transaction.atomic
def keep_photograph(*, actor: Actor, job: Job, picture: Picture, now: datetime) -> Photograph:
    """The row of a stored picture of the job."""
    assert actor.member is not None
    file = record_file(shop=actor.shop, body=picture.body, media_type=MEDIA_TYPE, path=path_of(picture), now=now)
    photograph = Photograph(
        shop=actor.shop,
        job=job,
        file=file,
        width=picture.width,
        height=picture.height,
        recorded_at=now,
        recorded_by=actor.member,
    )
    photograph.clean_fields()
    photograph.save(force_insert=True)
    history.record(actor=actor, verb="photographed", row=photograph)
    return photograph

"""A stored photograph as an answer with which a browser can do nothing but show it."""

from django.core.files.storage import default_storage
from django.http import HttpResponse

from shop.models import StoredFile


def picture_response(file: StoredFile) -> HttpResponse:
    with default_storage.open(file.path) as body:
        picture = HttpResponse(body.read(), content_type=file.media_type)
    picture["Content-Disposition"] = 'inline; filename="photograph.jpg"'
    picture["Cache-Control"] = "no-store"
    picture["Content-Security-Policy"] = "default-src 'none'; sandbox"
    picture["Cross-Origin-Resource-Policy"] = "same-origin"
    return picture

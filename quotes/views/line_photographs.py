"""Endpoints for the photographs of a quote's lines."""

from typing import Any
from uuid import UUID

from django.http import HttpResponse
from django.utils import timezone
from rest_framework.parsers import MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.quotes import QuoteOut
from quotes.documents.pictures import picture_response
from quotes.serializers.line_photographs import LinePhotographChange, LinePhotographIn
from quotes.services import line_photographs
from quotes.views.quotes import COUNTER, answer
from shop.api.endpoint import Endpoint
from shop.api.renderers import JPEGRenderer
from shop.errors import RequestError
from shop.pictures import MOST_BYTES
from shop.services.photographs import store_picture, store_small_picture


class LinePhotographs(Endpoint):
    """Photographs of what a line of the draft is about. Each is kept as a JPEG of our own, without its place."""

    request_bodies = {"post": LinePhotographIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}
    parser_classes = [MultiPartParser]
    body_limit = MOST_BYTES + 16 * 1024  # the file, and the form around it

    def prepare(self, request: Request, **kw: Any) -> None:
        """Reads and stores the picture before the transaction."""
        self.quote = access.quote(self.actor, kw["id"])
        access.line(access.current(self.quote), kw["line"])
        file = self.body(request)["file"]
        if file.size > MOST_BYTES:
            raise RequestError(413, "too-large")
        self.picture = store_picture(file.read())
        self.small = store_small_picture(self.picture)
        file.seek(0)

    def post(self, request: Request, slug: str, id: UUID, line: UUID) -> Response:
        """Add a photograph to a line of a draft."""
        body = self.body(request)
        changed = line_photographs.add_photograph(
            actor=self.actor,
            quote=self.quote,
            line=line,
            picture=self.picture,
            small=self.small,
            caption=body["caption"],
            visible=body["seen_by"] == "customer",
            now=timezone.now(),
        )
        return answer(changed, 201)


class LinePhotograph(Endpoint):
    """One photograph of a line of the draft."""

    request_bodies = {"patch": LinePhotographChange}
    responses = {"patch": QuoteOut, "delete": QuoteOut}
    permissions = {"patch": COUNTER, "delete": COUNTER}
    versioned = frozenset({"patch", "delete"})

    def patch(self, request: Request, slug: str, id: UUID, photograph: UUID) -> Response:
        """Change the caption of a photograph, or whether the customer sees it."""
        quote, seen, body = access.quote(self.actor, id), self.expected_version(request), self.body(request)
        row = access.line_photograph(quote, photograph)
        return answer(
            line_photographs.change_photograph(actor=self.actor, quote=quote, photograph=row, seen=seen, changes=body)
        )

    def delete(self, request: Request, slug: str, id: UUID, photograph: UUID) -> Response:
        """Remove a photograph from a draft."""
        quote, seen = access.quote(self.actor, id), self.expected_version(request)
        row = access.line_photograph(quote, photograph)
        return answer(line_photographs.remove_photograph(actor=self.actor, quote=quote, photograph=row, seen=seen))


class LinePicture(Endpoint):
    """The picture of a photograph of a line, in the size in which the customer sees it."""

    responses = {"get": bytes}
    permissions = {"get": COUNTER}
    renderer_classes = [JPEGRenderer]

    def get(self, request: Request, slug: str, id: UUID, photograph: UUID) -> HttpResponse:
        """Read the picture of a photograph of a line."""
        return picture_response(access.line_photograph(access.quote(self.actor, id), photograph).small)

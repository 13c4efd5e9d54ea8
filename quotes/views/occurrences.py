"""Endpoints for what may happen on a job: the bay records it without a price, the counter reads it."""

from typing import Any
from uuid import UUID

from django.http import HttpResponse
from django.utils import timezone
from rest_framework.parsers import MultiPartParser
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes import access
from quotes.answers.occurrences import OccurrencesOut
from quotes.documents.pictures import picture_response
from quotes.presenters.occurrences import occurrences_answer
from quotes.queries.occurrences import accepted_decisions, agreed_contingencies
from quotes.serializers.occurrences import OccurrenceIn, PhotographIn, ShownIn
from quotes.services import occurrences
from quotes.services.shown_photographs import show_photograph
from shop.access import COUNTER, EVERYONE, FLOOR
from shop.api.endpoint import Endpoint
from shop.api.renderers import JPEGRenderer
from shop.errors import RequestError
from shop.models import Job
from shop.pictures import MOST_BYTES
from shop.serializers.nothing import Nothing
from shop.services.photographs import store_picture


class Occurrences(Endpoint):
    """The events that a job's quotes charge only if they happen. A technician reads them: no price."""

    request_bodies = {"post": OccurrenceIn}
    responses = {"get": OccurrencesOut, "post": {201: OccurrencesOut}}
    permissions = {"get": EVERYONE, "post": FLOOR}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read what happened on a job."""
        return Response(answer(shop.access.job(self.actor, id)))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record that something happened."""
        job, body = shop.access.job(self.actor, id), self.body(request)
        line = access.agreed_contingency(job, body["line"])
        occurrences.record_occurrence(
            actor=self.actor, job=job, line=line, count=body["count"], note=body["note"], now=timezone.now()
        )
        return Response(answer(job), status=201)


class OccurrenceReversal(Endpoint):
    """The opposite row of something that was recorded by mistake."""

    request_bodies = {"post": Nothing}
    responses = {"post": {201: OccurrencesOut}}
    permissions = {"post": FLOOR}

    def post(self, request: Request, slug: str, id: UUID, occurrence: UUID) -> Response:
        """Reverse a record of what happened."""
        job = shop.access.job(self.actor, id)
        row = access.occurrence(self.actor, job, occurrence)
        occurrences.reverse_occurrence(actor=self.actor, occurrence=row, now=timezone.now())
        return Response(answer(job), status=201)


class OccurrencePhotographs(Endpoint):
    """A photograph of what happened. It is kept as a JPEG of our own, without the place that a phone writes into it."""

    request_bodies = {"post": PhotographIn}
    responses = {"post": {201: OccurrencesOut}}
    permissions = {"post": FLOOR}
    parser_classes = [MultiPartParser]
    body_limit = MOST_BYTES + 16 * 1024  # the file, and the form around it

    def prepare(self, request: Request, **kw: Any) -> None:
        """Reads and stores the picture before the transaction."""
        job = shop.access.job(self.actor, kw["id"])
        self.occurrence = access.occurrence(self.actor, job, kw["occurrence"])
        file = self.body(request)["file"]
        if file.size > MOST_BYTES:
            raise RequestError(413, "too-large")
        self.picture = store_picture(file.read())
        file.seek(0)

    def post(self, request: Request, slug: str, id: UUID, occurrence: UUID) -> Response:
        """Add a photograph to a record of what happened."""
        occurrences.photograph_occurrence(
            actor=self.actor, occurrence=self.occurrence, picture=self.picture, now=timezone.now()
        )
        return Response(answer(shop.access.job(self.actor, id)), status=201)


class Photograph(Endpoint):
    """A photograph of a job."""

    responses = {"get": bytes}
    permissions = {"get": EVERYONE}
    renderer_classes = [JPEGRenderer]

    def get(self, request: Request, slug: str, id: UUID, photograph: UUID) -> HttpResponse:
        """Read a photograph of a job."""
        row = shop.access.photograph(self.actor, shop.access.job(self.actor, id), photograph)
        return picture_response(row.file)


class PhotographShown(Endpoint):
    """Whether the customer sees a photograph of what happened."""

    request_bodies = {"post": ShownIn}
    responses = {"post": {201: OccurrencesOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID, photograph: UUID) -> Response:
        """Show a photograph to the customer, or take it off the link."""
        job = shop.access.job(self.actor, id)
        row = shop.access.photograph(self.actor, job, photograph)
        body = self.body(request)
        show_photograph(actor=self.actor, photograph=row, visible=body["shown"], now=timezone.now())
        return Response(answer(job), status=201)


def answer(job: Job) -> OccurrencesOut:
    return occurrences_answer(agreed_contingencies(job, accepted_decisions(job)))

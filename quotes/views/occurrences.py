"""What happened on a job: recorded in the bay, without a price, and read at the counter."""

from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes import access
from quotes.answers.occurrences import OccurrencesOut
from quotes.presenters.occurrences import occurrences_answer
from quotes.queries.occurrences import accepted_decisions, agreed_contingencies
from quotes.serializers.occurrences import OccurrenceIn
from quotes.serializers.requests import Nothing
from quotes.services import occurrences
from shop.access import EVERYONE, FLOOR
from shop.api.endpoint import Endpoint
from shop.models import Job


class Occurrences(Endpoint):
    """What a job's quotes charge only if it happens, and how often it did. No price: a technician reads it."""

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


def answer(job: Job) -> OccurrencesOut:
    return occurrences_answer(agreed_contingencies(job, accepted_decisions(job)))

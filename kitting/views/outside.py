from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from kitting.answers.outside import JobOutsidesOut
from kitting.presenters.outside_log import job_outside_answer
from kitting.serializers.outside import OutsideEventIn
from kitting.services.outside import record_outside
from shop import access
from shop.api.endpoint import Endpoint


class JobOutsides(Endpoint):
    """The work that other firms do for a job: proposed with the acceptance, sent and taken back by people."""

    request_bodies = {"post": OutsideEventIn}
    responses = {"get": JobOutsidesOut, "post": {201: JobOutsidesOut}}
    permissions = {"get": access.EVERYONE, "post": access.STORES}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read the outside work of a job."""
        job = access.job(self.actor, id)
        job.shop = self.actor.shop
        return Response(job_outside_answer(self.actor, job, timezone.now()))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record that outside work was sent, asked for again, or came back."""
        job, now = access.job(self.actor, id), timezone.now()
        job.shop = self.actor.shop
        record_outside(actor=self.actor, job=job, now=now, **self.body(request))
        return Response(job_outside_answer(self.actor, job, now), status=201)

from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.releases import ReleasesOut
from quotes.presenters.releases import releases_answer
from quotes.services.releasing import release_job
from shop.access import STORES
from shop.api.endpoint import Endpoint
from shop.serializers.nothing import Nothing


class Releases(Endpoint):
    """The orders that a job proposes, and those released. Nothing is sent to anybody."""

    request_bodies = {"post": Nothing}
    responses = {"get": ReleasesOut, "post": {201: ReleasesOut}}
    permissions = {"get": STORES, "post": STORES}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read what can be released of a job."""
        return Response(releases_answer(self.actor, access.job_with_account(self.actor, id), timezone.now()))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Release the proposed orders and outside work."""
        job, now = access.job_with_account(self.actor, id), timezone.now()
        self.body(request)
        release_job(actor=self.actor, job=job, now=now)
        return Response(releases_answer(self.actor, job, now), status=201)

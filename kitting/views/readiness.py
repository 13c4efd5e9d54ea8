from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.dues import DueOut
from kitting.answers.readiness import ReadinessOut
from kitting.presenters.dues import due_answer
from kitting.presenters.readiness import readiness_answer
from kitting.serializers.readiness import DueIn
from kitting.services.arrivals import record_due
from shop import access as shop_access
from shop.api.endpoint import Endpoint, versioned


class JobReadiness(Endpoint):
    """The work that the job can do with what was counted for it, and the time at which its vehicle can be ready.

    The ETag is the job's.
    """

    responses = {"get": ReadinessOut}
    permissions = {"get": shop_access.EVERYONE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read how far a job can go."""
        job = shop_access.job(self.actor, id)
        job.shop = self.actor.shop
        return versioned(readiness_answer(job, timezone.now()), job.version)


class PullListDue(Endpoint):
    """Record when missing lines of this list arrive; without a day, remove the day that was recorded."""

    request_bodies = {"post": DueIn}
    responses = {"post": DueOut}
    permissions = {"post": shop_access.STORES}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record when missing lines arrive."""
        body, now = self.body(request), timezone.now()
        changed = record_due(
            actor=self.actor,
            pull_list=access.pull_list(self.actor, id),
            lines=body["lines"],
            day=body["day"],
            at=body["time"],
            now=now,
        )
        return Response(due_answer(self.actor.shop, changed, now))

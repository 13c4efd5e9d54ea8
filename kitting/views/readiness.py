from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.serializers.readiness import DueIn, DueOut, ReadinessOut
from kitting.services.arrivals import Before, said_again, say_due
from kitting.shapes.readiness import readiness_shape
from shop import access as shop_access
from shop.dates import shelf_words
from shop.endpoint import Endpoint, versioned
from shop.loading import opening_hours
from shop.shapes import iso


class JobReadiness(Endpoint):
    """How far the job can go with what was counted for it, and when its vehicle can be ready.

    The ETag is the job's.
    """

    gives = {"get": ReadinessOut}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        job = shop_access.job(self.who, id)
        job.shop = self.who.shop
        return versioned(readiness_shape(job, timezone.now()), job.version)


class PullListDue(Endpoint):
    """Say when what is missing arrives, for lines of this list; without a day, take what was said back."""

    takes = {"post": DueIn}
    gives = {"post": DueOut}
    allows = {"post": shop_access.STORES}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        body = self.body(request)
        changed = say_due(
            who=self.who,
            pull_list=access.pull_list(self.who, id),
            lines=body["lines"],
            day=body["day"],
            at=body["time"],
            now=timezone.now(),
        )
        return Response(_due_shape(self.who, changed))


def _due_shape(who: shop_access.Actor, changed: list[Before]) -> dict[str, Any]:
    zone, due = ZoneInfo(who.shop.zone), changed[0][0].due_at
    calendar = opening_hours(who.shop, due.astimezone(zone).date()) if due else None
    return {
        "words": shelf_words(due, calendar, zone.key, timezone.now().astimezone(zone).date()) if due else None,
        "items": [{"line": str(line.pk), "due_at": iso(line.due_at), "before": iso(was)} for line, was in changed],
        "undo": [
            {"lines": [str(line) for line in lines], "day": day.isoformat() if day else None, "time": at}
            for lines, day, at in said_again(changed, zone)
        ],
    }

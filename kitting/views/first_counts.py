from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.first_counts import FirstCountsOut
from kitting.models import Kit
from kitting.presenters.first_counts import first_counts_answer
from kitting.queries.first_counts import counts_of, has_contents, newest_revision
from kitting.serializers.first_counts import FirstCountIn
from kitting.services import first_counts
from shop import access as shop_access
from shop.api.endpoint import Endpoint
from shop.presenters.entries import refusals_worded


class FirstCounts(Endpoint):
    """The counts by hand that make the first list of a kit. Two that agree on every line are its contents."""

    request_bodies = {"post": FirstCountIn}
    responses = {"get": FirstCountsOut, "post": {201: FirstCountsOut}}
    permissions = {"get": shop_access.STORES, "post": shop_access.STORES}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read how far the first counts of a kit are."""
        return Response(_answer(access.kit(self.actor, id)))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add a count of a kit that has no list."""
        kit, body = access.kit(self.actor, id), self.body(request)
        with refusals_worded("lines"):
            first_counts.add_count(actor=self.actor, kit=kit, **body)
        return Response(_answer(kit), 201)


def _answer(kit: Kit) -> FirstCountsOut:
    revision = newest_revision(kit)
    return first_counts_answer(
        counts_of(kit), revision.number if revision else None, has_contents=has_contents(revision)
    )

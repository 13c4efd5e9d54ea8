from uuid import UUID

from django.http import Http404, HttpResponse
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes import access
from quotes.answers.releases import ReleasesOut
from quotes.documents.ubl_order import order_file, order_number
from quotes.presenters.releases import releases_answer
from quotes.services.releasing import release_job
from shop.api.endpoint import Endpoint
from shop.api.renderers import XMLRenderer
from shop.documents.ubl import xml_response
from shop.serializers.nothing import Nothing


class Releases(Endpoint):
    """The orders that a job proposes, and those released. Nothing is sent to anybody."""

    request_bodies = {"post": Nothing}
    responses = {"get": ReleasesOut, "post": {201: ReleasesOut}}
    permissions = {"get": shop.access.STORES, "post": shop.access.STORES}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read what can be released of a job."""
        return Response(releases_answer(self.actor, shop.access.job(self.actor, id), timezone.now()))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Release the proposed orders and outside work."""
        job, now = shop.access.job(self.actor, id), timezone.now()
        self.body(request)
        release_job(actor=self.actor, job=job, now=now)
        return Response(releases_answer(self.actor, job, now), status=201)


class ReleasedOrder(Endpoint):
    """A released order to one supplier for its program, as an Order of UBL 2.4. Nothing is sent to anybody."""

    responses = {"get": bytes}
    permissions = {"get": shop.access.STORES}
    query_parameters = {"supplier": "the supplier's name, as the release has it"}
    renderer_classes = [XMLRenderer]

    def get(self, request: Request, slug: str, id: UUID, release: UUID) -> HttpResponse:
        """Read the released order to a supplier as UBL."""
        row, number = access.release(self.actor, shop.access.job(self.actor, id), release)
        body = order_file(row, supplier=request.query_params.get("supplier", ""), number=number)
        if body is None:
            raise Http404
        return xml_response(body, f"{order_number(row, number)}.xml")

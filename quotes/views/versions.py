from uuid import UUID

from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes import access
from quotes.answers.difference import VersionDifferenceOut
from quotes.answers.quotes import QuoteOut
from quotes.presenters.difference import difference_answer
from quotes.serializers import requests
from quotes.services import undo
from quotes.services.copying import copy_quote
from quotes.views.quotes import COUNTER, answer
from shop.api.endpoint import Endpoint


class Difference(Endpoint):
    """Compares the newest version of a quote with the version before; 404 for the first."""

    responses = {"get": VersionDifferenceOut}
    permissions = {"get": COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Compare a version with the one before."""
        compared = difference_answer(access.current(access.quote(self.actor, id)), timezone.now())
        if compared is None:
            raise Http404
        return Response(compared)


class Undo(Endpoint):
    """Take back the newest change of the draft that was seen: one of the last 50, whoever made it."""

    request_bodies = {"post": requests.VersionIn}
    responses = {"post": QuoteOut}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Undo a change of a draft."""
        quote, seen = access.quote(self.actor, id), self.body(request)["version"]
        return answer(undo.undo(actor=self.actor, quote=quote, seen=seen))


class Redo(Endpoint):
    """Make again the change that was taken back last, as long as no other change was made."""

    request_bodies = {"post": requests.VersionIn}
    responses = {"post": QuoteOut}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Do an undone change of a draft again."""
        quote, seen = access.quote(self.actor, id), self.body(request)["version"]
        return answer(undo.redo(actor=self.actor, quote=quote, seen=seen))


class Copy(Endpoint):
    """Begin another quote with the same lines, at today's prices, for another customer or vehicle."""

    request_bodies = {"post": requests.CopyIn}
    responses = {"post": {201: QuoteOut}}
    permissions = {"post": COUNTER}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Copy a quote."""
        quote, body = access.quote(self.actor, id), self.body(request)
        revision = copy_quote(
            actor=self.actor,
            quote=quote,
            customer=shop.access.customer(self.actor, body["customer"]) if body["customer"] else None,
            vehicle=shop.access.vehicle(self.actor, body["vehicle"]) if body["vehicle"] else None,
        )
        return answer(revision, 201)

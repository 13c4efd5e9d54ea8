from uuid import UUID

from django.db.models import Q
from rest_framework.request import Request
from rest_framework.response import Response

from kitting import access
from kitting.answers.supersessions import ReplacedNumberOut
from kitting.presenters.supersessions import replaced_number
from kitting.queries.supersessions import mark_of
from kitting.serializers.supersessions import ReplacedNumberIn
from kitting.services import supersessions
from shop.access import OFFICE, STORES
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.calc.keys import search_key
from shop.queries.search import typed_pieces


class ReplacedNumbers(Endpoint):
    """Parts that another part replaces. A kit's file with older and newer numbers adds them too."""

    request_bodies = {"post": ReplacedNumberIn}
    responses = {"get": list_of(ReplacedNumberOut), "post": {201: ReplacedNumberOut}}
    permissions = {"get": STORES, "post": OFFICE}
    query_parameters = {"q": "part of the older or the newer number, or of a name"}
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the replaced parts by number."""
        rows = access.replaced_parts(self.actor)
        for word in typed_pieces(request.query_params.get("q", "")):
            named = Q(title__icontains=word) | Q(superseded_by__title__icontains=word)
            if key := search_key(word):
                named |= Q(number_key__contains=key) | Q(superseded_by__number_key__contains=key)
            rows = rows.filter(named)
        return self.page(request, rows, ("number_key",), replaced_number)

    def post(self, request: Request, slug: str) -> Response:
        """Let one part replace another."""
        row = supersessions.replace_number(actor=self.actor, **self.body(request))
        return versioned(replaced_number(row), mark_of(row), 201)


class ReplacedNumber(Endpoint):
    """One part that another part replaces."""

    responses = {"get": ReplacedNumberOut, "delete": {204: None}}
    permissions = {"get": STORES, "delete": OFFICE}
    versioned = frozenset({"delete"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read which part replaces it."""
        row = access.replaced_part(self.actor, id)
        return versioned(replaced_number(row), mark_of(row))

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Take the replacement of a part back."""
        row, seen = access.replaced_part(self.actor, id), self.expected_version(request)
        supersessions.take_back(actor=self.actor, part=row, seen=seen)
        return Response(status=204)

from uuid import UUID

from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.difference import VersionDifferenceOut
from quotes.presenters.difference import difference_answer
from quotes.views.quotes import COUNTER
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

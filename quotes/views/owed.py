from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes.answers.owed import OwedOut
from quotes.presenters.owed import owed_answer
from quotes.views.quotes import COUNTER
from shop.access import EVERYONE, STORES
from shop.api.endpoint import Endpoint


class Owed(Endpoint):
    """The list of what other firms and customers owe the workshop.

    Parts and technicians read no money, technicians no contacts.
    """

    responses = {"get": OwedOut}
    permissions = {"get": EVERYONE}

    def get(self, request: Request, slug: str) -> Response:
        """Read what is owed to the workshop."""
        role = self.actor.role
        return Response(owed_answer(self.actor, timezone.now(), sees_money=role in COUNTER, asks_firms=role in STORES))

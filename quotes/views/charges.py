from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from quotes import access
from quotes.answers.quotes import QuoteOut
from quotes.queries.pricing import figures
from quotes.serializers import requests
from quotes.services import charges
from quotes.views.quotes import COUNTER, answer
from shop.api.endpoint import Endpoint
from shop.errors import field_error


class Charge(Endpoint):
    """Choose how a consumable is charged on a draft; or go back to the price rules and the kits."""

    request_bodies = {"put": requests.ChargeIn}
    responses = {"put": QuoteOut}
    permissions = {"put": COUNTER}
    versioned = frozenset({"put"})

    def put(self, request: Request, slug: str, id: UUID, item: UUID) -> Response:
        """Choose how a consumable is charged."""
        quote, seen, body = access.quote(self.actor, id), self.expected_version(request), self.body(request)
        priced = figures(access.current(quote), timezone.now())
        if not any(need.item == str(item) for price in priced.possible for need in price.priced.needs):
            raise field_error("/item", "no_such_need")
        changed = charges.choose_charge(actor=self.actor, quote=quote, item=str(item), way=body["charge"], seen=seen)
        return answer(changed)

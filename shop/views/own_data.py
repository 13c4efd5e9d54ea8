from rest_framework.request import Request
from rest_framework.response import Response

from shop.access import OFFICE
from shop.answers.own_data import OwnDataOut
from shop.api.endpoint import Endpoint
from shop.models import Shop
from shop.serializers.own_data import OwnDataIn
from shop.services.own_data import OWN_DATA, change_own_data


class OwnData(Endpoint):
    """The shop as customers read it on quotes and papers."""

    request_bodies = {"put": OwnDataIn}
    responses = {"get": OwnDataOut, "put": OwnDataOut}
    permissions = {"get": OFFICE, "put": OFFICE}

    def get(self, request: Request, slug: str) -> Response:
        """Read the shop's own data."""
        return Response(_answer(self.actor.shop))

    def put(self, request: Request, slug: str) -> Response:
        """Change the shop's own data."""
        return Response(_answer(change_own_data(actor=self.actor, facts=self.body(request))))


def _answer(shop: Shop) -> OwnDataOut:
    facts = {name: getattr(shop, name) for name in OWN_DATA}
    return OwnDataOut(**facts, currency=shop.currency, zone=shop.zone)

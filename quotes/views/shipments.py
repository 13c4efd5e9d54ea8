from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from kitting.access import supplier
from quotes.answers.shipment import ShipmentOut
from quotes.calc.shipment import Charges
from quotes.presenters.shipment import shipment_answer
from quotes.queries.shipment import read_shipment
from quotes.serializers.shipments import ShipmentIn
from quotes.services.shipments import keep_charges
from quotes.views.part_list import read_list
from shop.access import OFFICE
from shop.api.endpoint import Endpoint
from shop.api.params import check_price
from shop.calc.money import decimals_of
from shop.queries.calendar import shop_day


class ShipmentReading(Endpoint):
    """Shows how the freight and brokerage of a shipment are shared over its parts, and saves nothing."""

    request_bodies = {"post": ShipmentIn}
    responses = {"post": ShipmentOut}
    permissions = {"post": OFFICE}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Read a shipment."""
        row, body = supplier(self.actor, id), self.body(request)
        charges = charges_of(body, row.currency, self.actor.shop.exponent)
        day = shop_day(self.actor.shop, timezone.now())
        shipment = read_shipment(row, read_list(self.actor, body["text"]), charges, day)
        return Response(shipment_answer(row, shipment))


class Shipments(Endpoint):
    """Keeps the freight and brokerage of a shipment in the prices of its parts; nothing where a line is wrong."""

    request_bodies = {"post": ShipmentIn}
    responses = {"post": {201: ShipmentOut}}
    permissions = {"post": OFFICE}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Share the freight of a shipment over its parts."""
        row, body = supplier(self.actor, id), self.body(request)
        shipment = keep_charges(
            actor=self.actor,
            supplier=row,
            part_list=read_list(self.actor, body["text"]),
            charges=charges_of(body, row.currency, self.actor.shop.exponent),
            day=shop_day(self.actor.shop, timezone.now()),
        )
        return Response(shipment_answer(row, shipment), 201)


def charges_of(body: Mapping[str, Any], currency: str, exponent: int) -> Charges:
    """The charges of the request. Refuses more decimals than their currencies have."""
    return Charges(
        check_price(body["freight"], "/freight", decimals_of(currency)),
        check_price(body["brokerage"], "/brokerage", exponent),
    )

from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

import shop.access
from quotes.answers.merging import CustomerMergeOut
from quotes.presenters.merging import merge_answer
from quotes.queries.merging import belongings
from quotes.serializers.merging import CustomerMergeIn
from quotes.services.merging import merge_customers
from shop.access import COUNTER, Actor
from shop.answers.customers import CustomerOut
from shop.api import query_parameters
from shop.api.endpoint import Endpoint, versioned
from shop.api.params import parse_uuid
from shop.errors import field_error
from shop.models import Customer
from shop.presenters.customers import customer_answer


class CustomerMerge(Endpoint):
    """Puts two records of one customer together: shows what would move from the other to this one, and moves it."""

    request_bodies = {"post": CustomerMergeIn}
    responses = {"get": CustomerMergeOut, "post": CustomerOut}
    permissions = {"get": COUNTER, "post": COUNTER}
    query_parameters = {"other": query_parameters.required("the id of the record that would go")}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Say what putting two customers together would move."""
        other = parse_uuid(request.query_params.get("other", ""), "/other")
        stays, goes = _two_records(self.actor, id, other)
        return Response(merge_answer(stays, goes, belongings(goes, stays)))

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Put two customers together."""
        body = self.body(request)
        stays, goes = _two_records(self.actor, id, body["other"])
        seen = (body["version"], body["other_version"])
        customer = merge_customers(actor=self.actor, stays=stays, goes=goes, seen=seen)
        return versioned(customer_answer(customer, self.actor.shop.market), customer.version)


def _two_records(actor: Actor, id: UUID, other: UUID) -> tuple[Customer, Customer]:
    """(the record that stays, the record that goes). Refuses one and the same."""
    stays, goes = shop.access.customer(actor, id), shop.access.customer(actor, other)
    if stays.pk == goes.pk:
        raise field_error("/other", "same_customer")
    return stays, goes

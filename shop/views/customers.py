from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.customers import CustomerOut
from shop.answers.vehicles import OwnerChangeOut, VehicleOut, VinCheckOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.params import parse_uuid
from shop.api.query_parameters import Query, an_id
from shop.errors import field_error
from shop.presenters.customers import customer_answer
from shop.presenters.vehicles import owner_change_answer, vehicle_answer, vin_answer
from shop.queries.calendar import shop_day
from shop.queries.owners import owner_changes
from shop.queries.search import by_key
from shop.serializers.customers import CustomerChange, CustomerIn, OwnerIn, VehicleChange, VehicleIn
from shop.services import customers

VIN_LENGTH = 40  # as long as a vehicle's may be written


class Customers(Endpoint):
    """The shop's customers by name, with their vehicles."""

    request_bodies = {"post": CustomerIn}
    responses = {"get": list_of(CustomerOut), "post": {201: CustomerOut}}
    permissions = {"get": access.COUNTER, "post": access.COUNTER}
    query_parameters = {"q": "part of a name or telephone number"}
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the customers by name."""
        rows = access.customers(self.actor).prefetch_related("vehicles__customer")
        matches = by_key(rows, request.query_params.get("q", ""), "name_key", "phone_key")
        return self.page(request, matches, ("name_key", "id"), lambda row: customer_answer(row, self.actor.shop.market))

    def post(self, request: Request, slug: str) -> Response:
        """Add a customer."""
        customer = customers.add_customer(actor=self.actor, **self.body(request))
        return versioned(customer_answer(customer, self.actor.shop.market), customer.version, 201)


class Customer(Endpoint):
    """One customer."""

    request_bodies = {"patch": CustomerChange}
    responses = {"get": CustomerOut, "patch": CustomerOut}
    permissions = {"get": access.COUNTER, "patch": access.COUNTER}
    versioned = frozenset({"patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one customer."""
        customer = access.customer(self.actor, id)
        return versioned(customer_answer(customer, self.actor.shop.market), customer.version)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Change a customer."""
        customer, seen = access.customer(self.actor, id), self.expected_version(request)
        changed = customers.change_customer(actor=self.actor, customer=customer, seen=seen, changes=self.body(request))
        return versioned(customer_answer(changed, self.actor.shop.market), changed.version)


class Vehicles(Endpoint):
    """The shop's vehicles: by make and model, plate, or the end of the VIN."""

    request_bodies = {"post": VehicleIn}
    responses = {"get": list_of(VehicleOut), "post": {201: VehicleOut}}
    permissions = {"get": access.EVERYONE, "post": access.COUNTER}
    query_parameters = {
        "q": "part of the make and model, the plate or the VIN",
        "customer": an_id("only this customer's"),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the vehicles."""
        rows = access.vehicles(self.actor).select_related("customer")
        if (customer := request.query_params.get("customer")) is not None:
            rows = rows.filter(customer=access.customer(self.actor, parse_uuid(customer, "/customer")))
        matches = by_key(rows, request.query_params.get("q", ""), "title_key", "plate_key")
        return self.page(request, matches, ("title_key", "id"), lambda row: vehicle_answer(row, self.actor.shop.market))

    def post(self, request: Request, slug: str) -> Response:
        """Add a vehicle."""
        body = self.body(request)
        if body["customer"]:
            body["customer"] = access.customer(self.actor, body["customer"])
        vehicle = customers.add_vehicle(actor=self.actor, **body)
        return versioned(vehicle_answer(vehicle, self.actor.shop.market), vehicle.version, 201)


class Vehicle(Endpoint):
    """One vehicle."""

    request_bodies = {"patch": VehicleChange}
    responses = {"get": VehicleOut, "patch": VehicleOut}
    permissions = {"get": access.EVERYONE, "patch": access.COUNTER}
    versioned = frozenset({"patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one vehicle."""
        vehicle = access.vehicle(self.actor, id)
        return versioned(vehicle_answer(vehicle, self.actor.shop.market), vehicle.version)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Change a vehicle."""
        vehicle, seen = access.vehicle(self.actor, id), self.expected_version(request)
        body = self.body(request)
        if body.get("customer"):
            body["customer"] = access.customer(self.actor, body["customer"])
        changed = customers.change_vehicle(actor=self.actor, vehicle=vehicle, seen=seen, changes=body)
        return versioned(vehicle_answer(changed, self.actor.shop.market), changed.version)


class VehicleOwners(Endpoint):
    """The changes of a vehicle's owner, newest first. Quotes and jobs keep the customer that they have."""

    request_bodies = {"post": OwnerIn}
    responses = {"get": list_of(OwnerChangeOut), "post": {201: VehicleOut}}
    permissions = {"get": access.COUNTER, "post": access.COUNTER}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the changes of a vehicle's owner."""
        changes = owner_changes(access.vehicle(self.actor, id))
        return Response({"items": [owner_change_answer(change, self.actor.shop) for change in changes]})

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Record that a vehicle has another owner."""
        vehicle, body = access.vehicle(self.actor, id), self.body(request)
        owner = access.customer(self.actor, body["customer"])
        today = shop_day(self.actor.shop, timezone.now())
        changed = customers.change_owner(
            actor=self.actor, vehicle=vehicle, owner=owner, since=body["since"], today=today
        )
        return versioned(vehicle_answer(changed, self.actor.shop.market), changed.version, 201)


class Vin(Endpoint):
    """The check of a VIN as it is typed, before anything is kept."""

    responses = {"get": VinCheckOut}
    permissions = {"get": access.COUNTER}
    query_parameters = {"vin": Query("the VIN, as it is written", {"type": "string", "maxLength": VIN_LENGTH})}

    def get(self, request: Request, slug: str) -> Response:
        """Check a VIN."""
        vin = request.query_params.get("vin", "")
        if len(vin) > VIN_LENGTH:
            raise field_error("/vin", "vin_long", n=VIN_LENGTH)
        return Response(vin_answer(vin, self.actor.shop.market))

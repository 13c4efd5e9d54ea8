"""Customers and their vehicles."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from django.db import transaction

from shop.access import Actor
from shop.calc.keys import search_key
from shop.errors import RequestError, field_error
from shop.models import Customer, Vehicle
from shop.queries.owners import OWNER_CHANGED
from shop.services import feed, history
from shop.services.search_words import keep_words

YEARS = 100  # an owner since a longer time is a typing error in the year


@transaction.atomic
def add_customer(*, actor: Actor, name: str, phone: str = "", email: str = "", address: str = "") -> Customer:
    customer = Customer(shop=actor.shop, name=name, phone=phone, email=email, address=address)
    set_customer_keys(customer)
    customer.clean_fields()
    customer.save(force_insert=True)
    keep_words([customer])
    history.record(actor=actor, verb="added", row=customer)
    return customer


@transaction.atomic
def change_customer(*, actor: Actor, customer: Customer, seen: int, changes: dict[str, Any]) -> Customer:
    """Changes the given fields of name, phone, email and address.

    Refused if the row has changed since version `seen`.
    """
    customer = Customer.objects.select_for_update().get(pk=customer.pk)
    _refuse_older_view(customer, seen)
    before = {field: getattr(customer, field) for field in changes}
    for field in changes:
        setattr(customer, field, changes[field])
    set_customer_keys(customer)
    customer.version += 1
    customer.clean_fields()
    customer.save(update_fields=[*changes, "name_key", "phone_key", "version"])
    keep_words([customer])
    after = {field: getattr(customer, field) for field in changes}
    history.record(actor=actor, verb="changed", row=customer, changes={f: [before[f], after[f]] for f in changes})
    return customer


def lock_customer(customer: Customer) -> Customer:
    """The record that the customer is part of by now, locked until the transaction ends.

    Every service that adds rows for a customer calls this, so that none stays with a record that is merged into another
    at the same moment.
    """
    row = Customer.objects.select_for_update(no_key=True).get(pk=customer.pk)
    return Customer.objects.get(pk=row.merged_into_id) if row.merged_into_id else row


@transaction.atomic
def add_vehicle(
    *,
    actor: Actor,
    title: str,
    customer: Customer | None = None,
    vin: str = "",
    plate: str = "",
    attributes: dict[str, str] | None = None,
    capacities: dict[str, str] | None = None,
) -> Vehicle:
    """Adds a vehicle. A VIN that looks wrong is kept as typed: it gives a warning, never a refusal."""
    vehicle = Vehicle(
        shop=actor.shop,
        customer=lock_customer(customer) if customer else None,
        title=title,
        vin=vin,
        plate=plate,
        attributes=attributes or {},
        capacities=capacities or {},
    )
    set_vehicle_keys(vehicle)
    vehicle.clean_fields()
    vehicle.save(force_insert=True)
    keep_words([vehicle])
    history.record(actor=actor, verb="added", row=vehicle)
    return vehicle


@transaction.atomic
def change_vehicle(*, actor: Actor, vehicle: Vehicle, seen: int, changes: dict[str, Any]) -> Vehicle:
    """Changes the given fields of customer, title, vin, plate, attributes and capacities.

    Refused if the row has changed since version `seen`, and for another customer than the one that is recorded:
    that is a change of owner, which has a day.
    """
    if changes.get("customer"):
        changes = {**changes, "customer": lock_customer(changes["customer"])}
    vehicle = Vehicle.objects.select_for_update().get(pk=vehicle.pk)
    _refuse_older_view(vehicle, seen)
    if "customer" in changes and vehicle.customer_id and vehicle.customer != changes["customer"]:
        raise field_error("/customer", "owner_recorded")
    before = {field: _plain(getattr(vehicle, field)) for field in changes}
    for field in changes:
        setattr(vehicle, field, changes[field])
    set_vehicle_keys(vehicle)
    vehicle.version += 1
    vehicle.clean_fields()
    vehicle.save(update_fields=[*changes, "vin", "vin_tail", "title_key", "plate_key", "version"])
    keep_words([vehicle])
    after = {field: _plain(getattr(vehicle, field)) for field in changes}
    history.record(actor=actor, verb="changed", row=vehicle, changes={f: [before[f], after[f]] for f in changes})
    return vehicle


@transaction.atomic
def change_owner(*, actor: Actor, vehicle: Vehicle, owner: Customer, since: date, today: date) -> Vehicle:
    """Gives the vehicle another owner from a day on. Quotes and jobs keep the customer that they have.

    Refuses a day in the future, a year that was typed with two digits, and the present owner.
    """
    if since > today:
        raise field_error("/since", "owner_later")
    if today.year - since.year > YEARS:
        raise field_error("/since", "day_far", years=YEARS)
    owner = lock_customer(owner)
    vehicle = Vehicle.objects.select_for_update().get(pk=vehicle.pk)
    if vehicle.customer_id == owner.pk:
        raise field_error("/customer", "owner_same")
    before = vehicle.customer
    vehicle.customer, vehicle.version = owner, vehicle.version + 1
    vehicle.save(update_fields=["customer", "version"])
    changes = {
        "customer": [str(before.pk) if before else "", str(owner.pk)],
        "owner": [before.name if before else "", owner.name],
        "since": ["", since.isoformat()],
    }
    history.record(actor=actor, verb=OWNER_CHANGED, row=vehicle, changes=changes)
    feed.record(actor=actor, kind=feed.Kind.DRAFTS)
    return vehicle


@transaction.atomic
def record_attributes(*, actor: Actor, vehicle: Vehicle, stated: Mapping[str, str]) -> Vehicle:
    """Adds stated values to the vehicle's attributes. Changes nothing if all of them are recorded already."""
    vehicle = Vehicle.objects.select_for_update().get(pk=vehicle.pk)
    before = dict(vehicle.attributes)
    if before == (after := {**before, **stated}):
        return vehicle
    vehicle.attributes = after
    vehicle.version += 1
    vehicle.clean_fields()
    vehicle.save(update_fields=["attributes", "version"])
    history.record(actor=actor, verb="changed", row=vehicle, changes={"attributes": [before, after]})
    return vehicle


def _refuse_older_view(row: Customer | Vehicle, seen: int) -> None:
    if row.version != seen:
        raise RequestError(412, "changed-meanwhile")


def set_customer_keys(customer: Customer) -> None:
    """Sets the search keys of the customer from the texts, which are tidied first."""
    customer.tidy()
    customer.name_key = search_key(customer.name)[:160]
    customer.phone_key = search_key(customer.phone)[:40]


def set_vehicle_keys(vehicle: Vehicle) -> None:
    """Sets the search keys of the vehicle from the texts, which are tidied first."""
    vehicle.tidy()
    vehicle.vin = "".join(vehicle.vin.upper().replace("-", "").split())
    vehicle.vin_tail = vehicle.vin[-8:]
    vehicle.title_key = search_key(vehicle.title)[:160]
    vehicle.plate_key = search_key(vehicle.plate)[:16]


def _plain(value: Any) -> Any:
    return str(value.pk) if isinstance(value, Customer) else value

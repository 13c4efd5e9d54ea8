"""Customers and vehicles that a file completes, written in few statements. One at a time: `shop.services.customers`."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any
from uuid import UUID

from shop.access import Actor
from shop.errors import RequestError
from shop.models import Customer, Vehicle
from shop.queries.owners import OWNER_CHANGED
from shop.services import bulk, feed, history
from shop.services.clean import clean
from shop.services.customers import set_customer_keys, set_vehicle_keys
from shop.services.search_words import keep_words

AT_ONCE = 500  # rows of one query: databases limit parameters
OF_CUSTOMERS = ("phone", "email", "address")
OF_VEHICLES = ("title", "vin", "plate", "attributes", "capacities")


def lock_customers(actor: Actor, customers: Sequence[Customer]) -> dict[UUID, Customer]:
    """{id: the record that the customer is part of by now}, locked until the transaction ends."""
    keys = sorted({customer.pk for customer in customers})
    standing: dict[UUID, Customer] = {}
    for some in _parts(keys):
        rows = Customer.objects.select_for_update(no_key=True, of=("self",)).filter(shop=actor.shop, pk__in=some)
        standing |= {row.pk: row.standing for row in rows.select_related("merged_into").order_by("pk")}
    return standing


def save_customers(*, actor: Actor, customers: Sequence[Customer]) -> None:
    """Saves customers whose phone, e-mail or address was changed in memory, each with a line of history.

    Refused if one was changed by somebody else since it was read.
    """
    for some in _parts(customers):
        stored = _locked(actor, some)
        for customer in some:
            set_customer_keys(customer)
            customer.version += 1
        clean(some)
        bulk.update(some, (*OF_CUSTOMERS, "phone_key", "version"))
        _keep_changed_words(some, stored)
        lines = ((row, _differences(stored[row.pk], row, OF_CUSTOMERS)) for row in some)
        history.record_each(actor=actor, verb="changed", changes=lines)


def save_vehicles(*, actor: Actor, vehicles: Sequence[Vehicle], day: date) -> None:
    """Saves vehicles that were changed in memory, each with a line of history, and one more for another owner.

    `day` is the day since when another customer is the owner. Refused if a vehicle was changed by somebody else since
    it was read.
    """
    for some in _parts(vehicles):
        stored = _locked(actor, some)
        for vehicle in some:
            set_vehicle_keys(vehicle)
            vehicle.version += 1
        clean(some)
        bulk.update(some, (*OF_VEHICLES, "customer", "vin_tail", "title_key", "plate_key", "version"))
        _keep_changed_words(some, stored)
        sold = [row for row in some if stored[row.pk].customer_id not in (None, row.customer_id)]
        _record_owners(actor, sold, stored, day)
        lines = (
            (row, _first_owner(stored[row.pk], row) | _differences(stored[row.pk], row, OF_VEHICLES)) for row in some
        )
        history.record_each(actor=actor, verb="changed", changes=((row, changes) for row, changes in lines if changes))


def _record_owners(actor: Actor, vehicles: Sequence[Vehicle], stored: dict[UUID, Any], day: date) -> None:
    if not vehicles:
        return
    before = {row.pk: row for row in _of_ids(actor, [stored[row.pk].customer_id for row in vehicles])}
    lines = ((row, _owners(before[stored[row.pk].customer_id], row, day)) for row in vehicles)
    history.record_each(actor=actor, verb=OWNER_CHANGED, changes=lines)
    feed.record(actor=actor, kind=feed.Kind.DRAFTS)


def _owners(before: Customer, vehicle: Vehicle, day: date) -> dict[str, list[Any]]:
    owner = vehicle.customer
    assert owner is not None
    return {
        "customer": [str(before.pk), str(owner.pk)],
        "owner": [before.name, owner.name],
        "since": ["", day.isoformat()],
    }


def _first_owner(before: Vehicle, vehicle: Vehicle) -> dict[str, list[Any]]:
    """The change of a vehicle without an owner to one with an owner, which needs no day."""
    new = before.customer_id is None and vehicle.customer_id is not None
    return {"customer": [None, str(vehicle.customer_id)]} if new else {}


def _of_ids(actor: Actor, ids: Sequence[UUID]) -> Iterator[Customer]:
    yield from Customer.objects.filter(shop=actor.shop, pk__in=set(ids))


def _locked(actor: Actor, rows: Sequence[Any]) -> dict[UUID, Any]:
    """The stored rows, locked. 412 if one of them is of another version than the row in memory."""
    own = type(rows[0]).objects.filter(shop=actor.shop, pk__in=[row.pk for row in rows])
    stored = {row.pk: row for row in own.select_for_update().order_by("pk")}
    if any(row.pk not in stored or stored[row.pk].version != row.version for row in rows):
        raise RequestError(412, "changed-meanwhile")
    return stored


def _differences(before: Any, after: Any, names: Sequence[str]) -> dict[str, list[Any]]:
    pairs = {name: [getattr(before, name), getattr(after, name)] for name in names}
    return {name: pair for name, pair in pairs.items() if pair[0] != pair[1]}


def _keep_changed_words(rows: Sequence[Any], stored: dict[UUID, Any]) -> None:
    keep_words([row for row in rows if row.search_texts != stored[row.pk].search_texts])


def _parts(rows: Sequence[Any]) -> Iterator[Sequence[Any]]:
    for start in range(0, len(rows), AT_ONCE):
        yield rows[start : start + AT_ONCE]

"""One box that finds everything: customers, vehicles, quotes, kits, parts, jobs; at most a handful of each."""

import re
from collections.abc import Iterator
from typing import Any

from django.utils import timezone

from kitting.models import Code, Kit, Part
from quotes import access
from quotes.shapes import row_shape
from shop.access import COUNTER, Actor
from shop.calc.keys import search_key
from shop.finding import Handful, begins
from shop.models import Customer, Job, Vehicle
from shop.words import say

EACH = 6
TAIL = 8  # letters that a vehicle keeps of the end of its VIN, for finding
NUMBER = re.compile(r"^(?P<kind>[qj])?-?0*(?P<number>\d{1,9})$", re.IGNORECASE)


def find(who: Actor, typed: str) -> list[dict[str, Any]]:
    """Shapes of what was found, most likely first. Fewer than two letters or digits find nothing."""
    key = search_key(typed)
    if len(key) < 2 and not NUMBER.match(typed.strip()):
        return []
    found = [*_by_number(who, typed.strip())]
    if len(key) >= 2:
        if who.role in COUNTER:
            found += _customers(who, key)
        found += [*_vehicles(who, typed, key), *_kits(who, key), *_parts(who, typed, key)]
    return found


def _row(kind: str, row: Any, title: str, detail: str, **more: Any) -> dict[str, Any]:
    blank: dict[str, Any] = {"state": None, "amount": None, "customer": None, "vehicles": []}
    return {"kind": kind, "id": str(row.pk), "title": title, "detail": detail, **blank, **more}


def _by_number(who: Actor, typed: str) -> Iterator[dict[str, Any]]:
    match = NUMBER.match(typed)
    if not match:
        return
    kind, number = (match["kind"] or "").lower(), int(match["number"])
    if kind != "j" and who.role in COUNTER:
        now = timezone.now()
        quotes = access.quotes(who).filter(number=number)
        for revision in access.newest_revisions(who).filter(quote__in=quotes.values("pk")):
            shape = row_shape(revision, now)
            detail = "; ".join(filter(None, [shape["customer"], shape["vehicle"], *shape["kits"]]))
            yield _row("quote", revision.quote, shape["number"], detail, state=shape["state"], amount=shape["gross"])
    if kind != "q":
        for job in Job.objects.filter(shop=who.shop, number=number).select_related("vehicle", "customer"):
            yield _row("job", job, str(job), f"{job.customer.name}, {job.vehicle.title}", state=job.state)


def _customers(who: Actor, key: str) -> Iterator[dict[str, Any]]:
    rows, found = Customer.objects.filter(shop=who.shop, archived=False), Handful(EACH)
    for field in ("name_key", "phone_key"):
        found.add(rows.filter(begins(field, key)).order_by(field))
    found.look_through(rows, "name_key", "phone_key", holding=key)
    for customer in found.rows(rows.prefetch_related("vehicles")):
        vehicles = [_vehicle(each) for each in customer.vehicles.all()]
        detail = ", ".join([*(each["title"] for each in vehicles), *filter(None, [customer.phone])])
        yield _row("customer", customer, customer.name, detail, customer=str(customer.pk), vehicles=vehicles)


def _vehicle(row: Vehicle) -> dict[str, str]:
    return {"id": str(row.pk), "title": row.title, "plate": row.plate}


def _vehicles(who: Actor, typed: str, key: str) -> Iterator[dict[str, Any]]:
    rows, found = Vehicle.objects.filter(shop=who.shop), Handful(EACH)
    for field in ("plate_key", "title_key"):
        found.add(rows.filter(begins(field, key)).order_by(field))
    tail = typed.strip().upper()
    if len(tail) >= TAIL:
        found.add(rows.filter(vin_tail=tail[-TAIL:], vin__endswith=tail))
    elif len(tail) >= 4:
        found.look_through(rows, "vin_tail", ending=tail)
    for vehicle in found.rows(rows.select_related("customer")):
        owner = vehicle.customer.name if vehicle.customer and who.role in COUNTER else ""
        vin = say("find.vin", tail=vehicle.vin[-6:]) if vehicle.vin else ""
        detail = ", ".join(filter(None, [owner, vehicle.plate, vin]))
        yield _row(
            "vehicle",
            vehicle,
            vehicle.title,
            detail,
            customer=str(vehicle.customer_id) if vehicle.customer_id and who.role in COUNTER else None,
            vehicles=[_vehicle(vehicle)],
        )


def _kits(who: Actor, key: str) -> Iterator[dict[str, Any]]:
    rows, found = Kit.objects.filter(shop=who.shop), Handful(EACH)
    found.add(rows.filter(begins("title_key", key)).order_by("title_key"))
    found.look_through(rows, "title_key", "part__number_key", holding=key)
    for kit in found.rows(rows):
        yield _row("kit", kit, kit.title, kit.code)


def _parts(who: Actor, typed: str, key: str) -> Iterator[dict[str, Any]]:
    rows, found = Part.objects.filter(shop=who.shop), Handful(EACH)
    code = typed.strip()
    found.add(rows.filter(pk__in=Code.objects.filter(shop=who.shop, code__in=[code, code.zfill(14)]).values("part")))
    found.add(rows.filter(begins("number_key", key)).order_by("number_key"))
    for part in found.rows(rows.select_related("superseded_by")):
        detail = say("find.replaced", number=part.superseded_by.number) if part.superseded_by else part.title
        yield _row("part", part, part.number, detail)

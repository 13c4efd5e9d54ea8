"""One box that finds everything: customers, vehicles, quotes, kits, parts, jobs, outside work; a handful of each."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef, QuerySet
from msgspec.structs import replace

from kitting.models import Code, Kit, KitLine, KitRevision, KitWord, Part, PartWord
from kitting.queries.supersessions import newest_parts
from quotes import access
from quotes.answers.search import FoundOut, FoundVehicleOut, Kind
from quotes.models import Quote
from quotes.presenters.part_prices import part_prices
from quotes.presenters.quote import quote_row
from quotes.presenters.search_outside import outside_work
from quotes.queries.quote_filters import NUMBER
from shop.access import COUNTER, Actor
from shop.models import Customer, CustomerWord, Job, Vehicle, VehicleWord
from shop.models.customers import VIN_TAIL
from shop.queries.search import Handful, begins, typed_key, typed_words
from shop.words import say
from shop.words.figures import listed

EACH = 6


def find(actor: Actor, typed: str, now: datetime) -> list[FoundOut]:
    """The matches, most likely first. Fewer than two letters or digits match nothing."""
    key = typed_key(typed)
    if len(key) < 2 and not NUMBER.match(typed.strip()):
        return []
    matches = [*_by_number(actor, typed.strip(), now)]
    if len(key) >= 2:
        words = typed_words(typed)
        matches += [*_by_words(actor, key, words), *_parts(actor, typed, key, words, now)]
        matches += _outside(actor, words) if actor.role in COUNTER else ()
    return matches or [*_by_middle(actor, key)]


def _by_words(actor: Actor, key: str, words: Sequence[str]) -> Iterator[FoundOut]:
    """Rows whose text begins with the key, then rows that have a word for each word typed. An index finds them all."""
    customers, vehicles, kits = Handful(EACH), Handful(EACH), Handful(EACH)
    if actor.role in COUNTER:
        for field in ("name_key", "phone_key"):
            customers.add(_customers(actor).filter(begins(field, key)).order_by(field))
        customers.add_words(CustomerWord.objects.filter(shop=actor.shop), words)
    for field in ("plate_key", "title_key"):
        vehicles.add(_vehicles(actor).filter(begins(field, key)).order_by(field))
    if len(vin := key.upper()) >= VIN_TAIL:
        vehicles.add(_vehicles(actor).filter(vin_tail=vin[-VIN_TAIL:], vin__endswith=vin))
    for typed in (words, [key]):
        vehicles.add_words(VehicleWord.objects.filter(shop=actor.shop), typed)
    kits.add(_kits(actor).filter(begins("title_key", key)).order_by("title_key"))
    kits.add_words(KitWord.objects.filter(shop=actor.shop, target__archived=False), words)
    yield from _found(actor, customers, vehicles, kits)


def _by_middle(actor: Actor, key: str) -> Iterator[FoundOut]:
    """Rows with the key anywhere in their text. No index helps here, so it is tried last."""
    if len(key) < 2:
        return
    customers, vehicles, kits = Handful(EACH), Handful(EACH), Handful(EACH)
    if actor.role in COUNTER:
        customers.look_through(_customers(actor), "name_key", "phone_key", holding=key)
    vehicles.look_through(_vehicles(actor), "title_key", "plate_key", holding=key)
    kits.look_through(_kits(actor), "title_key", "part__number_key", holding=key)
    yield from _found(actor, customers, vehicles, kits)


def _row(kind: Kind, row: Any, title: str, detail: str) -> FoundOut:
    """A row without further details."""
    return FoundOut(
        kind=kind,
        id=row.pk,
        title=title,
        detail=detail,
        state=None,
        amount=None,
        amount_high=None,
        customer=None,
        vehicles=[],
        archived=False,
        why="",
    )


def _by_number(actor: Actor, typed: str, now: datetime) -> Iterator[FoundOut]:
    match = NUMBER.match(typed)
    if not match:
        return
    kind, number = (match["kind"] or "").lower(), int(match["number"])
    if kind != "j" and actor.role in COUNTER:
        quotes = access.quotes(actor).filter(number=number)
        for revision in access.newest_revisions(actor).filter(quote__in=quotes.values("pk")):
            row = quote_row(revision, now)
            detail = "; ".join(filter(None, [row.customer, row.vehicle, *row.kits]))
            plain_row = _row("quote", revision.quote, row.number or "", detail)
            yield replace(plain_row, state=row.state, amount=row.gross, amount_high=row.gross_high)
    if kind != "q":
        for job in Job.objects.filter(shop=actor.shop, number=number).select_related("vehicle", "customer"):
            detail = f"{job.customer.name}, {job.vehicle.title}"
            yield replace(_row("job", job, str(job), detail), state=job.state)


def _customers(actor: Actor) -> QuerySet[Customer]:
    return Customer.objects.filter(shop=actor.shop, archived=False)


def _vehicles(actor: Actor) -> QuerySet[Vehicle]:
    return Vehicle.objects.filter(shop=actor.shop)


def _kits(actor: Actor) -> QuerySet[Kit]:
    return Kit.objects.filter(shop=actor.shop, archived=False)


def _found(actor: Actor, customers: Handful, vehicles: Handful, kits: Handful) -> Iterator[FoundOut]:
    for customer in customers.rows(_customers(actor).prefetch_related("vehicles"), "name_key"):
        yield _customer(customer)
    for vehicle in vehicles.rows(_vehicles(actor).select_related("customer"), "title_key"):
        yield _found_vehicle(actor, vehicle)
    for kit in kits.rows(_kits(actor), "title_key"):
        yield _row("kit", kit, kit.title, kit.code)


def _customer(customer: Customer) -> FoundOut:
    vehicles = [_vehicle(vehicle) for vehicle in customer.vehicles.all()]
    cars = (
        ", ".join(filter(None, [vehicle.title, vehicle.plate, _vin(vehicle)])) for vehicle in customer.vehicles.all()
    )
    detail = "; ".join(filter(None, [customer.phone, *cars]))
    return replace(_row("customer", customer, customer.name, detail), customer=customer.pk, vehicles=vehicles)


def _found_vehicle(actor: Actor, vehicle: Vehicle) -> FoundOut:
    owner = vehicle.customer.name if vehicle.customer and actor.role in COUNTER else ""
    detail = ", ".join(filter(None, [owner, vehicle.plate, _vin(vehicle)]))
    return replace(
        _row("vehicle", vehicle, vehicle.title, detail),
        customer=vehicle.customer_id if actor.role in COUNTER else None,
        vehicles=[_vehicle(vehicle)],
    )


def _vin(vehicle: Vehicle) -> str:
    return say("find.vin", tail=vehicle.vin[-6:]) if vehicle.vin else ""


def _vehicle(row: Vehicle) -> FoundVehicleOut:
    return FoundVehicleOut(id=row.pk, title=row.title, plate=row.plate)


def _parts(actor: Actor, typed: str, key: str, words: Sequence[str], now: datetime) -> Iterator[FoundOut]:
    rows, handful = Part.objects.filter(shop=actor.shop, archived=False), Handful(EACH)
    code = typed.strip()
    codes = Code.objects.filter(shop=actor.shop, code__in=[code, code.zfill(14)]).values("part")
    handful.add(rows.filter(pk__in=codes))
    handful.add(rows.filter(begins("number_key", key)).order_by("number_key"))
    handful.add_words(PartWord.objects.filter(shop=actor.shop), words)
    parts = handful.rows(rows, "number_key")
    newest = newest_parts(actor.shop, parts)
    kits = _kits_of(actor, parts)
    prices = part_prices(actor.shop, parts, now) if actor.role in COUNTER else {}
    for part in parts:
        newer = newest[part.pk]
        detail = part.title if newer == part else say("find.replaced", number=newer.number)
        in_kits = say("find.in_kits", kits=listed(kits[part.pk])) if part.pk in kits else ""
        yield replace(_row("part", part, part.number, detail), why=in_kits, amount=prices.get(part.pk))
    if not parts:
        yield from _archived_parts(actor, codes, key)


def _archived_parts(actor: Actor, codes: Any, key: str) -> Iterator[FoundOut]:
    """Archived parts whose whole number or code was typed or scanned, so that a person who holds one learns of it."""
    rows, handful = Part.objects.filter(shop=actor.shop, archived=True), Handful(EACH)
    handful.add(rows.filter(pk__in=codes))
    handful.add(rows.filter(number_key=key))
    for part in handful.rows(rows, "number_key"):
        yield replace(_row("part", part, part.number, part.title), archived=True, why=say("find.archived"))


def _outside(actor: Actor, words: Sequence[str]) -> Iterator[FoundOut]:
    """Matching outside work, each with the newest quote that has it."""
    for work in outside_work(actor.shop, words, EACH):
        days = say("customer.outside_days", n=work.days) if work.days else ""
        quote = say("find.on_quote", number=Quote(pk=work.quote, number=work.number))
        yield replace(_row("outside", Quote(pk=work.quote), work.name, days), why=quote)


def _kits_of(actor: Actor, parts: Sequence[Part]) -> dict[UUID, list[str]]:
    """Part -> the titles of the kits whose newest version holds it, or that are bought under its number."""
    if not parts:
        return {}
    ids = [part.pk for part in parts]
    later = KitRevision.objects.filter(shop=actor.shop, kit=OuterRef("revision__kit"))
    newer = later.filter(number__gt=OuterRef("revision__number"))
    kit_lines = KitLine.objects.filter(shop=actor.shop, part__in=ids, revision__kit__archived=False)
    lines = kit_lines.filter(~Exists(newer))
    bought = _kits(actor).filter(part__in=ids)
    rows = {*lines.values_list("part", "revision__kit__title"), *bought.values_list("part", "title")}
    titles: dict[UUID, list[str]] = {}
    for part, title in sorted(rows, key=lambda row: row[1]):
        titles.setdefault(part, []).append(title)
    return titles

"""One box that finds everything: customers, vehicles, quotes, kits, parts, jobs, outside work; a handful of each."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Any

from msgspec.structs import replace

from quotes import access
from quotes.answers.search import FoundOut, FoundVehicleOut, Kind
from quotes.models import Quote
from quotes.presenters.part_prices import part_prices
from quotes.presenters.quote import quote_row
from quotes.presenters.search_outside import outside_work
from quotes.queries.quote_filters import NUMBER
from quotes.queries.search import EACH, FoundParts, FoundRows, jobs_numbered, parts_found, rows_by_middle, rows_by_words
from shop.access import COUNTER, Actor
from shop.models import Customer, Vehicle
from shop.queries.search import typed_key, typed_words
from shop.words import say
from shop.words.figures import listed


def find(actor: Actor, typed: str, now: datetime) -> list[FoundOut]:
    """The matches, most likely first. Fewer than two letters or digits match nothing."""
    key = typed_key(typed)
    if len(key) < 2 and not NUMBER.match(typed.strip()):
        return []
    matches = [*_by_number(actor, typed.strip(), now)]
    if len(key) >= 2:
        words = typed_words(typed)
        matches += _rows(actor, rows_by_words(actor, key, words))
        matches += _parts(actor, parts_found(actor, typed, key, words), now)
        matches += _outside(actor, words) if actor.role in COUNTER else ()
    if matches or len(key) < 2:
        return matches
    return [*_rows(actor, rows_by_middle(actor, key))]


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
        for job in jobs_numbered(actor, number):
            detail = f"{job.customer.name}, {job.vehicle.title}"
            yield replace(_row("job", job, str(job), detail), state=job.state)


def _rows(actor: Actor, rows: FoundRows) -> Iterator[FoundOut]:
    for customer in rows.customers:
        yield _customer(customer)
    for vehicle in rows.vehicles:
        yield _found_vehicle(actor, vehicle)
    for kit in rows.kits:
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


def _parts(actor: Actor, handful: FoundParts, now: datetime) -> Iterator[FoundOut]:
    prices = part_prices(actor.shop, handful.parts, now) if actor.role in COUNTER else {}
    for part in handful.parts:
        newer = handful.newest[part.pk]
        detail = part.title if newer == part else say("find.replaced", number=newer.number)
        in_kits = say("find.in_kits", kits=listed(handful.kits[part.pk])) if part.pk in handful.kits else ""
        yield replace(_row("part", part, part.number, detail), why=in_kits, amount=prices.get(part.pk))
    for part in handful.archived:
        yield replace(_row("part", part, part.number, part.title), archived=True, why=say("find.archived"))


def _outside(actor: Actor, words: Sequence[str]) -> Iterator[FoundOut]:
    """Matching outside work, each with the newest quote that has it."""
    for work in outside_work(actor.shop, words, EACH):
        days = say("customer.outside_days", n=work.days) if work.days else ""
        quote = say("find.on_quote", number=Quote(pk=work.quote, number=work.number))
        yield replace(_row("outside", Quote(pk=work.quote), work.name, days), why=quote)

"""Imports vehicles: owner, identity, attributes for conditions, and capacities of circuits."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Any
from uuid import UUID

from shop.access import Actor
from shop.calc.keys import search_key
from shop.calc.quantity import plain
from shop.calc.vin import check_vin
from shop.imports import examples, stored
from shop.models import Customer, Vehicle
from shop.services import bulk
from shop.services.clean import clean
from shop.services.customer_lists import lock_customers, save_vehicles
from shop.services.customers import set_vehicle_keys
from shop.services.search_words import add_words
from shop.tables.columns import Field, Table
from shop.tables.conditions import attribute_name, attribute_value
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check
from shop.tables.numbers import litres
from shop.tables.registry import register
from shop.tables.sheets import Cell
from shop.tables.values import CellError, Value, plain_text, text

ATTRIBUTES = {
    "transmission": ("transmission", "gearbox", "trans"),
    "model": ("model", "model code"),
    "engine": ("engine", "engine code"),
    "drive": ("drive", "drivetrain", "driven wheels"),
    "brakes": ("brakes", "brake system"),
    "fuel": ("fuel",),
    "body": ("body", "body style"),
}
CAPACITIES = ("engine oil", "coolant", "transmission fluid", "brake fluid")


def _attribute(name: str) -> Any:
    def read(cell: Cell, decimal: str) -> Value:
        written = str(text(40)(cell, decimal).value)
        return Value(attribute_value(name, written) if written else "")

    return read


def vin(cell: Cell, decimal: str) -> Value:
    """Reads a VIN in upper case, without white space and hyphens."""
    number = "".join(plain_text(cell).upper().replace("-", "").split())
    if len(number) > 17:
        raise CellError("too_long", limit=17)
    return Value(number)


TABLE = Table(
    "vehicles",
    (
        Field("title", ("title", "make and model", "vehicle", "make model", "car", "type"), text(120), True, True),
        Field("customer", ("customer", "owner", "customer name", "keeper"), text(120)),
        Field("vin", ("vin", "chassis number", "chassis no", "vehicle identification number"), vin),
        Field("plate", ("plate", "registration", "reg", "licence plate", "license plate", "number plate"), text(16)),
        *(Field(name, words, _attribute(name)) for name, words in ATTRIBUTES.items()),
        Field("attribute", ("attribute",), text(40), begins=True),
        *(Field(f"capacity {name}", (f"capacity {name}", f"{name} capacity", name), litres) for name in CAPACITIES),
        Field("capacity", ("capacity",), litres, begins=True),
    ),
    ("vehicles", "vehicle", "cars"),
)


@dataclass(frozen=True, slots=True)
class ImportedVehicle:
    """A vehicle as the file states it."""

    title: str
    customer: str
    vin: str
    plate: str
    attributes: dict[str, str]
    capacities: dict[str, str]
    row: ParsedRow


def plan(file: ParsedFile) -> ImportPreview:
    """The vehicles of the file."""
    vehicles = tuple(_vehicle(row) for row in file.of("vehicles"))
    findings: list[Finding] = []
    for name in ("vin", "plate"):
        seen: dict[str, int] = {}
        for vehicle in vehicles:
            key = search_key(getattr(vehicle, name))
            first = seen.setdefault(key, vehicle.row.number) if key else vehicle.row.number
            if first != vehicle.row.number:
                findings.append(must_fix("row_twice", vehicle.row.at(name), first=first, what=getattr(vehicle, name)))
    for vehicle in vehicles:
        findings += _vin_findings(vehicle, "malformed")
    return ImportPreview(vehicles, tuple(findings))


def _vehicle(row: ParsedRow) -> ImportedVehicle:
    attributes = {name: str(row.get(name)) for name in ATTRIBUTES if row.get(name)}
    capacities: dict[str, str] = {}
    for name, value in row.values.items():
        if name.startswith("attribute:"):
            key = attribute_name(name.partition(":")[2])
            attributes[key] = str(value).casefold() if str(value).casefold() in ("yes", "no") else str(value)
        elif name.startswith("capacity") and isinstance(value, Decimal):
            capacities[attribute_name(name.removeprefix("capacity"))] = plain(value)
    get = row.get
    return ImportedVehicle(
        get("title", ""), get("customer", ""), get("vin", ""), get("plate", ""), attributes, capacities, row
    )


def _vin_findings(vehicle: ImportedVehicle, status: str, market: str = "") -> list[Finding]:
    """A finding if the VIN has that status. Whether its check digit is binding depends on the shop's market."""
    checked = check_vin(vehicle.vin, market or None)
    if not vehicle.vin or checked.status != status:
        return []
    return [please_check(f"vin_{status}", vehicle.row.at("vin"), suggestion=checked.suggestion or "")]


def check(actor: Actor, plan: tuple[ImportedVehicle, ...]) -> ImportPreview:
    """Compares the vehicles with the shop's customers and vehicles."""
    owners, existing = _owners(actor), _existing(actor)
    findings = []
    for imported in plan:
        if imported.customer:
            matches = owners.get(search_key(imported.customer), [])
            if len(matches) != 1:
                code = "customer_unknown" if not matches else "customer_not_clear"
                findings.append(must_fix(code, imported.row.at("customer"), what=imported.customer))
        findings += _vin_findings(imported, "check_digit_wrong", actor.shop.market)
    new = sum(_match(imported, existing) is None for imported in plan)
    becomes = Finding("", "vehicles", facts_of(n=len(plan), new=new, known=len(plan) - new))
    return ImportPreview(plan, tuple(findings), (becomes,))


def write(actor: Actor, plan: tuple[ImportedVehicle, ...], day: date) -> None:
    """Adds new vehicles and completes existing ones."""
    existing = _existing(actor)
    owners = _locked_owners(actor, plan)
    added = []
    completed: dict[UUID, Vehicle] = {}
    for imported in plan:
        customer = owners[search_key(imported.customer)] if imported.customer else None
        vehicle = _match(imported, existing)
        if vehicle is None:
            added.append(_new(actor, imported, customer))
        else:
            _forget(existing, vehicle)
            if _complete(vehicle, imported, customer):
                completed[vehicle.pk] = vehicle
            _keep(existing, vehicle)
    clean(added)
    bulk.insert(added)
    add_words(added)
    save_vehicles(actor=actor, vehicles=[*completed.values()], day=day)


def _locked_owners(actor: Actor, plan: tuple[ImportedVehicle, ...]) -> dict[str, Customer]:
    """{name key: customer} of the owners that the file names, locked."""
    names = {search_key(imported.customer) for imported in plan if imported.customer}
    owners = {name: rows[0] for name, rows in _owners(actor).items() if name in names}
    standing = lock_customers(actor, [*owners.values()])
    return {name: standing[customer.pk] for name, customer in owners.items()}


def _new(actor: Actor, imported: ImportedVehicle, customer: Customer | None) -> Vehicle:
    return Vehicle(
        shop=actor.shop,
        customer=customer,
        title=imported.title,
        title_key=search_key(imported.title)[:160],
        vin=imported.vin,
        vin_tail=imported.vin[-8:],
        plate=imported.plate,
        plate_key=search_key(imported.plate)[:16],
        attributes=imported.attributes,
        capacities=imported.capacities,
    )


def _complete(vehicle: Vehicle, imported: ImportedVehicle, customer: Customer | None) -> bool:
    """Sets what the file adds, for the next row about the same vehicle too. False if it adds nothing."""
    new_values: dict[str, Any] = {
        "title": imported.title,
        "customer": customer or vehicle.customer,
        "vin": imported.vin or vehicle.vin,
        "plate": imported.plate or vehicle.plate,
        "attributes": {**vehicle.attributes, **imported.attributes},
        "capacities": {**vehicle.capacities, **imported.capacities},
    }
    changes = {name: value for name, value in new_values.items() if value != getattr(vehicle, name)}
    for name, value in changes.items():
        setattr(vehicle, name, value)
    if changes:
        set_vehicle_keys(vehicle)
    return bool(changes)


def _owners(actor: Actor) -> dict[str, list[Customer]]:
    customers: dict[str, list[Customer]] = {}
    for customer in Customer.objects.filter(shop=actor.shop, archived=False).order_by("id"):
        customers.setdefault(customer.name_key, []).append(customer)
    return customers


def _existing(actor: Actor) -> dict[tuple[str, str], Vehicle]:
    vehicles: dict[tuple[str, str], Vehicle] = {}
    for vehicle in Vehicle.objects.filter(shop=actor.shop).select_related("customer"):
        _keep(vehicles, vehicle)
    return vehicles


def _keep(vehicles: dict[tuple[str, str], Vehicle], vehicle: Vehicle) -> None:
    if vehicle.vin:
        vehicles["vin", vehicle.vin] = vehicle
    if vehicle.plate_key:
        vehicles["plate", vehicle.plate_key] = vehicle


def _forget(vehicles: dict[tuple[str, str], Vehicle], vehicle: Vehicle) -> None:
    for key in (("vin", vehicle.vin), ("plate", vehicle.plate_key)):
        if vehicles.get(key) == vehicle:
            del vehicles[key]


def _match(imported: ImportedVehicle, existing: dict[tuple[str, str], Vehicle]) -> Vehicle | None:
    """The vehicle with the VIN; by plate only if either side has no VIN, because plates may change vehicles."""
    by_vin = existing.get(("vin", imported.vin)) if imported.vin else None
    if by_vin is not None:
        return by_vin
    by_plate = existing.get(("plate", search_key(imported.plate)[:16])) if imported.plate else None
    return by_plate if by_plate is not None and not (imported.vin and by_plate.vin) else None


KIND = register(
    FileKind(
        "vehicles",
        (TABLE,),
        plan,
        check,
        write,
        stored=partial(stored.vehicles, attributes=ATTRIBUTES, capacities=CAPACITIES),
        example=examples.VEHICLES,
    )
)

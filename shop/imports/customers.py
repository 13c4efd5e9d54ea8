"""Customers: a name, and how to reach them. Somebody already known by name and number is completed, not doubled."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from shop.access import Actor
from shop.calc.keys import search_key
from shop.imports.clean import clean
from shop.imports.columns import Field, Table
from shop.imports.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.imports.findings import Finding, facts_of, must_fix, please_check
from shop.imports.registry import register
from shop.imports.values import email, text
from shop.models import Customer
from shop.services.customers import change_customer
from shop.services.search_words import keep_words

TABLE = Table(
    "customers",
    (
        Field("name", ("name", "customer", "customer name", "owner", "full name"), text(120), True, True),
        Field("phone", ("phone", "telephone", "tel", "phone number", "telephone number", "mobile", "cell"), text(40)),
        Field("email", ("email", "e mail", "mail", "email address", "e mail address"), email),
        Field("address", ("address", "postal address", "street address"), text(200)),
    ),
    ("customers", "customer"),
)


@dataclass(frozen=True, slots=True)
class ImportedCustomer:
    name: str
    phone: str
    email: str
    address: str
    row: ParsedRow

    @property
    def keys(self) -> tuple[str, str]:
        return search_key(self.name)[:160], search_key(self.phone)[:40]


def plan(reading: ParsedFile) -> ImportPreview:
    found = tuple(
        ImportedCustomer(row.get("name", ""), row.get("phone", ""), row.get("email", ""), row.get("address", ""), row)
        for row in reading.of("customers")
    )
    seen: dict[tuple[str, str], int] = {}
    findings: list[Finding] = []
    for one in found:
        first = seen.setdefault(one.keys, one.row.number)
        if first != one.row.number:
            findings.append(must_fix("row_twice", one.row.at("name"), first=first, what=one.name))
    return ImportPreview(found, tuple(findings))


def check(actor: Actor, plan: tuple[ImportedCustomer, ...]) -> ImportPreview:
    known = _known(actor, plan)
    findings = []
    for one in plan:
        same = known.get(one.keys[0], [])
        if _match(one, same) is None and same:
            findings.append(please_check("namesake", one.row.at("name"), what=one.name))
    new = sum(_match(one, known.get(one.keys[0], [])) is None for one in plan)
    becomes = Finding("", "customers", facts_of(n=len(plan), new=new, known=len(plan) - new))
    return ImportPreview(plan, tuple(findings), (becomes,))


def take_in(actor: Actor, plan: tuple[ImportedCustomer, ...], day: date) -> None:
    known = _known(actor, plan)
    added = []
    for one in plan:
        same = known.get(one.keys[0], [])
        customer = _match(one, same)
        if customer is None:
            name_key, phone_key = one.keys
            added.append(
                Customer(
                    shop=actor.shop,
                    name=one.name,
                    name_key=name_key,
                    phone=one.phone,
                    phone_key=phone_key,
                    email=one.email,
                    address=one.address,
                )
            )
        else:
            same[same.index(customer)] = _complete(actor, customer, one)
    clean(added)
    Customer.objects.bulk_create(added)
    keep_words(added)


def _complete(actor: Actor, customer: Customer, one: ImportedCustomer) -> Customer:
    """The customer as it is afterwards, for the next row about the same one."""
    changes: dict[str, Any] = {
        name: value
        for name, value in (("phone", one.phone), ("email", one.email), ("address", one.address))
        if value and value != getattr(customer, name)
    }
    if not changes:
        return customer
    return change_customer(actor=actor, customer=customer, seen=customer.version, changes=changes)


def _known(actor: Actor, plan: tuple[ImportedCustomer, ...]) -> dict[str, list[Customer]]:
    found: dict[str, list[Customer]] = {}
    wanted = {one.keys[0] for one in plan}
    for customer in Customer.objects.filter(shop=actor.shop, archived=False).order_by("id"):
        if customer.name_key in wanted:
            found.setdefault(customer.name_key, []).append(customer)
    return found


def _match(one: ImportedCustomer, same_name: list[Customer]) -> Customer | None:
    """The one with the same number; or the only one of the name when either side has no number."""
    for customer in same_name:
        if customer.phone_key == one.keys[1]:
            return customer
    if len(same_name) == 1 and not (one.keys[1] and same_name[0].phone_key):
        return same_name[0]
    return None


KIND = register(FileKind("customers", (TABLE,), plan, check, take_in))

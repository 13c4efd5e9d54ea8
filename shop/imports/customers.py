"""Imports customers: a name, and contact details.

A customer with the same name and number is completed, not duplicated.
"""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from shop.access import Actor
from shop.calc.keys import search_key
from shop.imports import examples, stored
from shop.models import Customer
from shop.services import bulk
from shop.services.clean import clean
from shop.services.customer_lists import save_customers
from shop.services.customers import set_customer_keys
from shop.services.search_words import add_words
from shop.tables.columns import Field, Table
from shop.tables.engine import FileKind, ImportPreview, ParsedFile, ParsedRow
from shop.tables.findings import Finding, facts_of, must_fix, please_check
from shop.tables.registry import register
from shop.tables.values import email, text

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
    """A customer as the file states it."""

    name: str
    phone: str
    email: str
    address: str
    row: ParsedRow

    @property
    def keys(self) -> tuple[str, str]:
        """(search key of the name, search key of the phone number)"""
        return search_key(self.name)[:160], search_key(self.phone)[:40]


def plan(file: ParsedFile) -> ImportPreview:
    """The customers of the file."""
    customers = tuple(
        ImportedCustomer(row.get("name", ""), row.get("phone", ""), row.get("email", ""), row.get("address", ""), row)
        for row in file.of("customers")
    )
    seen: dict[tuple[str, str], int] = {}
    findings: list[Finding] = []
    for customer in customers:
        first = seen.setdefault(customer.keys, customer.row.number)
        if first != customer.row.number:
            findings.append(must_fix("row_twice", customer.row.at("name"), first=first, what=customer.name))
    return ImportPreview(customers, tuple(findings))


def check(actor: Actor, plan: tuple[ImportedCustomer, ...]) -> ImportPreview:
    """Compares the customers with those of the shop."""
    existing = _existing(actor, plan)
    findings = []
    for imported in plan:
        same = existing.get(imported.keys[0], [])
        if _match(imported, same) is None and same:
            findings.append(please_check("namesake", imported.row.at("name"), what=imported.name))
    new = sum(_match(imported, existing.get(imported.keys[0], [])) is None for imported in plan)
    becomes = Finding("", "customers", facts_of(n=len(plan), new=new, known=len(plan) - new))
    return ImportPreview(plan, tuple(findings), (becomes,))


def write(actor: Actor, plan: tuple[ImportedCustomer, ...], day: date) -> None:
    """Adds new customers and completes existing ones."""
    existing = _existing(actor, plan)
    added = []
    completed: dict[UUID, Customer] = {}
    for imported in plan:
        same = existing.get(imported.keys[0], [])
        customer = _match(imported, same)
        if customer is None:
            name_key, phone_key = imported.keys
            added.append(
                Customer(
                    shop=actor.shop,
                    name=imported.name,
                    name_key=name_key,
                    phone=imported.phone,
                    phone_key=phone_key,
                    email=imported.email,
                    address=imported.address,
                )
            )
        elif _complete(customer, imported):
            completed[customer.pk] = customer
    clean(added)
    bulk.insert(added)
    add_words(added)
    save_customers(actor=actor, customers=[*completed.values()])


def _complete(customer: Customer, imported: ImportedCustomer) -> bool:
    """Sets what the file adds, for the next row about the same person too. False if it adds nothing."""
    changes = {
        name: value
        for name, value in (("phone", imported.phone), ("email", imported.email), ("address", imported.address))
        if value and value != getattr(customer, name)
    }
    for name, value in changes.items():
        setattr(customer, name, value)
    if "phone" in changes:
        set_customer_keys(customer)
    return bool(changes)


def _existing(actor: Actor, plan: tuple[ImportedCustomer, ...]) -> dict[str, list[Customer]]:
    customers: dict[str, list[Customer]] = {}
    names = {imported.keys[0] for imported in plan}
    for customer in Customer.objects.filter(shop=actor.shop, archived=False).order_by("id"):
        if customer.name_key in names:
            customers.setdefault(customer.name_key, []).append(customer)
    return customers


def _match(imported: ImportedCustomer, same_name: list[Customer]) -> Customer | None:
    """The customer with the same number, or the only one of the name if either side has no number."""
    for customer in same_name:
        if customer.phone_key == imported.keys[1]:
            return customer
    if len(same_name) == 1 and not (imported.keys[1] and same_name[0].phone_key):
        return same_name[0]
    return None


KIND = register(
    FileKind("customers", (TABLE,), plan, check, write, stored=stored.customers, example=examples.CUSTOMERS)
)

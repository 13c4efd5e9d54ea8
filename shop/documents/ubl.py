"""Writes documents of the Universal Business Language 2.4 (OASIS): elements in the order of its schemas.

A text keeps its words. Characters that XML 1.0 cannot hold become U+FFFD; an element without a text is left out.
"""

from collections.abc import Sequence
from decimal import Decimal
from xml.etree.ElementTree import Element, SubElement, indent, register_namespace, tostring

from django.http import HttpResponse

from shop.calc.quantity import plain
from shop.calc.unit_codes import CODES, ONE
from shop.xml_text import xml_text

SPACE = "urn:oasis:names:specification:ubl:schema:xsd"
BASIC, AGGREGATE = f"{SPACE}:CommonBasicComponents-2", f"{SPACE}:CommonAggregateComponents-2"

register_namespace("cbc", BASIC)
register_namespace("cac", AGGREGATE)
register_namespace("ubl", f"{SPACE}:Quotation-2")
register_namespace("order", f"{SPACE}:Order-2")


def new_document(name: str) -> Element:
    """The root of a document such as Quotation, with the version of UBL."""
    root = Element(f"{{{SPACE}:{name}-2}}{name}")
    basic(root, "UBLVersionID", "2.4")
    return root


def basic(parent: Element, name: str, text: str, **attributes: str) -> None:
    """Appends an element with a text; none for an empty text."""
    if text := xml_text(text).strip():
        SubElement(parent, f"{{{BASIC}}}{name}", attributes).text = text


def aggregate(parent: Element, *names: str) -> Element:
    """Appends an element for elements, and in it one of each further name; returns the innermost."""
    for name in names:
        parent = SubElement(parent, f"{{{AGGREGATE}}}{name}")
    return parent


def quantity(parent: Element, name: str, amount: Decimal, unit: str) -> None:
    """Appends a quantity with the code of its unit; "" counts without one."""
    basic(parent, name, plain(amount), unitCode=CODES.get(unit, ONE))


def party(
    parent: Element,
    *,
    name: str,
    address: str = "",
    phone: str = "",
    email: str = "",
    registration: str = "",
    tax_number: str = "",
) -> None:
    """Appends the Party of a firm or a person, without what is not recorded."""
    element = aggregate(parent, "Party")
    basic(aggregate(element, "PartyName"), "Name", name)
    if address:
        place = aggregate(element, "PostalAddress")
        for line in filter(None, map(str.strip, address.splitlines())):
            basic(aggregate(place, "AddressLine"), "Line", line)
    if tax_number:
        scheme = aggregate(element, "PartyTaxScheme")
        basic(scheme, "CompanyID", tax_number)
        aggregate(scheme, "TaxScheme")
    if registration:
        entity = aggregate(element, "PartyLegalEntity")
        basic(entity, "RegistrationName", name)
        basic(entity, "CompanyID", registration)
    if phone or email:
        contact = aggregate(element, "Contact")
        basic(contact, "Telephone", phone)
        basic(contact, "ElectronicMail", email)


def item(parent: Element, *, title: str, descriptions: Sequence[str] = (), number: str = "") -> Element:
    """Appends an Item with the number under which its seller sells it."""
    element = aggregate(parent, "Item")
    for description in descriptions:
        basic(element, "Description", description)
    basic(element, "Name", title)
    if number:
        basic(aggregate(element, "SellersItemIdentification"), "ID", number)
    return element


def written(root: Element) -> bytes:
    """The document as UTF-8; equal documents have equal bytes."""
    indent(root)
    body: bytes = tostring(root, encoding="utf-8", xml_declaration=True)
    return body + b"\n"


def xml_response(body: bytes, name: str) -> HttpResponse:
    """A document as a file of this name, which no browser shows as a page."""
    answer = HttpResponse(body, content_type="application/xml")
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    answer["Cache-Control"] = "no-store"
    return answer

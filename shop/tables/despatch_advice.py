"""Reads a DespatchAdvice of UBL 2 (OASIS) as the table that a supplier's packing slip is.

A row of the table has the number of the file's line on which its element begins, or the next one that is free.
"""

import re
from collections.abc import Iterator
from decimal import Decimal

from shop.calc.unit_codes import UNITS_BY_CODE
from shop.tables.findings import Finding, must_fix, please_check
from shop.tables.sheets import Cell, Content, RawFile, Sheet, SheetRow, enough
from shop.tables.xml_tree import XmlElement, read_xml

ROOT = "{urn:oasis:names:specification:ubl:schema:xsd:DespatchAdvice-2}DespatchAdvice"
NUMBER = re.compile(r"[+-]?[0-9]{1,20}(\.[0-9]{0,12})?")
HEADINGS = ("Carton", "Part number", "Description", "Quantity", "Unit")
TITLE = (
    ("Order", ("OrderReference/ID", "DespatchLine/OrderLineReference/OrderReference/ID")),
    ("Packing slip", ("ID",)),
    ("Supplier", ("DespatchSupplierParty/Party/PartyName/Name", "SellerSupplierParty/Party/PartyName/Name")),
    (
        "Arrives",
        (
            "Shipment/Delivery/ActualDeliveryDate",
            "Shipment/Delivery/EstimatedDeliveryPeriod/EndDate",
            "Shipment/Delivery/EstimatedDeliveryPeriod/StartDate",
            "Shipment/Delivery/PromisedDeliveryPeriod/EndDate",
            "Shipment/Delivery/LatestDeliveryDate",
            "Shipment/Delivery/RequestedDeliveryPeriod/EndDate",
        ),
    ),
)
NUMBERED = ("SellersItemIdentification/ID", "BuyersItemIdentification/ID", "ManufacturersItemIdentification/ID")

Numbered = tuple[int, tuple[Content, ...]]
"""(line of the file, cells)"""


def read_despatch_advice(name: str, body: bytes) -> RawFile:
    """The only sheet of the document: its order, number, supplier and day above the lines that were packed."""
    root = read_xml(body, ROOT)
    notes: list[Finding] = []
    lines = list(_lines(root, notes))
    first = min((line for line, _ in lines), default=0)
    title = sorted(_title(root))
    heading = max(first - 1, len(title) + 1)
    rows = _in_order([*((min(line, heading - 1), cells) for line, cells in title), (heading, HEADINGS), *lines])
    enough(len(rows), len(HEADINGS))
    return RawFile(name, (Sheet("", tuple(rows), decimal="."),), tuple(notes))


def _title(root: XmlElement) -> Iterator[tuple[int, tuple[str, str]]]:
    for label, paths in TITLE:
        if element := root.first(*paths):
            yield element.line, (label, element.text)


def _lines(root: XmlElement, notes: list[Finding]) -> Iterator[Numbered]:
    """The lines with something packed. Each that cannot be read is a finding instead, with its line of the file."""
    for line in root.all("DespatchLine"):
        amount = line.first("DeliveredQuantity")
        number = _text(line, *(f"Item/{path}" for path in NUMBERED))
        if problem := _problem(line, amount, number):
            notes.append(problem)
        elif amount:
            carton, title = (
                _text(line, "Shipment/TransportHandlingUnit/ID"),
                _text(line, "Item/Name", "Item/Description"),
            )
            unit = UNITS_BY_CODE.get(amount.attributes.get("unitCode", ""), "")
            yield line.line, (carton, number, title, Decimal(amount.text), unit)


def _problem(line: XmlElement, amount: XmlElement | None, number: str) -> Finding | None:
    """The problem that keeps a line from being read, or that nothing was packed. No unit: pieces."""
    id = _text(line, "ID")[:40] or "-"
    if amount is None:
        return must_fix("slip_without_quantity", line=line.line, id=id)
    code = amount.attributes.get("unitCode", "")
    if not NUMBER.fullmatch(amount.text):
        return must_fix("slip_quantity_unreadable", line=amount.line, id=id, what=amount.text[:40])
    if code and code not in UNITS_BY_CODE:
        return must_fix("slip_unit_unknown", line=amount.line, id=id, unit=code[:20])
    if not number:
        return must_fix("slip_without_number", line=line.line, id=id)
    if Decimal(amount.text) == 0:
        return please_check("slip_nothing_packed", line=line.line, id=id, what=number[:60])
    return None


def _text(element: XmlElement, *paths: str) -> str:
    inner = element.first(*paths)
    return inner.text if inner else ""


def _in_order(rows: list[Numbered]) -> list[SheetRow]:
    """The rows with numbers that rise: several elements may stand on one line of the file."""
    ordered: list[SheetRow] = []
    number = 0
    for line, cells in rows:
        number = max(number + 1, line)
        ordered.append(SheetRow(number, tuple(Cell(content or None) for content in cells)))
    return ordered

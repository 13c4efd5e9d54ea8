"""Reads a shipment of a supplier from a pasted list: its parts, their prices, and the charges of one unit of each."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from uuid import UUID

from kitting.models import Offer, Part, Supplier
from kitting.queries.offers import offers_from
from quotes.calc.part_list import ListedPart
from quotes.calc.shipment import Charges, ShipmentReading, ShippedPart, share_charges
from quotes.queries.part_list import PartList
from shop.calc.money import decimals_of


@dataclass(frozen=True, slots=True)
class ShipmentLine:
    """A line of the list, with the supplier's price of its part and the charges of one unit once all can be shared."""

    line: ListedPart
    reading: ShipmentReading
    part: Part | None
    offer: Offer | None
    charges: Charges | None = None


@dataclass(frozen=True, slots=True)
class ReadShipment:
    """The lines in the order of the list, and the charges of one unit of each part once no line is wrong."""

    lines: tuple[ShipmentLine, ...]
    shares: Mapping[Offer, Charges]

    @property
    def wrong(self) -> tuple[ShipmentLine, ...]:
        return tuple(line for line in self.lines if line.reading not in ("understood", "left_out"))


def read_shipment(supplier: Supplier, part_list: PartList, charges: Charges, day: date) -> ReadShipment:
    """The shipment at the prices of the day. A part on several lines is shared over once."""
    offers = offers_from(supplier, part_list.parts.values(), day)
    lines = [_line(supplier, listed, part_list, offers) for listed in part_list.lines]
    read = ReadShipment(tuple(lines), {})
    quantities: dict[Offer, Decimal] = {}
    for line in lines:
        if line.reading == "understood" and line.offer:
            quantities[line.offer] = quantities.get(line.offer, Decimal(0)) + line.line.quantity
    if read.wrong or not quantities:
        return read
    shares = _shared(supplier, quantities, charges)
    return ReadShipment(tuple(_with(line, shares) for line in lines), shares)


def _line(supplier: Supplier, listed: ListedPart, part_list: PartList, offers: Mapping[UUID, Offer]) -> ShipmentLine:
    part = part_list.parts[listed.part] if listed.part else None
    offer = offers.get(part.pk) if part else None
    reading: ShipmentReading = listed.reading
    if reading == "understood" and offer is None:
        reading = "no_price"
    elif reading == "understood" and offer and offer.currency != supplier.currency:
        reading = "other_currency"
    return ShipmentLine(listed, reading, part, offer)


def _shared(supplier: Supplier, quantities: Mapping[Offer, Decimal], charges: Charges) -> dict[Offer, Charges]:
    parts = [ShippedPart(quantity, offer.unit_cost) for offer, quantity in quantities.items()]
    shares = share_charges(parts, charges, decimals_of(supplier.currency), supplier.shop.exponent)
    return dict(zip(quantities, shares, strict=True))


def _with(line: ShipmentLine, shares: Mapping[Offer, Charges]) -> ShipmentLine:
    charges = shares.get(line.offer) if line.offer and line.reading == "understood" else None
    return ShipmentLine(line.line, line.reading, line.part, line.offer, charges)

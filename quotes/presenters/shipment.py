"""A supplier's shipment in words and figures."""

from kitting.models import Supplier
from quotes.answers.shipment import ShipmentLineOut, ShipmentOut
from quotes.presenters.part_list import line_words
from quotes.queries.shipment import ReadShipment, ShipmentLine
from shop.calc.quantity import plain
from shop.words import say


def shipment_answer(supplier: Supplier, shipment: ReadShipment) -> ShipmentOut:
    understood, wrong = sum(line.reading == "understood" for line in shipment.lines), len(shipment.wrong)
    return ShipmentOut(
        words=say("shipment.wrong", n=wrong) if wrong else say("part_list.read", n=understood),
        understood=understood,
        wrong=wrong,
        currency=supplier.currency,
        rows=[_row(line, supplier) for line in shipment.lines],
    )


def _row(line: ShipmentLine, supplier: Supplier) -> ShipmentLineOut:
    listed, part, charges = line.line, line.part, line.charges
    return ShipmentLineOut(
        row=listed.row,
        text=listed.text,
        reading=line.reading,
        number=part.number if part else listed.number,
        title=part.title if part else "",
        quantity=plain(listed.quantity),
        cost=plain(line.offer.unit_cost) if line.offer else None,
        freight=plain(charges.freight) if charges else None,
        brokerage=plain(charges.brokerage) if charges else None,
        words=_words(line, supplier),
    )


def _words(line: ShipmentLine, supplier: Supplier) -> str:
    number = line.part.number if line.part else ""
    if line.reading == "no_price":
        return say("shipment.no_price", supplier=supplier.name, number=number)
    if line.reading == "other_currency" and line.offer:
        return say("shipment.other_currency", currency=line.offer.currency, other=supplier.currency)
    return line_words(line.line, number)

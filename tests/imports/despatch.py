"""Packing slips as DespatchAdvice documents of UBL, as a supplier's program writes them."""

from collections.abc import Iterable

SPACE = "urn:oasis:names:specification:ubl:schema:xsd"
HEAD = f"""<?xml version="1.0" encoding="UTF-8"?>
<DespatchAdvice xmlns="{SPACE}:DespatchAdvice-2"
 xmlns:cbc="{SPACE}:CommonBasicComponents-2" xmlns:cac="{SPACE}:CommonAggregateComponents-2">
 <cbc:ID>DN-417</cbc:ID>
 <cbc:IssueDate>2026-12-01</cbc:IssueDate>
"""
PARTIES = """ <cac:DespatchSupplierParty><cac:Party>
  <cac:PartyName><cbc:Name>Quillfen Supply</cbc:Name></cac:PartyName>
 </cac:Party></cac:DespatchSupplierParty>
 <cac:DeliveryCustomerParty/>
"""


def slip(order: str, day: str, lines: Iterable[str]) -> str:
    """A document with these lines; without the order or the day where that is empty."""
    reference = f" <cac:OrderReference><cbc:ID>{order}</cbc:ID></cac:OrderReference>\n" if order else ""
    delivery = (
        " <cac:Shipment><cbc:ID>1</cbc:ID><cac:Delivery><cac:EstimatedDeliveryPeriod>\n"
        f"  <cbc:EndDate>{day}</cbc:EndDate>\n"
        " </cac:EstimatedDeliveryPeriod></cac:Delivery></cac:Shipment>\n"
    )
    return f"{HEAD}{reference}{PARTIES}{delivery if day else ''}{''.join(lines)}</DespatchAdvice>\n"


def packed(number: str, quantity: str, unit: str = "H87", title: str = "A part", id: int = 1) -> str:
    """A line of a slip on two lines of the file; without its quantity or number where that is empty."""
    attribute = f' unitCode="{unit}"' if unit else ""
    amount = f"<cbc:DeliveredQuantity{attribute}>{quantity}</cbc:DeliveredQuantity>" if quantity else ""
    own = f"<cac:SellersItemIdentification><cbc:ID>{number}</cbc:ID></cac:SellersItemIdentification>" if number else ""
    return (
        f" <cac:DespatchLine><cbc:ID>{id}</cbc:ID>{amount}<cac:OrderLineReference><cbc:LineID>{id}</cbc:LineID>"
        f"</cac:OrderLineReference>\n  <cac:Item><cbc:Name>{title}</cbc:Name>{own}</cac:Item></cac:DespatchLine>\n"
    )

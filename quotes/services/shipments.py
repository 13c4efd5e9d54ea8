"""Keeps the freight and brokerage of a shipment in the supplier's prices, from which the cost of its parts follows."""

from collections.abc import Mapping
from datetime import date

from django.db import transaction

from kitting.models import Offer, Supplier
from quotes.calc.shipment import Charges
from quotes.queries.part_list import PartList
from quotes.queries.shipment import ReadShipment, read_shipment
from shop.access import Actor
from shop.calc.quantity import plain
from shop.errors import RequestError, field_error
from shop.services import bulk, history


@transaction.atomic
def keep_charges(*, actor: Actor, supplier: Supplier, part_list: PartList, charges: Charges, day: date) -> ReadShipment:
    """Gives each part of the shipment an offer of `day` with its charges; the price and terms are those before it.

    Refuses a list with a wrong row, and one without a part.
    """
    row = Supplier.objects.select_for_update().select_related("shop").get(pk=supplier.pk)
    shipment = read_shipment(row, part_list, charges, day)
    if shipment.wrong:
        rows = ", ".join(str(line.line.row) for line in shipment.wrong)
        raise RequestError(409, "part-list-unread", rows=rows)
    if not shipment.shares:
        raise field_error("/text", "no_parts_in_list")
    _write(shipment.shares, day)
    numbers = dict.fromkeys(line.part.number for line in shipment.lines if line.part and line.charges)
    changes = {"freight": plain(charges.freight), "brokerage": plain(charges.brokerage), "parts": ", ".join(numbers)}
    history.record(
        actor=actor, verb="freight shared", row=row, changes={name: ["", text] for name, text in changes.items()}
    )
    return shipment


def _write(shares: Mapping[Offer, Charges], day: date) -> None:
    added, corrected = list[Offer](), list[Offer]()
    for offer, share in shares.items():
        of_today = offer.valid_from == day
        if not of_today:
            offer = _copy(offer, day)
        offer.freight, offer.brokerage = share.freight, share.brokerage
        offer.clean_fields()
        (corrected if of_today else added).append(offer)
    bulk.insert(added)
    bulk.update(corrected, ("freight", "brokerage"))


def _copy(offer: Offer, day: date) -> Offer:
    return Offer(
        shop_id=offer.shop_id,
        supplier_id=offer.supplier_id,
        part_id=offer.part_id,
        currency=offer.currency,
        unit_cost=offer.unit_cost,
        duty_rate=offer.duty_rate,
        valid_from=day,
        valid_until=offer.valid_until,
        lead_days=offer.lead_days,
    )

"""A released order to one supplier as an Order of UBL 2.4. It holds no price: none is agreed with the release."""

from collections.abc import Sequence
from decimal import Decimal
from uuid import uuid5
from xml.etree.ElementTree import Element
from zoneinfo import ZoneInfo

from quotes.calc.forms import FrozenContent
from quotes.models import Release
from shop.documents import ubl
from shop.documents.ubl import aggregate, basic
from shop.models import Shop


def order_file(release: Release, *, supplier: str, number: int) -> bytes | None:
    """The XML of the order to `supplier`; None if the release holds none.

    `number` is the place of the release among those of its job: with the job's number it is the order's.
    """
    lines = [line for order in release.content["suppliers"] if order["supplier"] == supplier for line in order["lines"]]
    if not lines:
        return None
    root = ubl.new_document("Order")
    released = release.released_at.astimezone(ZoneInfo(release.shop.zone))
    basic(root, "ID", order_number(release, number))
    basic(root, "UUID", str(uuid5(release.pk, supplier)))
    basic(root, "IssueDate", released.date().isoformat())
    basic(root, "IssueTime", released.time().isoformat("seconds"))
    basic(root, "CustomerReference", str(release.job))
    basic(root, "LineCountNumeric", str(len(lines)))
    _parties(root, release.shop, supplier)
    _lines(root, lines)
    return ubl.written(root)


def order_number(release: Release, number: int) -> str:
    """J-1004-2 is the second release of job J-1004."""
    return f"{release.job}-{number}"


def _parties(root: Element, shop: Shop, supplier: str) -> None:
    ubl.party(
        aggregate(root, "BuyerCustomerParty"),
        name=shop.name,
        address=shop.address,
        phone=shop.phone,
        email=shop.email,
        registration=shop.registration,
        tax_number=shop.tax_number,
    )
    ubl.party(aggregate(root, "SellerSupplierParty"), name=supplier)


def _lines(root: Element, lines: Sequence[FrozenContent]) -> None:
    for place, line in enumerate(lines, 1):
        row = aggregate(root, "OrderLine", "LineItem")
        basic(row, "ID", str(place))
        basic(row, "Note", line["for"])
        ubl.quantity(row, "Quantity", Decimal(line["quantity"]), line["unit"])
        ubl.item(row, title=line["title"], number=line["number"])

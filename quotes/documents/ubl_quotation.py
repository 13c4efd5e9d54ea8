"""A sent version as a Quotation of UBL 2.4, from its frozen text alone.

Totals and taxes are those that the text states. Prices are before tax: where the workshop's prices include it, each
line also says its amount with tax, as the customer reads it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from xml.etree.ElementTree import Element
from zoneinfo import ZoneInfo

from quotes.calc.forms import FrozenContent
from quotes.calc.frozen import document_from
from quotes.calc.net_amounts import NetAmounts, net_amounts
from quotes.documents.ubl_lines import QuotedItem, quoted_items
from quotes.presenters.contingencies import contingency_words
from shop.calc.document import Document, Tax, Totals
from shop.calc.quantity import money, plain, unit_money
from shop.calc.tax import total_document
from shop.documents import ubl
from shop.documents.ubl import aggregate, basic
from shop.words import say

ONE = Decimal(1)


@dataclass(frozen=True, slots=True)
class Amounts:
    """The figures of a frozen text: its inputs, their totals, and each amount before tax."""

    document: Document
    totals: Totals
    nets: NetAmounts
    currency: str
    titles: Mapping[str, str]  # of taxes, by code

    def put(self, parent: Element, name: str, amount: Decimal) -> None:
        basic(parent, name, money(amount, self.document.exponent), currencyID=self.currency)

    def taxes_on(self, tax_class: str) -> Iterator[Tax]:
        """The taxes on a class, without those of 0 %."""
        return (tax for tax in self.document.taxes if tax.rate and tax_class in tax.classes)


@dataclass(frozen=True, slots=True)
class QuotedLine:
    """A line with its price. `amount` is as the customer reads it; `net` is before tax."""

    item: QuotedItem
    tax_class: str
    unit_price: Decimal
    amount: Decimal
    net: Decimal


def quotation_file(document: FrozenContent, *, id: str) -> bytes:
    """The XML of the opened text of a sent version; `id` is the version's."""
    amounts = _amounts(document)
    root = ubl.new_document("Quotation")
    _head(root, document, id)
    _parties(root, document)
    for allowance, net in zip(amounts.document.allowances, amounts.nets.allowances, strict=True):
        _allowance(root, allowance.tax_class, net, document, amounts)
    _taxes(root, document["shown"]["totals"], amounts)
    _totals(root, document["shown"]["totals"], amounts)
    for number, line in enumerate(_lines(document, amounts), 1):
        _line(root, number, line, amounts)
    return ubl.written(root)


def _amounts(document: FrozenContent) -> Amounts:
    inputs = document_from(document["inputs"])
    totals = total_document(inputs)
    titles = {tax["code"]: tax["title"] for tax in document["shown"]["totals"]["taxes"]}
    return Amounts(inputs, totals, net_amounts(inputs, totals), document["shop"]["currency"], titles)


def _head(root: Element, document: FrozenContent, id: str) -> None:
    quote = document["quote"]
    sent = datetime.fromisoformat(quote["sent_at"]).astimezone(ZoneInfo(document["shop"]["zone"]))
    basic(root, "ID", f"{quote['number']}-{quote['issue']}")
    basic(root, "UUID", id)
    basic(root, "IssueDate", sent.date().isoformat())
    basic(root, "IssueTime", sent.time().isoformat())
    for note in _notes(document):
        basic(root, "Note", note)
    basic(root, "PricingCurrencyCode", document["shop"]["currency"])
    period = aggregate(root, "ValidityPeriod")
    basic(period, "StartDate", sent.date().isoformat())
    basic(period, "EndDate", quote["valid_day"])


def _notes(document: FrozenContent) -> Iterator[str]:
    """The vehicle, the note to the customer, the price among several, and what is charged only if it happens."""
    vehicle = document["vehicle"]
    yield say("quotation.file.vehicle", title=vehicle["title"], plate=vehicle["plate"] or "-")
    yield document.get("note", "")
    if document["possible"]:
        yield from _price_among_several(document)
    yield from contingency_words(document)


def _price_among_several(document: FrozenContent) -> Iterator[str]:
    price = document["possible"][document["combination"]]
    yield price["words"]
    titles = [
        option["title"]
        for choice in document["choices"]
        for option in choice["options"]
        if option["id"] in price["selection"]
    ]
    if document["choices"]:
        yield say("quotation.file.options", n=len(titles), titles="; ".join(titles))


def _parties(root: Element, document: FrozenContent) -> None:
    house, customer = document["shop"], document["customer"]
    facts = {name: house.get(name, "") for name in ("address", "phone", "email", "registration", "tax_number")}
    ubl.party(aggregate(root, "SellerSupplierParty"), name=house["name"], **facts)
    facts = {name: customer.get(name, "") for name in ("address", "phone")}
    ubl.party(aggregate(root, "BuyerCustomerParty"), name=customer["name"], **facts)


def _allowance(root: Element, tax_class: str, net: Decimal, document: FrozenContent, amounts: Amounts) -> None:
    discount = document["shown"]["discount"]
    allowance = aggregate(root, "AllowanceCharge")
    basic(allowance, "ChargeIndicator", "false")
    basic(allowance, "AllowanceChargeReason", discount["because"] if discount else "")
    amounts.put(allowance, "Amount", net)
    for tax in amounts.taxes_on(tax_class):
        _category(aggregate(allowance, "TaxCategory"), tax, amounts)


def _taxes(root: Element, stated: FrozenContent, amounts: Amounts) -> None:
    """A TaxTotal for each tax, without those of 0 %."""
    bases = {tax.code: tax.taxable for tax in amounts.totals.taxes}
    taxes = {tax.code: tax for tax in amounts.document.taxes}
    for tax in stated["taxes"]:
        if taxes[tax["code"]].rate:
            total = aggregate(root, "TaxTotal")
            amounts.put(total, "TaxAmount", Decimal(tax["amount"]))
            part = aggregate(total, "TaxSubtotal")
            amounts.put(part, "TaxableAmount", bases[tax["code"]])
            amounts.put(part, "TaxAmount", Decimal(tax["amount"]))
            _category(aggregate(part, "TaxCategory"), taxes[tax["code"]], amounts)


def _category(category: Element, tax: Tax, amounts: Amounts) -> None:
    """The rate and the name of a tax. The price rules know no code of a category, so none is stated."""
    title = amounts.titles.get(tax.code, tax.code)
    basic(category, "Name", title)
    basic(category, "Percent", plain(tax.rate * 100))
    scheme = aggregate(category, "TaxScheme")
    basic(scheme, "ID", tax.code)
    basic(scheme, "Name", title)


def _totals(root: Element, stated: FrozenContent, amounts: Amounts) -> None:
    total = aggregate(root, "QuotedMonetaryTotal")
    allowances = sum(amounts.nets.allowances, Decimal(0))
    amounts.put(total, "LineExtensionAmount", Decimal(stated["net"]) + allowances)
    amounts.put(total, "TaxExclusiveAmount", Decimal(stated["net"]))
    amounts.put(total, "TaxInclusiveAmount", Decimal(stated["gross"]))
    if allowances:
        amounts.put(total, "AllowanceTotalAmount", allowances)
    amounts.put(total, "PayableAmount", Decimal(stated["gross"]))


def _lines(document: FrozenContent, amounts: Amounts) -> Iterator[QuotedLine]:
    """The lines of the totals, the shop supplies last."""
    items = quoted_items(document)
    for line, total, net in zip(amounts.document.lines, amounts.totals.lines, amounts.nets.lines, strict=True):
        yield QuotedLine(items[line.id], line.tax_class, line.unit_price, total.amount, net)
    supplies, amount = amounts.document.supplies, amounts.totals.supplies
    if supplies and amount:
        yield QuotedLine(items["supplies"], supplies.tax_class, amount, amount, amounts.nets.supplies)


def _line(root: Element, number: int, line: QuotedLine, amounts: Amounts) -> None:
    element = aggregate(root, "QuotationLine")
    basic(element, "ID", str(number))
    row = aggregate(element, "LineItem")
    basic(row, "ID", str(number))
    ubl.quantity(row, "Quantity", line.item.quantity.copy_sign(line.net), line.item.unit)
    amounts.put(row, "LineExtensionAmount", line.net)
    if amounts.document.prices_include_tax:
        amounts.put(row, "TaxInclusiveLineExtensionAmount", line.amount)
    _price(row, line, amounts)
    goods = ubl.item(row, title=line.item.title, descriptions=line.item.descriptions, number=line.item.number)
    for tax in amounts.taxes_on(line.tax_class):
        _category(aggregate(goods, "ClassifiedTaxCategory"), tax, amounts)
    _steps(row, number, line.item.steps)


def _price(row: Element, line: QuotedLine, amounts: Amounts) -> None:
    """The price of one where it makes the line's net exactly, else the price of the whole quantity. Never negative."""
    price, exponent = aggregate(row, "Price"), amounts.document.exponent
    exact = line.item.quantity * line.unit_price == line.net
    amount = unit_money(abs(line.unit_price), exponent) if exact else money(abs(line.net), exponent)
    basic(price, "PriceAmount", amount, currencyID=amounts.currency)
    ubl.quantity(price, "BaseQuantity", ONE if exact else line.item.quantity, line.item.unit)


def _steps(row: Element, number: int, steps: Sequence[tuple[str, Decimal]]) -> None:
    for place, (title, hours) in enumerate(steps, 1):
        step = aggregate(row, "SubLineItem")
        basic(step, "ID", f"{number}.{place}")
        ubl.quantity(step, "Quantity", hours, "h")
        ubl.item(step, title=title)

"""Drafts of quotes with plain figures, for tests that work a price out by hand."""

import copy
from decimal import Decimal as D
from typing import Any

from kitting.calc.needs import NeedRow
from quotes.calc.labour import KitOperation, LabourOperation
from quotes.calc.priced import PricedNeed, PricedQuote
from quotes.calc.pricing import price_quote
from quotes.calc.quote_input import (
    Buying,
    ChosenKit,
    FigureOverride,
    OfferedItem,
    PackOffer,
    QuoteInput,
)
from shop.calc.rules import Rules
from tests.quotes.stage import RULES

SHARED, TURBO, WIRING = ("SETUP", "1.5"), ("TURBO", "3"), ("WIRING", "2")


def buying(cost: str, **more: Any) -> Buying:
    values = {
        "supplier": "Brightwater Induction",
        "currency": "EUR",
        "rate": D(1),
        "rate_date": None,
        "rate_days": None,
    }
    return Buying(unit_cost=D(cost), **(values | more))


def kit(letter: str, *work: tuple[str, str], **more: Any) -> ChosenKit:
    operations = tuple(KitOperation(code, D(hours)) for code, hours in work)
    values = {"line": letter.lower(), "code": f"KIT-{letter}", "title": f"Kit {letter}", "tax_class": "part"}
    return ChosenKit(letter=letter, operations=operations, **(values | {"own_price": D(100)} | more))


def draft(*kits: ChosenKit, rules: dict[str, Any] | None = None, **more: Any) -> QuoteInput:
    codes = {"SETUP": "mechanical", "TURBO": "mechanical", "WIRING": "electrical"}
    return QuoteInput(
        rules=Rules.from_json({**copy.deepcopy(RULES), **(rules or {})}),
        exponent=2,
        kits=kits,
        operations=tuple(LabourOperation(code, skill) for code, skill in codes.items()),
        titles={code: code.title() for code in codes},
        **more,
    )


def priced(*kits: ChosenKit, **more: Any) -> PricedQuote:
    return price_quote(draft(*kits, **more))


def own(**values: str) -> dict[str, FigureOverride]:
    return {key.replace("_", ":", 1): FigureOverride(D(value), "agreed") for key, value in values.items()}


def work(quote: PricedQuote) -> dict[str, tuple[D, D]]:
    return {operation.code: (operation.hours, operation.price) for operation in quote.operations}


def line(quote: PricedQuote, key: str) -> D:
    return next(total.amount for total in quote.totals.lines if total.id == key)


def oil(*packs: tuple[str, str], name: str = "oil", unit: str = "L") -> OfferedItem:
    offers = tuple(PackOffer(f"{name}-{size}", size, "Oil", D(size), buying(cost)) for size, cost in packs)
    return OfferedItem(name, "Engine oil", "engine oil", unit, "part", offers)


def row(letter: str, quantity: str, item: str = "oil", **more: Any) -> NeedRow:
    return NeedRow(letter, item, "fixed", D(quantity), **more)


def needing(item: OfferedItem, *rows: NeedRow, **more: Any) -> PricedQuote:
    return priced(kit("A", TURBO), kit("B", WIRING), needs=rows, items={item.id: item}, **more)


def need(item: OfferedItem, *rows: NeedRow, **more: Any) -> PricedNeed:
    (single,) = needing(item, *rows, **more).needs
    return single


def taken(priced_need: PricedNeed) -> list[tuple[D, int]]:
    return [(pack.size, pack.count) for pack in priced_need.packs]


def five(sells: str) -> PackOffer:
    return PackOffer("5", "5", "5", D(5), buying("30", sells=D(sells)))


def oil_in(*packs: PackOffer) -> OfferedItem:
    return OfferedItem("oil", "engine oil", "engine oil", "L", "part", packs)

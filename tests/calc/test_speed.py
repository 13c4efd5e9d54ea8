"""A draft is priced on every choice, so the arithmetic must be lost in the noise of one request."""

from collections.abc import Callable
from decimal import Decimal as D
from time import perf_counter

import pytest

from quotes.calc.labour import KitEntry, KitOperation, LabourInput, Operation, Overlap, Sharing, charge_labour
from quotes.calc.landed import Band, Markup, MarkupMode, sell_price
from shop.calc.document import Document, DocumentLine, Supplies, Tax
from shop.calc.tax import total_document

pytestmark = pytest.mark.bench

BUDGET = 10

OPERATIONS = tuple(
    Operation(
        code=f"op-{at:03}",
        skill=("mechanical", "electrical")[at % 2],
        sharing=Sharing.EACH if at % 10 == 0 else Sharing.ONCE,
        exposed=at % 3 == 0,
        includes=tuple(f"op-{inner:03}" for inner in (at + 7, at + 11) if at % 5 == 0 and inner < 120),
    )
    for at in range(120)
)
KITS = tuple(
    KitEntry(
        code=f"kit-{kit}",
        operations=tuple(KitOperation(f"op-{(kit * 30 + at) % 120:03}", D(1 + at % 37) / 10) for at in range(60)),
        first_fit=D("1.15"),
    )
    for kit in range(3)
)
OVERLAPS = tuple(Overlap(f"op-{at:03}", f"op-{at + 1:03}", D("0.2")) for at in range(0, 118, 2))
RATES = {"mechanical": D("137.35"), "electrical": D("149.55")}
VISIT = LabourInput(KITS, OPERATIONS, OVERLAPS, D("1.15"), RATES)

MARKUP = Markup(MarkupMode.GRADUATED, (Band(D(25), D(2)), Band(D(100), D("1.7")), Band(None, D("1.3"))))
TAXES = (Tax("A", D("0.05"), ("part", "labour")), Tax("B", D("0.07"), ("part",), ("A",)))
SUPPLIES = Supplies(("labour",), D("0.06"), D(75), "part")


def price_everything() -> None:
    charge_labour(VISIT)
    prices = [sell_price(D("31.1234") + at, MARKUP, 2) for at in range(400)]
    lines = tuple(DocumentLine(str(at), "part", D("1.5"), price) for at, price in enumerate(prices))
    total_document(Document(lines, supplies=SUPPLIES, taxes=TAXES))


def milliseconds(work: Callable[[], None]) -> float:
    began = perf_counter()
    work()
    return 1000 * (perf_counter() - began)


def test_three_kits_of_sixty_operations_and_four_hundred_lines_are_priced_within_ten_milliseconds() -> None:
    took = min(milliseconds(price_everything) for _ in range(20))
    print(f"3 kits, 60 operations each, 400 lines: {took:.1f} ms of {BUDGET}")
    assert took < BUDGET

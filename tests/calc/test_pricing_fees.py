"""Fees by the litre drained and by the quote, and the minimum charge, each checked by hand."""

from decimal import Decimal as D
from typing import Any

from kitting.calc.needs import NeedRow
from quotes.calc.priced import PricedQuote
from quotes.calc.quote_input import AgreedDiscount, ChosenKit
from shop.calc.reason import Reason
from tests.calc.pricing_drafts import SHARED, TURBO, WIRING, kit, oil, own, priced

DRAINED = {"code": "old", "title": "Old coolant", "amount": "0.75", "tax_class": "fee", "per": "litre drained"}
ADDED = {
    "prices_include_tax": False,
    "taxes": [
        {"code": "STATE", "title": "State tax", "rate": "0.05", "classes": ["part", "labour", "fee"], "on_top_of": []},
        {"code": "COUNTY", "title": "County tax", "rate": "0.07", "classes": ["fee"], "on_top_of": ["STATE"]},
    ],
}


def drained(*needs: NeedRow, fluid: str = "coolant", rules: dict[str, Any] | None = None, **more: Any) -> PricedQuote:
    item = oil(("5", "30"))
    fees = {"fees": [DRAINED | {"fluid": fluid}], "supplies": None}
    return priced(kit("A"), needs=needs, items={item.id: item}, rules=fees | (rules or {}), **more)


def test_a_fee_by_the_litre_drained_where_prices_hold_the_tax() -> None:
    """65 % of 9.8 L are 6.37 L, at 0.75 are 4.7775: 4.78, of which 0.80 is tax (4.78 / 6); the litres bought differ."""
    quote = drained(NeedRow("A", "oil", "refill", D("1.4"), "coolant"), capacities={"coolant": D("9.8")})
    ((fee,), (need,)) = quote.fees, quote.needs
    assert (fee.key, fee.quantity, fee.amount, fee.price) == ("fee:old", D("6.370"), D("0.75"), D("4.78"))
    assert fee.reasons == (Reason.of("fee_per_litre_drained", litres=D("6.370"), amount=D("0.75"), of="coolant"),)
    assert need.quantity != fee.quantity
    # kit 100.00 and a pack of 45.00 in the class of parts: tax inside 145 / 6 = 24.17
    assert (quote.totals.gross, quote.totals.tax_total) == (D("149.78"), D("24.97"))


def test_a_fee_by_the_litre_drained_where_taxes_are_added() -> None:
    """4.78: state tax 5 % of 149.78 is 7.49, county tax 7 % of 4.78 + 0.24 is 0.35."""
    quote = drained(NeedRow("A", "oil", "refill", D("1.4"), "coolant"), capacities={"coolant": D("9.8")}, rules=ADDED)
    assert quote.totals.net == D("149.78")
    assert [tax.amount for tax in quote.totals.taxes] == [D("7.49"), D("0.35")]
    assert quote.totals.gross == D("157.62")


def test_a_fee_by_the_litre_drained_waits_for_the_capacity_and_says_so() -> None:
    row_of_need = NeedRow("A", "oil", "of_capacity", D(1), "gear oil")
    quote = drained(row_of_need, fluid="gear oil")
    assert quote.fees == ()
    assert Reason.of("drained_unknown", title="Old coolant", of="gear oil") in quote.notices
    recorded = drained(row_of_need, fluid="gear oil", capacities={"gear oil": D(2)})
    assert [(fee.quantity, fee.price) for fee in recorded.fees] == [(D("2.000"), D("1.50"))]


def test_a_fluid_that_the_job_does_not_drain_bears_no_fee() -> None:
    quote = drained(NeedRow("A", "oil", "fixed", D(5), ""))
    assert (quote.fees, [notice.code for notice in quote.notices if notice.code == "drained_unknown"]) == ((), [])


def test_a_fee_a_quote_is_charged_where_there_is_something_on_it() -> None:
    rules = {"fees": [{"code": "D", "title": "Disposal", "amount": "4.00", "tax_class": "fee", "per": "quote"}]}
    assert [fee.price for fee in priced(kit("A", TURBO), rules=rules).fees] == [D("4.00")]
    assert priced(rules=rules).fees == ()


def minimum(*kits: ChosenKit, hours: str = "2", **more: Any) -> list[tuple[D, D, D]]:
    rules = {"minimum": {"hours": hours}, "fees": [], **more.pop("rules", {})}
    return [(fee.quantity, fee.amount, fee.price) for fee in priced(*kits, rules=rules, **more).fees]


def test_labour_below_the_minimum_charge_is_made_up_in_a_line_of_its_own() -> None:
    assert minimum(kit("A", SHARED)) == [(D("0.5"), D("165.00"), D("82.50"))]
    assert minimum(kit("A", ("TURBO", "0.3"), ("WIRING", "0.8"))) == [(D("0.9"), D("180.00"), D("162.00"))]
    assert minimum(kit("A", ("TURBO", "0.6"), ("WIRING", "0.6"))) == [(D("0.8"), D("165.00"), D("132.00"))]


def test_no_minimum_is_charged_where_it_is_reached_or_nothing_is_fitted() -> None:
    assert minimum(kit("A", WIRING)) == []
    assert minimum(kit("A")) == []
    assert minimum(kit("A", SHARED), overrides=own(labour_SETUP="0")) == []
    assert minimum(kit("A", SHARED), hours="0") == []


def test_hours_set_by_hand_count_towards_the_minimum() -> None:
    assert minimum(kit("A", SHARED), overrides=own(labour_SETUP="0.5")) == [(D("1.5"), D("165.00"), D("247.50"))]


def test_the_minimum_charge_has_the_tax_class_of_its_skill_and_no_discount() -> None:
    classes = {"labour_classes": {"mechanical": "low"}, "minimum": {"hours": "2"}, "fees": []}
    quote = priced(kit("A", SHARED), rules=classes, discount=AgreedDiscount(D(10), None, "regular"))
    (line_of_minimum,) = (line for line in quote.document.lines if line.id == "minimum")
    assert line_of_minimum.tax_class == "low"
    assert quote.discount is not None and quote.discount.base == D("347.50")


def test_all_needs_of_a_family_bear_its_fee_together() -> None:
    oils = {name: oil(("5", "30"), name=name) for name in ("thin", "thick")}
    rows = (NeedRow("A", "thin", "fixed", D(3)), NeedRow("A", "thick", "fixed", D(2)))
    (fee,) = priced(kit("A", TURBO), needs=rows, items=oils).fees
    assert (fee.quantity, fee.price) == (D(5), D("4.00"))

"""Figures of quotes from their choices, each checked against a calculation by hand."""

import copy
from decimal import Decimal as D
from typing import Any

import pytest

from kitting.calc.needs import NeedRow
from quotes.calc.buying import price_unit
from quotes.calc.labour import KitOperation, LabourOperation
from quotes.calc.priced import PricedNeed, PricedQuote
from quotes.calc.pricing import margin_rate, price_quote, savings
from quotes.calc.quote_input import (
    AgreedDiscount,
    Buying,
    ChosenKit,
    Extra,
    FigureOverride,
    OfferedItem,
    PackOffer,
    QuoteInput,
)
from shop.calc.errors import CalculationError
from shop.calc.reason import Reason
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


# labour


def test_own_hours_are_charged_in_the_place_of_the_computed_ones() -> None:
    quote = priced(kit("A", SHARED, TURBO), kit("B", ("SETUP", "1.8"), WIRING), overrides=own(labour_TURBO="4"))
    assert work(quote) == {
        "SETUP": (D("1.8"), D("297.00")),
        "TURBO": (D("4.0"), D("660.00")),
        "WIRING": (D("2.0"), D("360.00")),
    }
    assert (quote.hours, quote.labour_total) == (D("7.8"), D("1317.00"))
    assert line(quote, "labour:mechanical") == D("957.00")


def test_own_hours_of_nothing_are_nothing() -> None:
    assert work(priced(kit("A", SHARED, TURBO), overrides=own(labour_TURBO="0"))) == {
        "SETUP": (D("1.5"), D("247.50")),
        "TURBO": (D("0.0"), D("0.00")),
    }


def test_the_prices_of_operations_add_up_to_the_price_of_their_skill() -> None:
    quote = priced(kit("A", ("SETUP", "0.1"), ("TURBO", "0.1")), rules={"labour_rates": {"mechanical": "100.05"}})
    assert work(quote) == {"SETUP": (D("0.1"), D("10.01")), "TURBO": (D("0.1"), D("10.00"))}
    assert quote.labour_total == D("20.01")


def test_apart_is_what_every_kit_would_be_charged_alone() -> None:
    twice = priced(kit("A", ("TURBO", "2.25")), kit("B", ("TURBO", "2.25"), code="KIT-A"))
    assert (twice.hours, twice.apart_hours) == (D("2.3"), D("4.6"))


def test_a_kit_with_only_hours_is_fitted_at_the_first_skill() -> None:
    quote = priced(kit("A", own_hours=D("2.5")))
    assert [(operation.skill, operation.hours, operation.price, operation.title) for operation in quote.operations] == [
        ("mechanical", D("2.5"), D("412.50"), "Kit A")
    ]


def test_an_hour_costs_the_workshop_what_its_rules_say() -> None:
    quote = priced(kit("A", TURBO, WIRING), rules={"labour_costs": {"mechanical": "60.00"}})
    assert {skill.skill: skill.cost for skill in quote.skills} == {"mechanical": D("180.00"), "electrical": None}
    assert quote.cost == D("180.00")


def test_a_condition_that_the_rules_do_not_have_is_refused() -> None:
    with pytest.raises(CalculationError, match="bad_factor: wrecked"):
        priced(kit("A", TURBO), condition="wrecked")


def test_every_skill_has_the_tax_class_of_the_rules() -> None:
    quote = priced(kit("A", TURBO, WIRING), rules={"labour_classes": {"electrical": "fee"}})
    assert [(entry.id, entry.tax_class) for entry in quote.document.lines][1:] == [
        ("labour:mechanical", "labour"),
        ("labour:electrical", "fee"),
    ]


# needs


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


def test_packs_are_chosen_for_the_whole_job() -> None:
    priced_need = need(oil(("1", "8"), ("5", "30")), row("A", "3"), row("B", "3"))
    assert (taken(priced_need), priced_need.price, priced_need.cost) == ([(D(5), 1), (D(1), 1)], D("57.00"), D("38.00"))
    assert priced_need.kits == ("A", "B")


def test_packs_are_chosen_by_what_the_customer_pays() -> None:
    priced_need = need(oil(("5", "99"), ("10", "200")), row("A", "10"))  # 2 x 148.50, or 150 + 100 x 1.2
    assert (taken(priced_need), priced_need.price) == ([(D(10), 1)], D("270.00"))


@pytest.mark.parametrize(
    ("quantity", "charge", "price"),
    [("8", "pack", "90.00"), ("8", "used", "72.00"), ("8", "supplies", "0.00"), ("3.333", "used", "30.00")],
)
def test_a_need_is_charged_once_in_one_way(quantity: str, charge: str, price: str) -> None:
    priced_need = need(oil(("5", "30")), row("A", quantity, charge=charge))
    assert priced_need.price == D(price)
    assert priced_need.cost == D(30) * sum(pack.count for pack in priced_need.packs)


def test_a_need_charged_in_two_ways_has_two_keys_and_one_fee() -> None:
    item = oil(("5", "30"))
    quote = needing(item, row("A", "5"), row("B", "5", charge="used"), overrides=own(need_oil="10"))
    assert [(priced_need.key, priced_need.price) for priced_need in quote.needs] == [
        ("oil", D("10.00")),
        ("oil:used", D("45.00")),
    ]
    assert (line(quote, "need:oil"), line(quote, "need:oil:used")) == (D("10.00"), D("45.00"))
    assert [(fee.key, fee.quantity, fee.price) for fee in quote.fees] == [("fee:oil", D(10), D("8.00"))]


def test_only_litres_bear_a_fee_by_the_litre() -> None:
    assert needing(oil(("5", "30"), unit="kg"), row("A", "5")).fees == ()


def five(sells: str) -> PackOffer:
    return PackOffer("5", "5", "5", D(5), buying("30", sells=D(sells)))


def oil_in(*packs: PackOffer) -> OfferedItem:
    return OfferedItem("oil", "engine oil", "engine oil", "L", "part", packs)


@pytest.mark.parametrize(("charge", "inside"), [("pack", True), ("used", True), ("pack", False), ("used", False)])
def test_a_pack_sells_at_its_own_price_where_it_has_one(charge: str, inside: bool) -> None:
    """Two packs of 5 L at 40.00 and not at 45.00: 80.00 whole, 64.00 for 8 L, and cost stays 60.00."""
    priced_need = need(oil_in(five("40")), row("A", "8", charge=charge), rules={"prices_include_tax": inside})
    assert (priced_need.price, priced_need.cost) == (D("80.00" if charge == "pack" else "64.00"), D("60.00"))


def test_own_prices_choose_the_packs() -> None:
    """10 L by the bands: one pack of 10 L, 85.00, beats two of 45.00. At 41.00 of its own the two are cheaper."""
    ten = PackOffer("10", "10", "10", D(10), buying("56.67"))
    assert taken(need(oil_in(five("41"), ten), row("A", "10"))) == [(D(5), 2)]


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


def test_the_next_best_packs_are_told_with_what_they_cost_more() -> None:
    priced_need = need(oil(("1", "8"), ("5", "30")), row("A", "6"))
    (reason,) = (reason for reason in priced_need.reasons if reason.code == "runner_up")
    assert reason.named == {"sizes": ("1",) * 6, "more": D("15.00")}


def test_a_need_without_packs_keeps_the_quote_until_somebody_prices_it() -> None:
    def notices(**more: Any) -> list[str]:
        return [notice.code for notice in needing(oil(), row("A", "3"), **more).notices]

    assert notices() == ["no_pack"]
    assert notices(overrides=own(need_oil="20")) == []


# kits, extras, the whole


def test_an_own_price_of_a_kit_is_in_the_total() -> None:
    quote = priced(kit("A", buying=buying("200"), own_hours=D(0)), overrides=own(kit_a="199"))
    assert (quote.kits[0].price, quote.kits[0].cost) == (D("199.00"), D("200.00"))
    assert (quote.totals.gross, quote.totals.tax_total) == (D("199.00"), D("33.17"))


def test_a_kit_saves_its_work_its_needs_and_their_tax() -> None:
    rows = (row("A", "5"), row("B", "5"))
    kits = (kit("A", SHARED, TURBO), kit("B", ("SETUP", "1.8"), WIRING))
    quote = draft(*kits, needs=rows, items={"oil": oil(("5", "30"))}, rules={"supplies": None})
    # without A: 3 h, 100 of kit, 45 of oil, 4 of fee; without B: shared work goes on at 1.5 h, WIRING falls away
    assert [(saving.line, saving.hours, saving.amount) for saving in savings(quote, price_quote(quote))] == [
        ("a", D("3.0"), D("644.00")),
        ("b", D("2.3"), D("558.50")),
    ]


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


def test_of_two_entries_of_a_kit_one_is_saved() -> None:
    quote = draft(kit("A", TURBO), kit("B", TURBO, code="KIT-A"), rules={"supplies": None})
    assert [saving.amount for saving in savings(quote, price_quote(quote))] == [D("100.00"), D("100.00")]


def test_a_loose_part_sells_at_its_own_price_also_at_nothing() -> None:
    def extra(quantity: str, price: str | None) -> Extra:
        own_price = None if price is None else D(price)
        return Extra("e", "Clip", "part", D(quantity), own_price, buying("10"), "part-1")

    def sells(quantity: str, price: str | None) -> tuple[D, D | None]:
        (priced_extra,) = priced(extras=(extra(quantity, price),)).extras
        return priced_extra.price, priced_extra.cost

    assert sells("2.5", None) == (D("37.50"), D("25.00"))
    assert sells("2.5", "3.33") == (D("8.33"), D("25.00"))
    assert sells("4", "0") == (D("0.00"), D("40.00"))


def test_supplies_and_tax_are_those_of_the_rules() -> None:
    kits = (kit("A", TURBO),)
    inside = priced(*kits).totals
    assert (inside.supplies, inside.gross, inside.tax_total) == (D("24.75"), D("619.75"), D("103.30"))  # a class each
    beside = priced(*kits, rules={"prices_include_tax": False}).totals
    assert (beside.net, beside.gross) == (D("619.75"), D("743.70"))


@pytest.mark.parametrize(
    ("bought", "code"), [({"buying": buying("10", rate=None)}, "no_rate"), ({"own_price": None}, "no_price")]
)
def test_a_kit_without_a_price_is_noticed_until_somebody_prices_it(bought: dict[str, Any], code: str) -> None:
    assert [notice.code for notice in priced(kit("A", TURBO, **bought)).notices] == [code]
    assert priced(kit("A", TURBO, **bought), overrides=own(kit_a="50")).notices == ()


def test_a_tax_class_that_no_rule_names_is_noticed() -> None:
    (notice,) = priced(kit("A", TURBO, tax_class="gift")).notices
    assert (notice.code, notice.named) == ("unknown_class", {"tax_class": "gift"})


def test_a_bought_unit_is_landed_and_marked_up() -> None:
    rules = Rules.from_json({**RULES, "duty_base": "goods_and_freight"})
    foreign = buying("100", currency="USD", rate=D("0.9"), freight=D(10), brokerage=D(5), duty_rate=D("0.1"))
    pricing = price_unit(foreign, rules, 2)
    assert pricing is not None
    assert (pricing.cost, pricing.price) == (D("113.90"), D("166.68"))  # 90 + 9 + 9.90 + 5; 100 x 1.5 + 13.90 x 1.2
    assert price_unit(buying("100", rate=None), rules, 2) is None


def test_the_margin_is_a_share_of_what_is_sold() -> None:
    assert (margin_rate(D(200), D(150)), margin_rate(D(0), D(5))) == (D("0.2500"), None)


# discount


def discounted(*kits: ChosenKit, percent: str | None = None, amount: str | None = None, **more: Any) -> PricedQuote:
    figures = [None if figure is None else D(figure) for figure in (percent, amount)]
    return priced(*kits, discount=AgreedDiscount(figures[0], figures[1], "agreed"), **more)


def test_a_discount_is_given_on_all_lines_but_fees_and_supplies() -> None:
    """Kit 100.00, labour 495.00, part 40.00, oil 57.00; fee 4.80 and supplies 24.75 stay."""
    item, extra = oil(("1", "8"), ("5", "30")), Extra("x", "Hose", "part", D(2), D(20))
    quote = discounted(kit("A", TURBO), percent="10", needs=(row("A", "6"),), items={item.id: item}, extras=(extra,))
    assert quote.discount and (quote.discount.base, quote.discount.amount) == (D("692.00"), D("69.20"))
    assert [(allowance.tax_class, allowance.amount) for allowance in quote.document.allowances] == [
        ("part", D("19.70")),
        ("labour", D("49.50")),
    ]
    assert quote.totals.supplies == D("24.75") and quote.totals.gross == D("652.35")


def test_supplies_are_worked_out_before_the_discount() -> None:
    assert discounted(kit("A", TURBO), percent="50").totals.supplies == priced(kit("A", TURBO)).totals.supplies


def test_a_discount_of_more_than_there_is_does_not_count_and_is_noticed() -> None:
    quote = discounted(kit("A", TURBO), amount="595.01")
    assert quote.discount and quote.discount.too_large and quote.document.allowances == ()
    assert quote.totals.gross == priced(kit("A", TURBO)).totals.gross
    assert [dict(notice.facts) for notice in quote.notices if notice.code == "discount_too_large"] == [
        {"amount": D("595.01"), "base": D("595.00")}
    ]
    assert discounted(kit("A", TURBO), amount="595.00").discount.amount == D("595.00")  # type: ignore[union-attr]


def test_without_a_kit_its_discount_is_saved_too() -> None:
    quote = draft(kit("A", own_price=D(600)), kit("B", own_price=D(400)), discount=AgreedDiscount(D(10), None, "x"))
    (first, _) = savings(quote, price_quote(quote))
    assert first.amount == D("540.00")

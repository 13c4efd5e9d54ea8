"""Figures of quotes from their choices, each checked against a calculation by hand."""

from decimal import Decimal as D
from typing import Any

import pytest

from quotes.calc.buying import price_unit
from quotes.calc.priced import PricedQuote
from quotes.calc.pricing import margin_rate, price_quote, savings
from quotes.calc.quote_input import AgreedDiscount, ChosenKit, Extra
from shop.calc.errors import CalculationError
from shop.calc.rules import Rules
from tests.calc.pricing_drafts import SHARED, TURBO, WIRING, buying, draft, kit, line, oil, own, priced, row, work
from tests.quotes.stage import RULES

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

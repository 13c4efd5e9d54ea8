"""A quote holds no longer than its rules, the offers it buys at and the rates that are kept."""

from datetime import date
from decimal import Decimal as D
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.pricing import price_quote
from quotes.calc.quote_input import Extra, PackOffer
from quotes.calc.validity import Validity, validity
from shop.calc.rules import Rules
from tests.calc.pricing_drafts import TURBO, buying, draft, kit, oil_in, priced, row
from tests.quotes.stage import RULES


def rules(**more: Any) -> Rules:
    return Rules.from_json({**RULES, "validity_days": 14, **more})


def told(limit: Validity) -> tuple[int, str, dict[str, object]]:
    return limit.days, limit.because.code, dict(limit.because.facts)


def part(days_left: int | None, title: str = "Hose") -> Extra:
    return Extra(title, title, "part", D(1), None, buying("40", days_left=days_left), title)


def test_the_rule_holds_where_no_price_ends_before_it() -> None:
    quote = priced(kit("A", buying=buying("100", days_left=30)), kit("B", buying=buying("100")))
    assert told(validity(rules(), [quote])) == (14, "valid_rules", {})


def test_the_offer_that_ends_first_ends_the_quote() -> None:
    quote = priced(
        kit("A", buying=buying("100", days_left=9)), kit("B", buying=buying("100", days_left=5, supplier="Quillfen"))
    )
    assert told(validity(rules(), [quote])) == (5, "valid_offer", {"supplier": "Quillfen", "title": "Kit B"})


def test_an_offer_that_ends_today_leaves_today_and_one_that_has_ended_is_a_notice() -> None:
    assert validity(rules(), [priced(kit("A", buying=buying("100", days_left=0)))]).days == 0
    ended = priced(kit("A", buying=buying("100", days_left=-1)))
    assert validity(rules(), [ended]).days == 14
    assert [notice.code for notice in ended.notices if notice.code == "offer_ended"] == ["offer_ended"]


def test_foreign_money_keeps_its_rate_for_the_days_of_the_rules() -> None:
    abroad = priced(kit("A", buying=buying("100", currency="USD", rate=D("0.9"), rate_date=date(2026, 11, 2))))
    assert told(validity(rules(currency_days=7), [abroad])) == (7, "valid_currency", {"currency": "USD"})
    assert validity(rules(), [abroad]).days == 14
    assert validity(rules(currency_days=7), [priced(kit("A", buying=buying("100")))]).days == 14


@pytest.mark.parametrize("days", [3, 0])
def test_what_the_customer_may_choose_counts_as_well(days: int) -> None:
    proposed, other = priced(kit("A")), priced(kit("B", buying=buying("100", days_left=days)))
    assert validity(rules(), [proposed, other]).days == days


def test_loose_parts_and_packs_end_it_too() -> None:
    assert validity(rules(), [price_quote(draft(extras=(part(4),)))]).days == 4
    item = oil_in(PackOffer("5", "5", "Oil, 5 L", D(5), buying("30", days_left=3)))
    quote = priced(kit("A", TURBO), needs=(row("A", "4"),), items={item.id: item})
    assert told(validity(rules(), [quote]))[2]["title"] == "Oil, 5 L"


@given(st.lists(st.none() | st.integers(-5, 40), max_size=4), st.integers(0, 30))
def test_it_is_never_longer_than_the_rule_and_never_over(left: list[int | None], days: int) -> None:
    quote = price_quote(draft(extras=tuple(part(at, f"P{n}") for n, at in enumerate(left))))
    limit = validity(rules(validity_days=days), [quote])
    assert 0 <= limit.days <= days
    assert all(at is None or at < 0 or limit.days <= at for at in left)

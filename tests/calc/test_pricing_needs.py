"""Prices of needs: the packs that are chosen, and what is charged for them."""

from decimal import Decimal as D
from typing import Any

import pytest

from quotes.calc.quote_input import PackOffer
from tests.calc.pricing_drafts import buying, five, line, need, needing, oil, oil_in, own, row, taken


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
    used = D(quantity) / sum(pack.size * pack.count for pack in priced_need.packs)
    whole = D(30) * sum(pack.count for pack in priced_need.packs)
    assert priced_need.cost == whole if charge == "pack" else round(whole * used, 2)


def test_kits_that_charge_in_two_ways_share_the_packs_and_are_charged_once() -> None:
    """2 L and 2 L: one pack of 5 L for both, and not one for each."""
    item = oil(("5", "30"))
    quote = needing(item, row("A", "2"), row("B", "2", charge="used"))
    (priced_need,) = quote.needs
    assert (priced_need.key, taken(priced_need), priced_need.price) == ("oil", [(D(5), 1)], D("45.00"))
    assert (priced_need.charge, priced_need.reasons[-1].code) == ("pack", "charge_kits_differ")
    assert line(quote, "need:oil") == D("45.00")
    assert [(fee.key, fee.quantity, fee.price) for fee in quote.fees] == [("fee:oil", D(4), D("3.20"))]


@pytest.mark.parametrize(
    ("family", "chosen", "way", "because"),
    [
        ("engine oil", {}, "used", "rules"),
        ("Engine Oil", {}, "used", "rules"),
        ("grease", {}, "pack", "kit"),
        ("engine oil", {"oil": "supplies"}, "supplies", "chosen"),
        ("engine oil", {"grease": "supplies"}, "used", "rules"),
    ],
)
def test_the_advisor_goes_before_the_rules_and_these_before_the_kit(
    family: str, chosen: dict[str, str], way: str, because: str
) -> None:
    priced_need = need(oil(("5", "30")), row("A", "5"), rules={"charges": {family: "used"}}, charges=chosen)
    assert (priced_need.charge, priced_need.charged_because) == (way, because)


def test_only_litres_bear_a_fee_by_the_litre() -> None:
    assert needing(oil(("5", "30"), unit="kg"), row("A", "5")).fees == ()


@pytest.mark.parametrize(("charge", "inside"), [("pack", True), ("used", True), ("pack", False), ("used", False)])
def test_a_pack_sells_at_its_own_price_where_it_has_one(charge: str, inside: bool) -> None:
    """Two packs of 5 L at 40.00 and not at 45.00: 80.00 whole, 64.00 for 8 L; they cost 60.00, and 8 L 48.00."""
    priced_need = need(oil_in(five("40")), row("A", "8", charge=charge), rules={"prices_include_tax": inside})
    whole, used = (D("80.00"), D("60.00")), (D("64.00"), D("48.00"))
    assert (priced_need.price, priced_need.cost) == (whole if charge == "pack" else used)


def test_own_prices_choose_the_packs() -> None:
    """10 L by the bands: one pack of 10 L, 85.00, beats two of 45.00. At 41.00 of its own the two are cheaper."""
    ten = PackOffer("10", "10", "10", D(10), buying("56.67"))
    assert taken(need(oil_in(five("41"), ten), row("A", "10"))) == [(D(5), 2)]


def test_the_next_best_packs_are_told_with_what_they_cost_more() -> None:
    priced_need = need(oil(("1", "8"), ("5", "30")), row("A", "6"))
    (reason,) = (reason for reason in priced_need.reasons if reason.code == "runner_up")
    assert reason.named == {"sizes": ("1",) * 6, "more": D("15.00")}


def test_a_need_without_packs_keeps_the_quote_until_somebody_prices_it() -> None:
    def notices(**more: Any) -> list[str]:
        return [notice.code for notice in needing(oil(), row("A", "3"), **more).notices]

    assert notices() == ["no_pack"]
    assert notices(overrides=own(need_oil="20")) == []


def test_a_persons_own_price_for_a_need_is_what_it_costs() -> None:
    quote = needing(oil(("5", "30")), row("A", "3"), overrides=own(need_oil="20"))
    assert (quote.needs[0].price, line(quote, "need:oil")) == (D("20.00"), D("20.00"))

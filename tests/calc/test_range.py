"""The price range, compared with a second implementation on digits, and properties of every quote."""

from dataclasses import replace
from decimal import Decimal as D
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.price_range import Possibilities, price_range
from shop.calc.errors import CalculationError
from shop.calc.reason import Reason

money = st.decimals("0", "99", places=2) | st.decimals("0", "250000", places=2) | st.integers(0, 10**9).map(D)
hours = st.decimals("0", "400", places=1)
possibilities = st.builds(
    Possibilities,
    totals=st.lists(money, min_size=1, max_size=5).map(tuple),
    hours=st.lists(hours, min_size=1, max_size=5).map(tuple),
    if_it_happens=st.just(D(0)) | money,
)


def spoken(amount: D, up: bool) -> D:
    """Keeps the first two digits before the decimal point and replaces the others with zeros; rounds up if `up`."""
    whole, _, decimals = format(amount, "f").partition(".")
    leading, dropped = whole[:2], whole[2:]
    more = up and (dropped + decimals).strip("0") != ""
    return D(str(int(leading) + more) + "0" * len(dropped))


@given(possibilities)
def test_each_end_keeps_two_digits_of_its_own(possible: Possibilities) -> None:
    result = price_range(possible)
    assert result.low == spoken(min(possible.totals), up=False)
    assert result.high == spoken(max(possible.totals) + possible.if_it_happens, up=True)


@given(possibilities)
def test_no_total_and_no_hours_lie_outside_the_range(possible: Possibilities) -> None:
    result = price_range(possible)
    for total in possible.totals:
        assert result.low <= total <= total + possible.if_it_happens <= result.high
    assert all(result.hours_low <= figure <= result.hours_high for figure in possible.hours)
    assert min(possible.hours) - result.hours_low < 1 and result.hours_high - max(possible.hours) < 1
    assert all(
        figure == figure.to_integral_value()
        for figure in (result.low, result.high, result.hours_low, result.hours_high)
    )


def test_a_cent_above_a_large_total_takes_the_next_step() -> None:
    """With seven digits the cent would be lost, and the upper end would be below a possible price."""
    assert price_range(Possibilities((D(9_900_000),), (D(8),), D("0.01"))).high == D(10_000_000)


@given(possibilities)
def test_an_end_is_at_most_a_tenth_away_from_its_amount(possible: Possibilities) -> None:
    result, highest = price_range(possible), max(possible.totals) + possible.if_it_happens
    assert (min(possible.totals) - result.low) * 10 <= max(min(possible.totals), D(10))
    assert (result.high - highest) * 10 <= max(highest, D(10))


@given(possibilities, st.randoms(use_true_random=False))
def test_the_order_of_the_combinations_does_not_matter(possible: Possibilities, chance: Any) -> None:
    totals, taken = list(possible.totals), list(possible.hours)
    chance.shuffle(totals)
    chance.shuffle(taken)
    assert price_range(replace(possible, totals=tuple(totals), hours=tuple(taken))) == price_range(possible)


@given(possibilities, money, hours)
def test_a_further_combination_never_makes_the_range_narrower(possible: Possibilities, total: D, taken: D) -> None:
    first = price_range(possible)
    more = price_range(replace(possible, totals=(*possible.totals, total), hours=(*possible.hours, taken)))
    assert more.low <= first.low <= first.high <= more.high
    assert more.hours_low <= first.hours_low <= first.hours_high <= more.hours_high


@given(possibilities)
def test_the_steps_lead_to_the_range(possible: Possibilities) -> None:
    result = price_range(possible)
    least, most, taken = (step.named for step in result.steps)
    assert result.low % least["step"] == 0 == result.high % most["step"]
    assert (least["spoken"], most["spoken"]) == (result.low, result.high)
    assert (least["total"], most["total"]) == (min(possible.totals), max(possible.totals))
    assert (taken["least"], taken["most"]) == (min(possible.hours), max(possible.hours))


def test_the_steps_name_the_step_of_each_end() -> None:
    result = price_range(Possibilities((D("980.00"), D("10400.00")), (D("6.0"), D("61.3")), D("80.00")))
    assert result.steps == (
        Reason.of("least", total=D("980.00"), step=10, spoken=D(980)),
        Reason.of("most", total=D("10400.00"), if_it_happens=D("80.00"), step=1000, spoken=D(11000)),
        Reason.of("hours", least=D("6.0"), most=D("61.3")),
    )


@pytest.mark.parametrize(
    ("total", "low", "high"),
    [("0", 0, 0), ("0.01", 0, 1), ("9.99", 9, 10), ("99", 99, 99), ("100", 100, 100), ("100.01", 100, 110)]
    + [("999.99", 990, 1000), ("1000", 1000, 1000), ("123456789012345678901234567890.5", 12 * 10**28, 13 * 10**28)],
)
def test_the_edges_of_a_step(total: str, low: int, high: int) -> None:
    result = price_range(Possibilities((D(total),), (D(1),)))
    assert (result.low, result.high) == (low, high)


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"totals": ()}, "no_totals: totals"),
        ({"hours": ()}, "no_totals: hours"),
        ({"totals": (D(5), D("-0.01"))}, "negative_total: total -0.01"),
        ({"hours": (D("-0.1"),)}, "negative_total: hours -0.1"),
        ({"if_it_happens": D(-1)}, "negative_total: if_it_happens -1"),
        ({"totals": (5.5,)}, "not_exact: total 5.5"),
        ({"hours": (5.5,)}, "not_exact: hours 5.5"),
        ({"if_it_happens": D("NaN")}, "not_exact: if_it_happens Decimal('NaN')"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        price_range(replace(Possibilities((D(5),), (D(1),)), **fields))
    assert str(refused.value) == refusal

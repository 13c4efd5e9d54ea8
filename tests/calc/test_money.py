"""The only rounding function, and allocation by largest remainder."""

from decimal import Decimal as D
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shop.calc.errors import CalculationError
from shop.calc.money import allocate, rounded
from shop.calc.quantity import at_least, exact, fixed, plain

amounts = st.decimals("-1000000", "1000000", places=2)
weights = st.lists(st.decimals(0, 1000, places=4), min_size=1, max_size=8)


@pytest.mark.parametrize(
    ("amount", "exponent", "expected"),
    [
        (D("0.005"), 2, "0.01"),
        (D("-0.005"), 2, "-0.01"),
        (D("2.5"), 0, "3"),
        (D("-2.5"), 0, "-3"),
        (D("0.0049999999999999999999999999999999999999"), 2, "0.00"),
        (D("-0.004"), 2, "0.00"),
        (D("-0"), 2, "0.00"),
        (D("12345678901234567890123456789012345.125"), 2, "12345678901234567890123456789012345.13"),
        (Fraction(1, 3), 2, "0.33"),
        (Fraction(2, 3), 0, "1"),
        (Fraction(-1, 200), 2, "-0.01"),
        (Fraction(1, 200), 2, "0.01"),
        (Fraction(-1, 300), 2, "0.00"),
        (Fraction(7), 3, "7.000"),
    ],
)
def test_it_rounds_half_up_away_from_zero(amount: D | Fraction, exponent: int, expected: str) -> None:
    assert str(rounded(amount, exponent)) == expected


@given(st.decimals("-1000", "1000", places=6), st.integers(0, 4))
def test_a_decimal_and_its_fraction_round_alike(amount: D, exponent: int) -> None:
    assert str(rounded(amount, exponent)) == str(rounded(Fraction(amount), exponent))


@pytest.mark.parametrize("amount", [0.5, float("nan"), D("NaN"), D("Infinity")])
def test_it_refuses_what_is_not_exact(amount: D) -> None:
    with pytest.raises(CalculationError) as refusal:
        rounded(amount, 2)
    assert refusal.value.code == "not_exact"


@given(st.decimals("-1000", "1000", places=6) | st.fractions(-1000, 1000), st.integers(0, 4))
def test_what_is_rounded_is_the_nearest_and_half_way_the_one_further_from_nothing(
    amount: D | Fraction, exponent: int
) -> None:
    once, exact = rounded(amount, exponent), Fraction(amount)
    half = Fraction(1, 2 * 10**exponent)
    assert abs(Fraction(once) - exact) <= half
    if abs(Fraction(once) - exact) == half:
        assert abs(Fraction(once)) > abs(exact)
    assert rounded(once, exponent) == once
    assert rounded(-amount, exponent) == -once


@given(st.lists(st.decimals("-10", "10", places=4), max_size=9), st.integers(0, 3))
def test_rounding_keeps_the_order(amounts: list[D], exponent: int) -> None:
    ordered = [rounded(amount, exponent) for amount in sorted(amounts)]
    assert ordered == sorted(ordered)


@given(st.integers(0, 500), weights, st.integers(0, 3))
def test_the_odd_units_go_one_by_one_to_whoever_is_furthest_behind(units: int, parts: list[D], exponent: int) -> None:
    unit = Fraction(1, 10**exponent)
    claims = [Fraction(part) for part in parts] if any(parts) else [Fraction(1)] * len(parts)
    fair = [units * unit * claim / sum(claims) for claim in claims]
    shares = [part // unit * unit for part in fair]
    while sum(shares) < units * unit:
        behind = max(range(len(fair)), key=lambda at: (fair[at] - shares[at], -at))
        shares[behind] += unit
    assert allocate(D(units).scaleb(-exponent), parts, exponent) == tuple(shares)


@given(amounts, weights)
def test_shares_add_to_the_whole_and_keep_within_one_unit(total: D, parts: list[D]) -> None:
    shares = allocate(total, parts, 2)
    assert sum(shares) == total
    whole = sum(parts) or len(parts)
    fair = [Fraction(total) * Fraction(part if any(parts) else D(1)) / Fraction(whole) for part in parts]
    assert all(
        abs(Fraction(share) - fair_share) < Fraction(1, 100) for share, fair_share in zip(shares, fair, strict=True)
    )


@given(amounts, weights)
def test_a_negative_total_is_the_mirror_of_its_twin(total: D, parts: list[D]) -> None:
    assert allocate(-total, parts, 2) == tuple(-share for share in allocate(total, parts, 2))


@pytest.mark.parametrize(
    ("total", "parts", "shares"),
    [
        ("0.01", ("1", "1", "1"), ("0.01", "0.00", "0.00")),
        ("0.02", ("1", "1", "1"), ("0.01", "0.01", "0.00")),
        ("5.01", ("0", "0"), ("2.51", "2.50")),
        ("0.01", ("0.05", "0.07"), ("0.00", "0.01")),
        ("1.00", ("1", "0"), ("1.00", "0.00")),
        ("0.00", (), ()),
    ],
)
def test_the_odd_cent_goes_to_the_largest_remainder_then_the_earlier(
    total: str, parts: tuple[str, ...], shares: tuple[str, ...]
) -> None:
    assert tuple(map(str, allocate(D(total), tuple(map(D, parts)), 2))) == shares


def test_it_will_not_share_what_is_finer_than_the_currency() -> None:
    with pytest.raises(CalculationError, match="not_rounded: 0.005"):
        allocate(D("0.005"), (D(1),), 2)


def test_it_will_not_share_something_over_nobody() -> None:
    with pytest.raises(CalculationError, match="nothing_to_share_over: 1"):
        allocate(D(1), (), 2)


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ("2.50", "2.5"),
        ("1E+3", "1000"),
        ("-0.00", "0"),
        ("100", "100"),
        ("0.0010", "0.001"),
        ("1E-7", "0.0000001"),
    ],
)
def test_plain_notation(value: str, expected: str) -> None:
    assert plain(D(value)) == expected


@pytest.mark.parametrize(
    ("value", "expected"), [("2", "2.0"), ("0.75", "0.75"), ("-0.0", "0.0"), ("0.50", "0.5"), ("1E+1", "10.0")]
)
def test_at_least_one_decimal(value: str, expected: str) -> None:
    assert at_least(D(value), 1) == expected


def test_fixed_writes_every_decimal_and_never_rounds() -> None:
    assert fixed(D("5"), 2) == "5.00"
    assert fixed(D("-0"), 2) == "0.00"
    with pytest.raises(CalculationError, match="not_rounded: 5.005"):
        fixed(D("5.005"), 2)


def test_a_float_is_no_quantity() -> None:
    with pytest.raises(CalculationError, match="not_exact: hose 0.1"):
        exact(0.1, "hose")  # type: ignore[arg-type]

"""Places where a figure is read, written or passed on, at which a digit could be lost unnoticed."""

import pickle
from decimal import Decimal as D
from fractions import Fraction

import pytest

from shop.calc.errors import CalculationError
from shop.calc.money import rounded
from shop.calc.quantity import at_least, exact
from shop.calc.reason import Reason


@pytest.mark.parametrize(
    ("amount", "expected"),
    [
        (Fraction(1005, 1000), "1.01"),
        (Fraction(10**18 * 3 + 1, 3), "1000000000000000000.33"),
        (Fraction(-(10**30) * 200 - 1, 200), "-1000000000000000000000000000000.01"),
    ],
)
def test_a_fraction_is_rounded_from_its_own_digits(amount: Fraction, expected: str) -> None:
    assert str(rounded(amount, 2)) == expected


@pytest.mark.parametrize("endless", ["NaN", "Infinity", "-Infinity"])
def test_what_is_no_number_is_no_quantity(endless: str) -> None:
    with pytest.raises(CalculationError, match="not_exact: hose"):
        exact(D(endless), "hose")


def test_as_many_decimals_are_written_as_were_asked_for() -> None:
    assert at_least(D(2), 3) == "2.000"
    assert at_least(D("0.75"), 3) == "0.750"


def test_the_facts_of_a_reason_keep_the_order_of_the_sentence() -> None:
    assert Reason.of("once", longest=D(2), count=3).facts == (("longest", D(2)), ("count", 3))


def test_a_refusal_says_the_same_in_another_process() -> None:
    copy = pickle.loads(pickle.dumps(CalculationError("loop", "a > b > a")))
    assert (copy.code, copy.culprit, str(copy)) == ("loop", "a > b > a", "loop: a > b > a")

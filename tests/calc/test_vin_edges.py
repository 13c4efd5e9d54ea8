"""Characters that no VIN can contain."""

from shop.calc.vin import wrong_marks


def test_a_wrong_mark_is_told_once_in_the_order_it_stands() -> None:
    assert wrong_marks("Q1I0TB?IQ") == ("Q", "I", "?")
    assert wrong_marks("0TB1MZW00A7YW24HU") == ()

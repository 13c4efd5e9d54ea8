"""Prices finer than the currency: a price list for a carton of a hundred comes to such."""

from decimal import Decimal as D

from kitting.calc.packs import Pack, choose_packs


def test_the_cost_is_rounded_once_for_all_packs_together() -> None:
    choice = choose_packs(D(3), D(0), [Pack("one", D(1), D("5.004"))], 2)
    assert (choice.packs, choice.cost) == ((("one", 3),), D("15.01"))

"""Prices finer than the currency, as in a price list per hundred."""

from decimal import Decimal as D

from kitting.calc.packs import Pack, choose_packs


def test_the_cost_is_rounded_once_for_all_packs_together() -> None:
    choice = choose_packs(D(3), D(0), [Pack("one", D(1), D("5.004"))], 2)
    assert (choice.packs, choice.cost) == ((("one", 3),), D("15.01"))


def test_the_next_best_holds_no_pack_that_could_be_taken_away() -> None:
    choice = choose_packs(D(60), D(0), [Pack("ten", D(10), D(10)), Pack("one", D(1), D(2))], 2)
    assert choice.packs == (("ten", 6),)
    assert choice.runner_up is not None and choice.runner_up.packs == (("ten", 5), ("one", 10))

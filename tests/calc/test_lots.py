"""The choice of lots, compared with a second implementation in small steps, and its properties."""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal as D
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.lots import Lot, LotInput, LotQuantity, take_lots
from shop.calc.errors import CalculationError
from shop.calc.reason import Reason

TODAY = date(2026, 5, 14)
days = st.integers(-2, 5).map(lambda offset: TODAY + timedelta(days=offset))
quantities = st.integers(0, 40).map(lambda tenths: D(tenths) / 10)


@st.composite
def shelves(draw: st.DrawFn) -> LotInput:
    lots = draw(
        st.lists(st.tuples(quantities, st.none() | days, st.booleans()), max_size=7).map(
            lambda drawn: tuple(Lot(f"L{9 - at}", *values) for at, values in enumerate(drawn))
        )
    )
    return LotInput(lots, draw(quantities | st.integers(0, 250).map(lambda tenths: D(tenths) / 10)), TODAY)


def a_tenth_at_a_time(shelf: LotInput) -> dict[str, D]:
    """Takes a tenth at a time from the best lot that is not empty, until the need is met or no usable lot is left."""
    taken: dict[str, D] = {}
    while sum(taken.values()) < shelf.need:
        best = None
        for lot in shelf.lots:
            usable = taken.get(lot.id, D(0)) < lot.quantity and (lot.expires is None or lot.expires >= shelf.today)
            if usable and (best is None or goes_before(lot, best)):
                best = lot
        if best is None:
            break
        taken[best.id] = taken.get(best.id, D(0)) + D("0.1")
    return taken


def goes_before(first: Lot, second: Lot) -> bool:
    """True if `first` is taken before `second`, which is listed earlier; a tie keeps the list's order."""
    if first.expires != second.expires:
        return second.expires is None or (first.expires is not None and first.expires < second.expires)
    return first.opened and not second.opened


@given(shelves())
def test_it_takes_in_turn_from_the_lot_that_expires_first(shelf: LotInput) -> None:
    selection, again = take_lots(shelf), a_tenth_at_a_time(shelf)
    assert [(lot.id, lot.quantity) for lot in selection.take] == list(again.items())
    assert selection.short == shelf.need - sum(again.values())


@given(shelves())
def test_it_takes_nothing_expired_and_nothing_that_is_not_there(shelf: LotInput) -> None:
    selection, lots = take_lots(shelf), {lot.id: lot for lot in shelf.lots}
    assert all(0 < portion.quantity <= lots[portion.id].quantity for portion in selection.take)
    assert all((lots[portion.id].expires or TODAY) >= TODAY for portion in selection.take)
    assert sum((portion.quantity for portion in selection.take), D(0)) + selection.short == shelf.need
    assert len({portion.id for portion in selection.take}) == len(selection.take)


@given(shelves())
def test_it_is_short_only_when_every_usable_lot_is_empty(shelf: LotInput) -> None:
    selection = take_lots(shelf)
    usable = sum((lot.quantity for lot in shelf.lots if lot.expires is None or lot.expires >= TODAY), D(0))
    assert selection.short == max(shelf.need - usable, D(0))


@given(shelves())
def test_expired_lots_are_listed_and_the_next_date_is_that_of_what_is_left(shelf: LotInput) -> None:
    selection, taken = take_lots(shelf), a_tenth_at_a_time(shelf)
    dated = [lot for lot in shelf.lots if lot.expires is not None and lot.quantity > taken.get(lot.id, D(0))]
    assert list(selection.expired) == [lot.id for lot in dated if lot.expires < TODAY]
    assert selection.next_expiry == min((lot.expires for lot in dated if lot.expires >= TODAY), default=None)


@given(shelves(), st.randoms(use_true_random=False))
def test_the_list_decides_only_between_lots_of_one_date_and_state(shelf: LotInput, chance: Any) -> None:
    shuffled = list(shelf.lots)
    chance.shuffle(shuffled)
    first, second = take_lots(shelf), take_lots(replace(shelf, lots=tuple(shuffled)))
    lots = {lot.id: lot for lot in shelf.lots}
    kinds = [
        [(lots[portion.id].expires, lots[portion.id].opened) for portion in selection.take]
        for selection in (first, second)
    ]
    assert list(dict.fromkeys(kinds[0])) == list(dict.fromkeys(kinds[1]))
    assert (first.short, sorted(first.expired)) == (second.short, sorted(second.expired))


@given(shelves(), quantities)
def test_a_larger_need_takes_at_least_as_much_of_every_lot(shelf: LotInput, more: D) -> None:
    larger = {portion.id: portion.quantity for portion in take_lots(replace(shelf, need=shelf.need + more)).take}
    assert all(larger[portion.id] >= portion.quantity for portion in take_lots(shelf).take)


@given(shelves())
def test_the_steps_name_every_lot_taken_or_left_alone(shelf: LotInput) -> None:
    selection, lots = take_lots(shelf), {lot.id: lot for lot in shelf.lots}
    taken = [step.named for step in selection.steps if step.code in ("opened", "sealed")]
    assert [(step["lot"], step["quantity"]) for step in taken] == [
        (portion.id, portion.quantity) for portion in selection.take
    ]
    assert [step.named["lot"] for step in selection.steps if step.code == "expired"] == list(selection.expired)
    assert [step.named["quantity"] for step in selection.steps if step.code == "short"] == [selection.short] * bool(
        selection.short
    )
    for step in selection.steps[: len(taken)]:
        lot = lots[step.named["lot"]]
        assert step.code == ("opened" if lot.opened else "sealed")
        assert step.named.get("expires") == (lot.expires and lot.expires.isoformat())


def test_the_steps_name_dates_where_there_are_some() -> None:
    lots = (
        Lot("L1", D(1), TODAY - timedelta(days=1)),
        Lot("L2", D("0.5"), None, opened=True),
        Lot("L3", D(1), TODAY),
    )
    selection = take_lots(LotInput(lots, D(2), TODAY))
    assert selection.take == (LotQuantity("L3", D(1)), LotQuantity("L2", D("0.5")))
    assert selection.steps == (
        Reason.of("sealed", lot="L3", quantity=D(1), expires="2026-05-14"),
        Reason.of("opened", lot="L2", quantity=D("0.5")),
        Reason.of("expired", lot="L1", expires="2026-05-13"),
        Reason.of("short", quantity=D("0.5")),
    )


def test_expired_lots_keep_the_order_of_the_list() -> None:
    lots = tuple(Lot(id, D(1), TODAY - timedelta(days=ago)) for id, ago in (("L1", 1), ("L2", 9), ("L3", 4)))
    assert take_lots(LotInput(lots, D(1), TODAY)).expired == ("L1", "L2", "L3")


def test_the_last_date_there_is_goes_before_none() -> None:
    lots = (Lot("L1", D(1), None, opened=True), Lot("L2", D(1), date.max))
    assert take_lots(LotInput(lots, D(1), TODAY)).take == (LotQuantity("L2", D(1)),)


def test_quantities_of_many_digits_stay_exact() -> None:
    much = D("12345678901234567890123456789.000000000000000000001")
    selection = take_lots(LotInput((Lot("L1", D(1)), Lot("L2", much)), much, TODAY))
    assert selection.take[1].quantity == D("12345678901234567890123456788.000000000000000000001")
    assert selection.short == 0


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"need": D("-0.1")}, "bad_quantity: need: -0.1"),
        ({"lots": (Lot("L1", D("-0.1"), TODAY - timedelta(days=9)),)}, "bad_quantity: L1: -0.1"),
        ({"lots": (Lot("L1", D(0)), Lot("L2", D(1)), Lot("L1", D(0)))}, "duplicate_lot: L1"),
        ({"need": 0.5}, "not_exact: need 0.5"),
        ({"lots": (Lot("L1", 0.5),)}, "not_exact: L1 0.5"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        take_lots(replace(LotInput((), D(1), TODAY), **fields))
    assert str(refused.value) == refusal

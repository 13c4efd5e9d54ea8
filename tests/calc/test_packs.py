"""The pack search, compared with trying everything, and with going through all sums for larger needs."""

from bisect import insort
from decimal import Decimal, localcontext
from itertools import product
from math import ceil
from unittest.mock import patch

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from kitting.calc import pack_labels
from kitting.calc.packs import Pack, PackSet, choose_packs
from shop.calc.errors import CalculationError
from shop.calc.money import rounded
from tests.examples import many

LITRE = Pack("litre", Decimal("1"), Decimal("9.40"))

sizes = st.sampled_from([Decimal(text) for text in ("0.473", "0.5", "0.946", "1", "1.0003", "2", "3.785", "4")])
prices = st.sampled_from([Decimal(text) for text in ("0", "1", "2", "3.00", "3.01", "4", "7.57", "8")])
offers = st.lists(st.tuples(st.sampled_from("abcde"), sizes, prices), min_size=1, max_size=4, unique_by=lambda o: o[0])
needs = st.decimals(min_value=Decimal("0.001"), max_value=Decimal("3.5"), places=3)


def by_trying_everything(need: Decimal, packs: list[Pack]) -> list[list[str]]:
    """All sets from which no pack can be removed, sorted by the calculation's rule."""
    sets = []
    for counts in product(*(range(ceil(need / pack.size) + 1) for pack in packs)):
        taken = [pack for pack, count in zip(packs, counts, strict=True) for _ in range(count)]
        total = sum((pack.size for pack in taken), Decimal(0))
        if total < need or any(total - pack.size >= need for pack in taken):
            continue
        cost = sum((pack.price for pack in taken), Decimal(0))
        ids = sorted(pack.id for pack in taken)
        sets.append(((cost, total - need, len(taken), ids), ids))
    sets.sort()
    return [ids for _, ids in sets]


def ids_of(chosen: PackSet | None) -> list[str] | None:
    return None if chosen is None else sorted(name for name, count in chosen.packs for _ in range(count))


@given(need=needs, offers=offers)
def test_it_chooses_what_trying_everything_would(need, offers):
    packs = [Pack(*offer) for offer in offers]
    choice = choose_packs(need, Decimal(0), packs, 2)
    best, *others = by_trying_everything(need, packs)
    assert ids_of(choice) == best
    assert ids_of(choice.runner_up) == (others[0] if others else None)


@given(need=needs, offers=offers, scale=st.sampled_from([Decimal("0.001"), Decimal("7"), Decimal("1000")]))
def test_packs_priced_by_their_size_alone_are_chosen_like_any_others(need, offers, scale):
    packs = [Pack(name, size, size * scale) for name, size, _ in offers]
    choice = choose_packs(need, Decimal(0), packs, 2)
    best, *others = by_trying_everything(need, packs)
    assert ids_of(choice) == best
    assert ids_of(choice.runner_up) == (others[0] if others else None)


def by_all_sums(need: Decimal, packs: list[Pack]) -> list[list[str]]:
    """The best two sets, by dynamic programming over the sums that are still too small, from the largest pack down.

    A set from which no pack can be removed is complete with its smallest pack and not before.
    """
    open_sums: dict[Decimal, list[tuple[Decimal, int, list[str]]]] = {Decimal(0): [(Decimal(0), 0, [])]}
    complete: list[tuple[Decimal, Decimal, int, list[str]]] = []
    for pack in sorted(packs, key=lambda pack: -pack.size):
        waiting = sorted(open_sums)
        for total in waiting:
            for cost, count, ids in open_sums[total]:
                step = (cost + pack.price, count + 1, sorted([*ids, pack.id]))
                after = total + pack.size
                if after >= need:
                    complete.append((step[0], after - need, step[1], step[2]))
                    continue
                if after not in open_sums:
                    insort(waiting, after)
                open_sums[after] = sorted([*open_sums.get(after, []), step])[:2]
    return [ids for *_, ids in sorted(complete)[:2]]


PRICING = {
    "by size alone": lambda size, own: size * Decimal("8.4"),
    "by size, to the cent": lambda size, own: rounded(size * Decimal("8.4"), 2),
    "by size and a fee": lambda size, own: size * Decimal("8.4") + Decimal("2.5"),
    "nearly by size": lambda size, own: size * Decimal("8.4") + Decimal(own) / 1000,
    "nothing": lambda size, own: Decimal(0),
    "one price": lambda size, own: Decimal("7.50"),
    "two prices": lambda size, own: Decimal("8.00") + Decimal(own % 2) / 10,
    "its own": lambda size, own: Decimal(own) / 10,
    "cheaper when larger": lambda size, own: 60 / (size + own),
}

SIZES = {
    "coarse": st.integers(2, 40).map(lambda size: Decimal(size) / 2),
    "fine": st.integers(600, 4000).map(lambda size: Decimal(size) / 1000),
    "close": st.integers(1000, 1009).map(lambda size: Decimal(size) / 1000),
    "alike but for two": st.one_of(st.integers(1000, 1005), st.sampled_from([4000, 9500])).map(
        lambda size: Decimal(size) / 1000
    ),
    "even": st.integers(25, 150).map(lambda size: Decimal(size) * 2 / 100),
    "even but for one": st.one_of(st.integers(300, 900).map(lambda size: 2 * size), st.just(1375)).map(
        lambda size: Decimal(size) / 1000
    ),
}


@st.composite
def shelves(draw: st.DrawFn, most: int = 8) -> list[Pack]:
    """Up to `most` packs of one kind of size and one kind of pricing, with ids in any order."""
    chosen = draw(st.lists(SIZES[draw(st.sampled_from(sorted(SIZES)))], min_size=2, max_size=most))
    price = PRICING[draw(st.sampled_from(sorted(PRICING)))]
    names = draw(st.permutations("abcdefgh"))
    return [Pack(name, size, price(size, draw(st.integers(0, 9)))) for name, size in zip(names, chosen, strict=False)]


@settings(max_examples=many(200))
@given(packs=shelves(), times=st.decimals(min_value=Decimal("0.2"), max_value=Decimal("2.6"), places=2))
def test_eight_packs_are_chosen_as_trying_everything_would(packs, times):
    need = times * min(pack.size for pack in packs)
    choice = choose_packs(need, Decimal(0), packs, 2)
    with localcontext(prec=200):
        best, *others = by_trying_everything(need, packs)
    assert ids_of(choice) == best
    assert ids_of(choice.runner_up) == (others[0] if others else None)


@st.composite
def cases(draw: st.DrawFn) -> tuple[Decimal, list[Pack]]:
    """A shelf, and a need of up to 25 of its smallest pack, or an exact multiple of one of its packs."""
    packs = draw(shelves())
    smallest = min(pack.size for pack in packs)
    times = draw(st.decimals(min_value=3, max_value=25, places=2))
    exact = draw(st.sampled_from(packs)).size * draw(st.integers(3, 20))
    return draw(st.sampled_from([times * smallest, min(exact, 25 * smallest)])), packs


THIRDS = [Pack(name, Decimal("1.375"), 60 / Decimal("1.375")) for name in "abce"]
THIRDS.insert(3, Pack("d", Decimal("1.375"), 60 / Decimal("7.375")))
"""Prices of 28 digits: added up at that precision, their sums depend on the order."""


OFFERS = [
    ("a", "8.8", "80.96"),
    ("b", "2", "21.00"),
    ("c", "1.2", "12.36"),
    ("d", "12.4", "141.36"),
    ("e", "12.3", "123"),
]
WITHOUT_THE_FINEST = [Pack(name, Decimal(size), Decimal(price)) for name, size, price in OFFERS]
"""A long search is split by "e", the only size that is no multiple of 0.4; of 71.8 the best set has none of it."""


@settings(max_examples=many(150), deadline=None)
@example(case=(Decimal("4.125"), THIRDS), full=2, block=1)
@example(case=(Decimal("71.8"), WITHOUT_THE_FINEST), full=5, block=1)
@given(case=cases(), full=st.sampled_from([2, 20, pack_labels.FULL]), block=st.sampled_from([1, 3, pack_labels.BLOCK]))
def test_larger_needs_are_met_as_going_through_all_sums_would(case, full, block):
    """The result depends neither on the number of lists of partial sets nor on the length of a block."""
    need, packs = case
    with patch.object(pack_labels, "FULL", full), patch.object(pack_labels, "BLOCK", block):
        choice = choose_packs(need, Decimal(0), packs, 2)
    with localcontext(prec=200):
        expected = by_all_sums(need, packs)
    assert [ids_of(pack_set) for pack_set in (choice, choice.runner_up) if pack_set] == expected


@given(
    sets=st.lists(st.tuples(st.integers(0, 40), st.integers(0, 60)), max_size=40),
    first=st.integers(0, 29),
    room=st.integers(-5, 90),
    rate=st.integers(1, 9),
    block=st.sampled_from([1, 3, 7]),
)
def test_of_partial_sets_by_place_all_are_met_that_lose_no_more_than_there_is_room_for(sets, first, room, rate, block):
    step = 30
    labels = [(loss, over, 0, -1, None) for loss, over in sets]
    with patch.object(pack_labels, "BLOCK", block):
        near = list(pack_labels.ByPlace(labels, step, rate).near(first, room))
    for label in labels:
        if label[0] + (label[1] - first) % step * rate <= room:
            assert label in near


@pytest.mark.parametrize("full", [2, pack_labels.FULL])
@pytest.mark.parametrize(
    ("need", "shelf"),
    [
        ("16.4", "h 1.056 8.8714, d 0.965 8.11, e 1.026 8.6184, b 1.07 8.993, g 1.025 8.617, c 0.971 8.1584"),
        ("9.53904", "a 1.068 8.00, b 0.952 8.10, d 1.01 8.00"),
    ],
    ids=["several larger packs complete a set", "one exchange more is a set, too"],
)
def test_no_set_is_passed_by_on_a_shelf_of_close_sizes(need, shelf, full):
    packs = [
        Pack(name, Decimal(size), Decimal(price)) for name, size, price in (pack.split() for pack in shelf.split(", "))
    ]
    with patch.object(pack_labels, "FULL", full):
        choice = choose_packs(Decimal(need), Decimal(0), packs, 2)
    assert [ids_of(choice), ids_of(choice.runner_up)] == by_all_sums(Decimal(need), packs)


def test_one_larger_pack_in_place_of_a_smaller_is_the_next_best_of_two_close_sizes():
    packs = [Pack("a", Decimal(1), Decimal(7)), Pack("b", Decimal("1.007"), Decimal("7.01"))]
    choice = choose_packs(Decimal("20.05"), Decimal(0), packs, 2)
    assert choice.packs == (("b", 8), ("a", 12))
    assert choice.runner_up == PackSet((("b", 9), ("a", 11)), Decimal("140.09"), Decimal("0.013"))


@given(need=needs, offers=offers)
def test_the_order_of_the_offers_does_not_matter(need, offers):
    packs = [Pack(*offer) for offer in offers]
    assert choose_packs(need, Decimal(0), packs, 2) == choose_packs(need, Decimal(0), packs[::-1], 2)


@given(need=needs, on_hand=needs, offers=offers)
def test_stock_counts_like_a_smaller_need(need, on_hand, offers):
    packs = [Pack(*offer) for offer in offers]
    choice = choose_packs(need, on_hand, packs, 2)
    if need > on_hand:
        assert choice == choose_packs(need - on_hand, Decimal(0), packs, 2)
    else:
        assert (choice.packs, choice.left, choice.runner_up) == ((), on_hand - need, None)


@pytest.mark.parametrize("pack", [Pack("odd", Decimal(0), Decimal(1)), Pack("odd", Decimal(1), Decimal("-0.01"))])
def test_a_bad_pack_is_refused_even_when_nothing_is_needed(pack):
    with pytest.raises(CalculationError) as refusal:
        choose_packs(Decimal(1), Decimal(2), [LITRE, pack], 2)
    assert (refusal.value.code, refusal.value.culprit) == ("bad_pack", "odd")


def test_nothing_to_buy_is_refused_only_when_something_is_needed():
    assert choose_packs(Decimal(1), Decimal(1), [], 2).packs == ()
    with pytest.raises(CalculationError, match="no_packs: 1"):
        choose_packs(Decimal(1), Decimal("0.5"), [], 2)


def test_ties_go_by_what_a_price_is_before_it_is_rounded():
    dear, cheap = Pack("a", Decimal(1), Decimal("5.0004")), Pack("b", Decimal(1), Decimal("5.0003"))
    choice = choose_packs(Decimal(1), Decimal(0), [dear, cheap], 2)
    assert (choice.packs, choice.cost) == ((("b", 1),), Decimal("5.00"))


def test_the_left_over_is_exact_whatever_the_scale():
    fine = Pack("fine", Decimal("1.00000000000000000000000000000000000001"), Decimal(3))
    choice = choose_packs(Decimal(1), Decimal(0), [fine], 2)
    assert choice.left == Decimal("0.00000000000000000000000000000000000001")


def test_larger_packs_are_named_first():
    packs = [LITRE, Pack("ten", Decimal(10), Decimal(64))]
    assert choose_packs(Decimal("12.3"), Decimal(0), packs, 2).packs == (("ten", 1), ("litre", 3))

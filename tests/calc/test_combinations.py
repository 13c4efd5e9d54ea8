from decimal import Decimal
from itertools import product
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from quotes.calc.combinations import (
    Combination,
    QuoteConditions,
    applied,
    combinations,
    count,
    deciding_values,
    extremes,
    nameable,
    open_values,
)
from tests.examples import many


def only(attribute: str, *values: str) -> dict[str, Any]:
    return {"attribute": attribute, "in": list(values)}


AUTOMATIC, MANUAL = only("transmission", "automatic"), only("transmission", "manual")


def asking(work: Any = (), fits: Any = (), parts: Any = (), **values: Any) -> QuoteConditions:
    return QuoteConditions(list(work), list(fits), list(parts), values)


def test_the_values_that_work_names_are_the_choice() -> None:
    assert open_values(asking([AUTOMATIC, MANUAL]), {}) == {"transmission": ("automatic", "manual")}


def test_what_is_recorded_is_not_open() -> None:
    assert open_values(asking([AUTOMATIC, MANUAL]), {"transmission": "manual"}) == {}
    assert open_values(asking([AUTOMATIC, MANUAL]), {"transmission": ""}) != {}


def test_parts_of_a_box_add_values_but_ask_nothing() -> None:
    assert open_values(asking([AUTOMATIC], parts=[MANUAL]), {}) == {"transmission": ("automatic", "manual")}
    assert open_values(asking(parts=[MANUAL, AUTOMATIC]), {}) == {}


def test_beside_a_lone_value_stands_what_else_there_is() -> None:
    assert open_values(asking([AUTOMATIC], transmission=["manual"]), {}) == {"transmission": ("automatic", "manual")}
    assert open_values(asking([only("sensor", "yes")]), {}) == {"sensor": ("no", "yes")}
    assert open_values(asking([only("sensor", "no")]), {}) == {"sensor": ("no", "yes")}
    assert open_values(asking([AUTOMATIC]), {}) == {"transmission": ("automatic", None)}


def test_values_that_all_work_names_together_are_as_one() -> None:
    geared = only("transmission", "automatic", "dual clutch")
    assert open_values(asking([geared, geared]), {}) == {"transmission": ("automatic", "dual clutch", None)}
    assert open_values(asking([geared, AUTOMATIC]), {}) == {"transmission": ("automatic", "dual clutch")}


def test_a_kit_for_some_vehicles_asks_where_kits_differ() -> None:
    small, both = only("model", "T35"), only("model", "T35", "Hauler")
    assert open_values(asking(fits=[small, both]), {}) == {"model": ("Hauler", "T35")}
    assert open_values(asking(fits=[both, both]), {}) == {}  # nothing on this quote distinguishes them
    assert open_values(asking(fits=[small], model=["Vell"]), {}) == {}


def test_combinations_of_several_attributes() -> None:
    values = {"sensor": ("no", "yes"), "transmission": ("automatic", None)}
    assert combinations(values) == (
        (("sensor", "no"), ("transmission", "automatic")),
        (("sensor", "no"), ("transmission", None)),
        (("sensor", "yes"), ("transmission", "automatic")),
        (("sensor", "yes"), ("transmission", None)),
    )
    assert count(values) == 4 and combinations({}) == ((),) and count({}) == 1


def test_a_value_without_a_name_is_not_recorded() -> None:
    stated: Combination = (("sensor", "yes"), ("transmission", None))
    assert applied(stated, {"model": "T35"}) == {"model": "T35", "sensor": "yes"}
    assert not nameable(stated) and nameable(stated[:1]) and nameable(())


def test_an_attribute_that_changes_nothing_is_left_out() -> None:
    values = {"body": ("estate", "saloon"), "transmission": ("automatic", "manual")}
    assert deciding_values(values, lambda stated: dict(stated).get("transmission")) == {
        "transmission": values["transmission"]
    }


def test_values_that_come_to_the_same_still_tell_where_nothing_recorded_comes_to_less() -> None:
    values = {"transmission": ("automatic", "manual")}
    assert deciding_values(values, lambda stated: len(stated)) == values


def test_two_attributes_that_only_matter_together_both_tell() -> None:
    values = {"body": ("estate", "saloon"), "tow_bar": ("no", "yes")}
    both = {"body": "estate", "tow_bar": "yes"}
    assert deciding_values(values, lambda stated: dict(stated) == both) == values


NAMES = st.sampled_from(["a", "b", "c"])
VALUES = st.lists(st.sampled_from(["1", "2", "3"]), min_size=1, max_size=3, unique=True)
CONDITIONS = st.lists(st.tuples(NAMES, VALUES), max_size=5).map(
    lambda pairs: [only(name, *values) for name, values in pairs]
)


def holding(conditions: list[dict[str, Any]], attributes: dict[str, str]) -> tuple[bool, ...]:
    return tuple(attributes.get(condition["attribute"]) in condition["in"] for condition in conditions)


@given(work=CONDITIONS, parts=CONDITIONS, recorded=st.dictionaries(NAMES, st.sampled_from(["1", "2"]), max_size=2))
@settings(max_examples=many(150))
def test_every_vehicle_is_one_of_the_combinations(work: Any, parts: Any, recorded: dict[str, str]) -> None:
    """For each value that work or parts name, some combination has the same work as a vehicle with that value."""
    values = open_values(asking(work, parts=parts), recorded)
    deciding = deciding_values(values, lambda stated: holding(work, applied(stated, recorded)))
    offered = {holding(work, applied(stated, recorded)) for stated in combinations(deciding)}
    open_names = sorted({condition["attribute"] for condition in work} - set(recorded))
    named = {
        name: sorted(
            {value for condition in (*work, *parts) if condition["attribute"] == name for value in condition["in"]}
        )
        for name in open_names
    }
    for stated in combinations({name: tuple(options) for name, options in named.items()}):
        assert holding(work, applied(stated, recorded)) in offered
    assert offered <= {holding(work, applied(stated, recorded)) for stated in combinations(values)}


@settings(max_examples=many(200), deadline=None)
@given(st.lists(st.lists(st.integers(0, 99), min_size=2, max_size=3), min_size=1, max_size=4))
def test_the_extremes_of_what_adds_up_are_the_least_and_the_most(added: list[list[int]]) -> None:
    values = {f"a{at}": tuple(str(way) for way in range(len(row))) for at, row in enumerate(added)}
    price = {(f"a{at}", str(way)): price_of_way for at, row in enumerate(added) for way, price_of_way in enumerate(row)}

    def amount(stated: Combination) -> Decimal:
        return Decimal(sum(price[name, value or ""] for name, value in stated))

    every = [sum(prices) for prices in product(*added)]
    ends = extremes(values, amount, lambda stated: True)
    assert (amount(ends[0]), amount(ends[-1])) == (min(every), max(every))
    assert len(ends) == (1 if ends[0] == ends[-1] else 2)


def test_an_extreme_fits_where_one_does() -> None:
    values = {"a": ("1", "2", "3"), "b": ("1", "2")}
    prices = {"1": 5, "2": 7, "3": 1}

    def amount(stated: Combination) -> Decimal:
        return Decimal(sum(prices[value or ""] for _, value in stated))

    def fits(stated: Combination) -> bool:
        return dict(stated)["a"] != "3"

    assert extremes(values, amount, fits) == ((("a", "1"), ("b", "1")), (("a", "2"), ("b", "2")))

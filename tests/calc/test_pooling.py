"""Lines of one part are pooled: pieces from another bag are equally good."""

from collections import Counter
from dataclasses import replace
from datetime import timedelta
from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.job_readiness import JobWork, Shortages, find_shortages
from kitting.calc.missing import NeededItem
from kitting.calc.pooling import allocate_pieces
from kitting.calc.readiness import Readiness
from kitting.calc.still_to_order import single_lines
from shop.calc.visit import Step
from tests.calc.test_job_readiness import BOLT, CLOSE, FIT, NOW, SETUP, STRIP, TRIM, at, judged, work

FRONT = NeededItem("front", "Bolt M8", "FIT", need=4, have=2, counted=True, kit="TURBO", bag="A", part="M8")
REAR = replace(FRONT, line="rear", operation="TRIM", have=4, bag="B")
SPARE = replace(FRONT, line="spare", need=1, have=1, bag="C", minor=True)


def stops(shortages: Shortages) -> dict[str, tuple[tuple[str, int], ...]]:
    return {line.item.line: line.stops for line in shortages.missing}


def test_the_step_that_comes_first_takes_from_the_other_bag() -> None:
    job = work(FRONT, REAR)
    shortages = judged(job)
    assert (shortages.readiness.verdict, shortages.states["FIT"], shortages.states["TRIM"]) == (
        "start",
        "clear",
        "waits",
    )
    assert stops(find_shortages(job)) == {
        "front": (("TRIM", 2),)
    }  # the bag that is short has to be filled, for a later step
    taken = {
        allocation.item.line: [(source.line, n) for source, n in allocation.sources]
        for allocation in find_shortages(job).allocations
    }
    assert taken == {"front": [("front", 2), ("rear", 2)], "rear": [("rear", 2)]}


def test_another_part_is_not_as_good() -> None:
    assert judged(work(FRONT, replace(REAR, part="M10"))).readiness.verdict == "start_to_hold"
    unknown = (replace(FRONT, part=""), replace(REAR, part=""))
    assert judged(work(*unknown)).readiness.verdict == "start_to_hold"


def test_a_bag_that_has_too_many_makes_up_for_one_that_is_short() -> None:
    assert find_shortages(work(FRONT, replace(REAR, have=6))).missing == ()
    assert judged(work(FRONT, replace(REAR, have=6))).readiness.verdict == "complete"
    (missing,) = find_shortages(work(FRONT, replace(REAR, have=5))).missing
    assert (missing.item.line, missing.pieces) == ("front", 1)


def test_what_is_too_many_makes_up_for_what_comes_last() -> None:
    soon, late = replace(FRONT, line="soon", said_at=at(2, 8)), replace(FRONT, line="late", said_at=at(3, 8))
    shortages = find_shortages(work(soon, FRONT, late, replace(REAR, have=7)))
    assert [(line.item.line, line.pieces) for line in shortages.missing] == [("soon", 2), ("late", 1)]


def test_a_spare_serves_where_a_piece_is_short_and_is_asked_for_by_no_step() -> None:
    assert judged(work(replace(FRONT, have=3), SPARE)).readiness.verdict == "complete"
    assert stops(find_shortages(work(replace(FRONT, have=3), SPARE))) == {"front": ()}
    forecast = judged(work(FRONT, SPARE))
    assert (forecast.readiness.verdict, forecast.readiness.short) == ("start_to_hold", {"M8": D(1)})


def test_a_step_that_waits_for_something_else_leaves_its_pieces_to_the_next() -> None:
    """Section 9: only a step that lacks nothing takes pieces."""
    duct = NeededItem("duct", "Duct", "FIT", need=1, have=0, counted=True)
    rear = replace(REAR, operation="PAINT", have=2)
    paint = Step("PAINT", "Paint", 6, D(1))
    job = work(duct, FRONT, rear, steps=(SETUP, STRIP, FIT, CLOSE, TRIM, paint))
    assert judged(job).states["PAINT"] == "clear"
    assert stops(find_shortages(job)) == {"duct": (("FIT", 1),), "front": (("FIT", 2),), "rear": (("FIT", 2),)}


def test_what_comes_first_goes_to_the_step_that_comes_first() -> None:
    """Four pieces come on Tuesday and go to the fitting, though its own line has no date: no false alarm."""
    coming = replace(REAR, have=0, counted=False, kit="BRAKES", said_at=at(1, 17))
    job = work(replace(FRONT, have=3), coming)
    shortages = judged(job)
    assert shortages.readiness.verdict == "start_on_arrivals"
    assert (shortages.states["FIT"], shortages.states["TRIM"]) == ("comes", "waits")
    assert stops(find_shortages(job)) == {"front": (("TRIM", 1),), "rear": (("FIT", 1), ("TRIM", 3))}
    (arrival,) = shortages.readiness.arrivals
    assert (arrival.item, arrival.due, find_shortages(job).arriving(arrival).item.line) == ("M8", at(1, 17), "rear")
    assert shortages.ahead is not None
    assert [(delivery.operation, delivery.at) for delivery in shortages.ahead.coming] == [
        ("FIT", at(1, 17)),
        ("TRIM", at(1, 17)),
        ("TRIM", None),
    ]


def test_of_two_deliveries_the_sooner_serves_first_wherever_it_is_listed() -> None:
    late = replace(REAR, line="late", have=0, counted=False, kit="BRAKES", said_at=at(9, 8))
    soon = replace(FRONT, line="soon", have=0, counted=False, kit="TOWING", said_at=at(1, 17))
    job = work(late, soon)
    assert judged(job).readiness.verdict == "start_on_arrivals"
    assert stops(find_shortages(job)) == {"late": (("TRIM", 4),), "soon": (("FIT", 4),)}


def test_a_step_is_told_how_many_of_its_pieces_are_missing_of_how_many() -> None:
    two = replace(REAR, operation="FIT", have=1)
    shortages = find_shortages(work(FRONT, two))
    assert shortages.needed("FIT", "M8") == 8
    assert [(group.first.item.line, group.first.pieces) for group in shortages.at["FIT"]] == [("front", 2), ("rear", 3)]


def test_lines_of_a_job_that_cannot_be_walked_are_handed_out_in_sheet_order() -> None:
    a, b = Step("A", "A", 1, D(1), ("B",)), Step("B", "B", 2, D(1), ("A",))
    shortages = find_shortages(work(replace(FRONT, operation="B"), replace(REAR, operation="A"), steps=(a, b)))
    assert stops(shortages) == {"front": (("B", 2),)}


def test_what_one_bag_has_too_many_is_not_ordered_for_another() -> None:
    bolt, more = replace(BOLT, part="M8"), replace(BOLT, line="more", have=5, part="M8")
    assert list(single_lines([bolt, more], NOW)) == []
    assert list(single_lines([bolt, replace(more, part="M10")], NOW)) == [("bolt", D(1))]
    assert list(single_lines([replace(bolt, have=2), more], NOW)) == [("bolt", D(1))]
    assert list(single_lines([bolt, replace(more, taken=False)], NOW)) == [("bolt", D(1))]
    assert list(single_lines([bolt, replace(bolt, line="next"), more], NOW)) == [("next", D(1))]


# For every list

CODES = ("SETUP", "STRIP", "FIT", "CLOSE", "TRIM", "")


@st.composite
def lists(draw: st.DrawFn) -> JobWork:
    def item(n: int) -> NeededItem:
        day = draw(st.sampled_from([None, None, 0, 1, 2, 3]))
        return NeededItem(
            f"line {n}",
            f"Line {n}",
            draw(st.sampled_from(CODES)),
            need=draw(st.integers(1, 4)),
            have=draw(st.integers(0, 5)),
            counted=True,
            kit="TURBO",
            minor=draw(st.sampled_from([False, False, True])),
            said_at=None if day is None else at(1, 8) + timedelta(days=day),
            part=draw(st.sampled_from(["M6", "M8", ""])),
        )

    return work(*(item(n) for n in range(draw(st.integers(0, 7)))))


def by_pieces(job: JobWork) -> tuple[set[str], dict[str, int]]:
    """A second implementation by single pieces: the clear steps, and the shortage of each part."""
    heaps = {item.pool: sum(other.have for other in job.items if other.pool == item.pool) for item in job.items}
    bag = Counter(heaps)
    clear: set[str] = set()
    for step in job.steps:
        first = job.steps[0].code
        needed = Counter[str]()
        for item in job.items:
            if not item.minor and (item.operation or first) == step.code:
                needed[item.pool] += item.need
        if clear.issuperset(step.after) and needed <= bag:
            clear.add(step.code)
            bag -= needed
    whole = Counter[str]()
    for item in job.items:
        whole[item.pool] += item.need
    return clear, dict(whole - Counter(heaps))


@given(lists())
def test_a_piece_is_handed_out_once_and_never_missed_twice(job: JobWork) -> None:
    shortages = find_shortages(job)
    readiness = shortages.readiness
    assert isinstance(readiness, Readiness)
    clear, short = by_pieces(job)
    assert set(readiness.clear) == clear
    missed = Counter[str]()
    for line in shortages.missing:
        missed[line.item.pool] += line.pieces
        assert 0 < line.pieces <= line.item.need - line.item.have
        assert sum(pieces for _, pieces in line.stops) <= line.pieces
        assert not clear & {code for code, _ in line.stops}
    assert dict(missed) == short
    given_away = Counter[str]()
    for handed in shortages.allocations:
        for source, pieces in handed.sources:
            assert source.pool == handed.item.pool
            given_away[source.line] += pieces
    assert all(given_away[item.line] <= item.have for item in job.items)
    stopped = Counter((code, line.item.pool) for line in shortages.missing for code, n in line.stops for _ in range(n))
    lacking = Counter[tuple[str, str]]()
    for handed in shortages.allocations:
        if handed.step is not None:
            lacking[handed.step, handed.item.pool] += handed.shortfall
    assert stopped == +lacking


@given(lists())
def test_a_step_that_will_be_covered_misses_only_what_comes_in_time(job: JobWork) -> None:
    shortages = find_shortages(job)
    readiness = shortages.readiness
    assert isinstance(readiness, Readiness)
    starts = {"SETUP": at(1, 8), "STRIP": at(1, 10), "FIT": at(2, 8), "CLOSE": at(3, 8), "TRIM": at(3, 10)}
    for line in shortages.missing:
        for code in {code for code, _ in line.stops} & set(readiness.covered):
            assert line.in_time is not None and line.in_time <= starts[code]


@pytest.mark.parametrize("order", [("FIT", "TRIM"), ("TRIM", "FIT")])
def test_it_is_handed_out_in_the_order_of_the_work(order: tuple[str, str]) -> None:
    handed = allocate_pieces([FRONT, REAR], ("FIT", "TRIM"), order)
    assert [(allocation.step, allocation.shortfall) for allocation in handed] == [(order[0], 0), (order[1], 2)]

"""Readiness: properties of every sheet; the worked cases are in the vectors."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from itertools import product
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kitting.calc.readiness import Delivery, ReadinessInput, SheetOperation, judge_readiness
from shop.calc.errors import CalculationError
from tests.examples import many

ITEMS = ("bolt", "oil", "tie")
MORNING = datetime(2026, 3, 10, 8, tzinfo=UTC)

ABSENT = -9


def by_item(*choices: Any) -> st.SearchStrategy[dict[str, Any]]:
    """Each item has one of the choices or is absent. Drawn as a whole, which is ten times faster than by item."""
    every = product((ABSENT, *choices), repeat=len(ITEMS))
    return st.sampled_from([{i: c for i, c in zip(ITEMS, choice, strict=True) if c is not ABSENT} for choice in every])


HOURS = [MORNING + timedelta(hours=hours) for hours in range(7)]
amounts = by_item(*map(Decimal, range(4)))
shelves = by_item(*map(Decimal, range(-1, 7)))
dues = by_item(*HOURS)
deliveries = by_item(
    (Delivery(HOURS[1], Decimal(1)),),
    (Delivery(HOURS[3], Decimal(3)),),
    (Delivery(HOURS[0], Decimal(1)), Delivery(HOURS[2], Decimal(2))),
    (Delivery(HOURS[1], Decimal(2)), Delivery(HOURS[4])),
    (Delivery(HOURS[2], Decimal(1)), Delivery(HOURS[2], Decimal(1)), Delivery(HOURS[5], Decimal(1))),
)


@st.composite
def sheets(draw: st.DrawFn) -> ReadinessInput:
    """Operations with predecessors of smaller numbers only, listed in any order."""
    count = draw(st.integers(1, 6))
    operations = [
        SheetOperation(
            code=f"O{at}",
            hours=Decimal(draw(st.integers(0, 20))) / 10,
            after=draw(st.sampled_from(BEFORE[at])),
            needs=draw(amounts),
            no_return=draw(st.sampled_from([False, False, True])),
            mobile_again=draw(st.sampled_from([False, False, True])),
        )
        for at in range(count)
    ]
    starts = zip([operation.code for operation in operations], draw(st.tuples(*[STARTS] * count)), strict=True)
    return ReadinessInput(
        operations=tuple(draw(st.permutations(operations))),
        on_hand=draw(shelves),
        minor=draw(st.sampled_from([frozenset(), frozenset({"tie"})])),
        due=draw(dues),
        deliveries=draw(st.one_of(st.just({}), deliveries)),
        starts={code: start for code, start in starts if start},
        buffer=draw(st.sampled_from([0, 60])),
    )


# Two of the operations before it, one of them twice, or none.
BEFORE = [
    [(), *((f"O{a}", f"O{b}") for a in range(at) for b in range(a + 1)), *((f"O{a}",) for a in range(at))]
    for at in range(6)
]
STARTS = st.sampled_from([None, *HOURS])


def walk_order(sheet: ReadinessInput) -> list[SheetOperation]:
    """Repeatedly the first operation whose predecessors are done."""
    order: list[SheetOperation] = []
    while len(order) < len(sheet.operations):
        walked = {operation.code for operation in order}
        order.append(next(o for o in sheet.operations if o.code not in walked and walked.issuperset(o.after)))
    return order


def piece_by_piece(sheet: ReadinessInput, item: str) -> list[datetime]:
    """The arrival of each piece. A delivery of all that is missing has more pieces than any sheet needs."""
    alone = (Delivery(sheet.due[item]),) if item in sheet.due else ()
    return [delivery.at for delivery in sheet.deliveries.get(item, alone) for _ in range(int(delivery.amount or 100))]


def judged_oracle(sheet: ReadinessInput) -> dict[str, object]:
    """A second implementation of the document's rules."""
    order = walk_order(sheet)
    left = {item: max(sheet.on_hand.get(item, Decimal(0)), Decimal(0)) for item in ITEMS}

    def lacking(operation: SheetOperation) -> dict[str, Decimal]:
        return {i: n - left[i] for i, n in operation.needs.items() if i not in sheet.minor and n > left[i]}

    def take(operation: SheetOperation) -> None:
        for item, need in operation.needs.items():
            left[item] -= min(need, left[item])

    clear, blocked, minor_missing = [], [], dict[str, Decimal]()
    for operation in order:
        if missing := lacking(operation):
            blocked.append((operation.code, missing))
        elif set(operation.after) <= set(clear):
            clear.append(operation.code)
            for item, need in operation.needs.items():
                if need > left[item]:
                    minor_missing[item] = minor_missing.get(item, Decimal(0)) + need - left[item]
            take(operation)
    covered, arrivals = [], []
    coming = {item: piece_by_piece(sheet, item) for item in ITEMS}
    for operation in order:
        if operation.code in clear:
            covered.append(operation.code)
        elif set(operation.after) <= set(covered):
            start, missing = sheet.starts.get(operation.code), lacking(operation)
            wait = timedelta(minutes=sheet.buffer)
            pieces = {item: coming[item][: int(missing[item])] for item in sorted(missing)}
            whole = all(len(dues) == missing[item] for item, dues in pieces.items())
            if whole and all(start and due + wait <= start for dues in pieces.values() for due in dues):
                covered.append(operation.code)
                arrivals += [(operation.code, item, dues[-1]) for item, dues in pieces.items()]
                coming |= {item: coming[item][len(dues) :] for item, dues in pieces.items()}
                take(operation)
    inside, hold = set(), None
    for at, operation in enumerate(order):
        ends = [end for end in range(at, len(order)) if order[end].mobile_again]
        window = (
            [operation.code for operation in order[at : ends[0] + 1 if ends else None]] if operation.no_return else []
        )
        inside |= set(window)
        if hold is None and set(window) - set(covered):
            hold = operation.code
    codes = [operation.code for operation in order]
    if len(clear) == len(order):
        verdict = "complete"
    elif not clear or (hold and not set(codes[: codes.index(hold)]) & set(clear)):
        verdict = "hold"
    else:
        verdict = "start_to_hold" if hold else "start_on_arrivals" if inside - set(clear) else "start"
    return {
        "verdict": verdict,
        "clear": clear,
        "blocked": blocked,
        "hold_before": hold,
        "arrivals": [arrival for arrival in arrivals if arrival[0] in inside],
        "minor_missing": minor_missing,
        "short": short_of(sheet),
    }


def short_of(sheet: ReadinessInput) -> dict[str, Decimal]:
    needs = {item: sum(operation.needs.get(item, 0) for operation in sheet.operations) for item in ITEMS}
    return {i: n - max(sheet.on_hand.get(i, 0), 0) for i, n in needs.items() if n > max(sheet.on_hand.get(i, 0), 0)}


@settings(max_examples=many(400))
@given(sheets())
def test_it_is_what_the_document_says(sheet):
    judged = judge_readiness(sheet)
    assert judged_oracle(sheet) == {
        "verdict": judged.verdict,
        "clear": list(judged.clear),
        "blocked": [(entry.code, entry.missing) for entry in judged.blocked],
        "hold_before": judged.hold_before,
        "arrivals": [(entry.code, entry.item, entry.due) for entry in judged.arrivals],
        "minor_missing": judged.minor_missing,
        "short": judged.short,
    }


@given(sheets())
def test_with_what_is_short_delivered_the_sheet_is_complete(sheet):
    short = judge_readiness(sheet).short
    on_hand = {item: max(sheet.on_hand.get(item, Decimal(0)), Decimal(0)) + short.get(item, 0) for item in ITEMS}
    delivered = judge_readiness(replace(sheet, on_hand=on_hand))
    assert (delivered.verdict, delivered.short, delivered.minor_missing) == ("complete", {}, {})
    assert delivered.cleared_hours == delivered.total_hours == sum(operation.hours for operation in sheet.operations)


@given(sheets())
def test_what_is_clear_can_be_done_together_with_what_is_on_the_shelf(sheet):
    judged = judge_readiness(sheet)
    clear = [operation for operation in sheet.operations if operation.code in judged.clear]
    assert all(set(operation.after) <= set(judged.clear) for operation in clear)
    for item in set(ITEMS) - sheet.minor:
        assert sum(operation.needs.get(item, 0) for operation in clear) <= max(sheet.on_hand.get(item, 0), 0)
    assert judged.cleared_hours == sum(operation.hours for operation in clear)
    assert not {operation.code for operation in judged.blocked} & set(judged.clear)


@given(sheets(), st.dictionaries(st.sampled_from(ITEMS), st.integers(0, 6).map(Decimal)))
def test_small_things_never_change_what_may_be_done(sheet, other):
    sheet = replace(sheet, minor=frozenset({"tie"}))
    ties = {item: amount for item, amount in other.items() if item == "tie"}
    first = judge_readiness(sheet)
    two = judge_readiness(replace(sheet, on_hand={**sheet.on_hand, **ties}))
    assert (first.verdict, first.clear, first.blocked) == (two.verdict, two.clear, two.blocked)
    assert (first.hold_before, first.arrivals) == (two.hold_before, two.arrivals)


@given(sheets(), st.dictionaries(st.sampled_from(ITEMS), st.integers(0, 4).map(Decimal)))
def test_more_on_the_shelf_leaves_less_to_order_to_the_piece(sheet, more):
    whole = {item: max(sheet.on_hand.get(item, Decimal(0)), Decimal(0)) for item in ITEMS}
    first = judge_readiness(sheet).short
    two = judge_readiness(replace(sheet, on_hand={item: whole[item] + more.get(item, 0) for item in ITEMS})).short
    expected = {item: lack - more.get(item, 0) for item, lack in first.items()}
    assert two == {item: lack for item, lack in expected.items() if lack > 0}


@given(sheets())
def test_the_verdict_says_what_it_says(sheet):
    judged = judge_readiness(sheet)
    codes = [operation.code for operation in walk_order(sheet)]
    before = codes[: codes.index(judged.hold_before)] if judged.hold_before else []
    started = bool(set(before) & set(judged.clear))
    match judged.verdict:
        case "complete":
            assert set(judged.clear) == set(codes) and not judged.blocked and judged.hold_before is None
        case "hold":
            assert not judged.clear or (judged.hold_before and not started)
        case "start_to_hold":
            assert judged.hold_before and started
        case "start_on_arrivals":
            assert judged.hold_before is None and judged.clear
        case "start":
            assert judged.hold_before is None and judged.clear and not judged.arrivals
    nothing_comes = judge_readiness(replace(sheet, due={}, deliveries={}))
    assert nothing_comes.arrivals == () and nothing_comes.verdict != "start_on_arrivals"
    assert nothing_comes.clear == judged.clear


@given(sheets())
def test_an_arrival_comes_the_buffer_before_it_is_needed_at_the_latest(sheet):
    for arrival in judge_readiness(sheet).arrivals:
        assert arrival.slack_minutes >= sheet.buffer
        assert arrival.needed_at - arrival.due == timedelta(minutes=arrival.slack_minutes)


def a_sheet(*operations: SheetOperation, **more: object) -> ReadinessInput:
    return replace(ReadinessInput(operations, {}), **more)


def an_operation(code: str, **more: object) -> SheetOperation:
    return replace(SheetOperation(code, Decimal(1)), **more)


def test_instants_of_one_zone_are_compared_across_the_change_of_the_clock():
    zone = ZoneInfo("America/Toronto")
    due = datetime(2026, 11, 1, 1, 50, tzinfo=zone, fold=1)  # after the clock went back: 06:50 UTC
    start = datetime(2026, 11, 1, 1, 55, tzinfo=zone)  # before it went back: 05:55 UTC
    operations = (an_operation("IN"), an_operation("CUT", no_return=True, needs={"bolt": Decimal(1)}))
    late = a_sheet(*operations, due={"bolt": due}, starts={"CUT": start})
    assert judge_readiness(late).hold_before == "CUT"
    in_time = a_sheet(*operations, due={"bolt": start}, starts={"CUT": due})
    assert [arrival.slack_minutes for arrival in judge_readiness(in_time).arrivals] == [55]


def test_a_need_of_nothing_is_met_by_an_empty_shelf():
    assert judge_readiness(a_sheet(an_operation("A", needs={"bolt": Decimal(0)}))).verdict == "complete"


@pytest.mark.parametrize(
    ("operations", "culprit"),
    [
        ([an_operation("A", needs={"bolt": Decimal("NaN")})], "bad_quantity: A bolt: NaN"),
        ([an_operation("A", needs={"bolt": Decimal("-0.1")})], "bad_quantity: A bolt: -0.1"),
        ([an_operation("A"), an_operation("A")], "duplicate_operation: A"),
        ([an_operation("A", hours=Decimal("NaN"))], "negative_hours: A: NaN"),
        ([an_operation("A", hours=Decimal("-0.1"))], "negative_hours: A: -0.1"),
        ([an_operation("A", after=("B",))], "unknown_operation: B before A"),
        ([an_operation("A", after=("A",))], "loop: A > A"),
        (
            [
                an_operation("IN"),
                an_operation("Z", after=("A",)),
                an_operation("A", after=("IN", "C")),
                an_operation("B", after=("A",)),
                an_operation("C", after=("B",)),
            ],
            "loop: A > B > C > A",
        ),
    ],
)
def test_a_sheet_that_cannot_be_walked_is_refused_and_the_culprit_named(operations, culprit):
    with pytest.raises(CalculationError) as refusal:
        judge_readiness(a_sheet(*operations))
    assert str(refusal.value) == culprit

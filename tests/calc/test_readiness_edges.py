"""An operation whose own items arrive in time, after one whose items do not."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal as D

from kitting.calc.readiness import Delivery, ReadinessInput, SheetOperation, judge_readiness
from kitting.vectors import CALCULATIONS

EIGHT = datetime(2026, 11, 2, 8, tzinfo=UTC)


def test_it_is_not_covered_while_what_it_comes_after_is_not() -> None:
    operations = (
        SheetOperation("PREPARE", D(1)),
        SheetOperation("BRACKET", D(1), needs={"bracket": D(1)}),
        SheetOperation("OPEN", D(2), after=("BRACKET",), needs={"seal": D(1)}, no_return=True, mobile_again=True),
    )
    readiness = judge_readiness(
        ReadinessInput(
            operations,
            on_hand={},
            due={"seal": EIGHT},
            starts={operation.code: EIGHT + timedelta(hours=1) for operation in operations},
        )
    )
    assert (readiness.clear, readiness.hold_before, readiness.verdict) == (("PREPARE",), "OPEN", "start_to_hold")
    assert readiness.arrivals == ()


def test_what_is_left_of_a_delivery_serves_the_next_operation() -> None:
    operations = tuple(
        SheetOperation(code, D(1), needs={"bolt": D(n)}, no_return=True)
        for code, n in (("ONE", 1), ("TWO", 2), ("LAST", 1))
    )
    readiness = judge_readiness(
        ReadinessInput(
            operations,
            on_hand={},
            deliveries={"bolt": (Delivery(EIGHT, D(3)),)},
            starts={operation.code: EIGHT + timedelta(hours=1) for operation in operations},
        )
    )
    assert (readiness.covered, readiness.hold_before) == (("ONE", "TWO"), "ONE")


def test_a_due_or_a_start_of_null_is_absent() -> None:
    open_up = {"code": "OPEN", "hours": "1.0", "needs": {"seal": "1"}, "no_return": True}
    instant = "2026-11-02T08:00:00+00:00"
    for due, start in ((None, instant), (instant, None), (None, None)):
        readiness = CALCULATIONS["readiness"](
            {"operations": [open_up], "on_hand": {}, "due": {"seal": due}, "starts": {"OPEN": start}}
        )
        assert (readiness["arrivals"], readiness["hold_before"], readiness["verdict"]) == ([], "OPEN", "hold")

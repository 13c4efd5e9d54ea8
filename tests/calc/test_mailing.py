"""The next step of a message that could not be sent."""

from hypothesis import given
from hypothesis import strategies as st

from shop.calc.mailing import Failure, NextStep, after_failure

DELAYS = st.lists(st.integers(1, 500), max_size=6)


def test_each_try_waits_longer_and_the_last_one_fails() -> None:
    steps = [after_failure(Failure("unreachable"), tries, [1, 5, 15]) for tries in range(1, 5)]
    assert steps == [
        NextStep("waiting", 1),
        NextStep("waiting", 5),
        NextStep("waiting", 15),
        NextStep("failed"),
    ]


def test_without_delays_the_first_try_is_the_last() -> None:
    assert after_failure(Failure("unreachable"), 1, []) == NextStep("failed")


@given(st.integers(1, 9), DELAYS, st.booleans())
def test_what_may_have_left_is_never_tried_again(tries: int, delays: list[int], lasting: bool) -> None:
    assert after_failure(Failure("interrupted", left=True, lasting=lasting), tries, delays) == NextStep("begun")


@given(st.integers(1, 9), DELAYS)
def test_what_was_refused_for_good_is_not_tried_again(tries: int, delays: list[int]) -> None:
    assert after_failure(Failure("recipient", lasting=True), tries, delays) == NextStep("failed")


@given(st.integers(1, 9), DELAYS)
def test_a_message_is_tried_once_more_than_there_are_delays(tries: int, delays: list[int]) -> None:
    assert (after_failure(Failure("unreachable"), tries, delays).state == "waiting") == (tries <= len(delays))

"""The check digit detects typical reading errors; nothing is ever refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shop.calc.vin import VinStatus, check_sum, check_vin

MARKS = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ"
GOOD = "0TB1MZW00A7YW24HU"

frames = st.text(MARKS, min_size=17, max_size=17)

LETTERS = {"ABCDEFGH": 1, "JKLMN": 1, "P": 7, "R": 9, "STUVWXYZ": 2}
WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2]


def worth(mark: str) -> int:
    """The values of consecutive letters, counted up from the first."""
    return int(mark) if mark.isdigit() else next(at + row.index(mark) for row, at in LETTERS.items() if mark in row)


@given(frames)
def test_the_check_digit_is_the_weighed_sum_by_eleven(frame: str) -> None:
    left = sum(worth(mark) * weight for mark, weight in zip(frame, WEIGHTS, strict=True)) % 11
    digit = "X" if left == 10 else str(left)
    assert check_vin(frame[:8] + digit + frame[9:]).status == "valid"
    for other in "0123456789X":
        fits = check_vin(frame[:8] + other + frame[9:], "north_america").status
        assert fits == ("valid" if other == digit else "check_digit_wrong")


@given(st.text())
def test_a_vin_that_was_read_reads_the_same_again(typed: str) -> None:
    once = check_vin(typed)
    assert check_vin(once.vin) == once


@given(frames, st.text("-\u2010\u2011 \t\n\u00a0", max_size=4), st.integers(0, 17), st.booleans())
def test_case_blanks_and_hyphens_say_nothing(frame: str, blanks: str, at: int, small: bool) -> None:
    typed = frame[:at] + blanks + frame[at:]
    assert check_vin(typed.lower() if small else typed) == check_vin(frame)


@given(frames)
def test_model_years_are_thirty_apart_and_those_of_the_tenth_mark(frame: str) -> None:
    cycle = "ABCDEFGHJKLMNPRSTVWXY123456789"
    years = tuple(year for year in range(1980, 2040) if cycle[(year - 1980) % 30] == frame[9])
    assert check_vin(frame).model_years == years


@given(frames)
def test_exactly_one_check_digit_fits_a_vin(frame: str) -> None:
    fits = [mark for mark in "0123456789X" if check_vin(frame[:8] + mark + frame[9:]).status == "valid"]
    assert len(fits) == 1


@given(st.integers(0, 16).filter(lambda at: at != 8), st.sampled_from("0123456789"))
def test_one_digit_misread_is_noticed(at: int, digit: str) -> None:
    good = "11111111111111111"
    misread = good[:at] + digit + good[at + 1 :]
    assert check_vin(misread).status == ("valid" if digit == "1" else "check_digit_wrong")


@given(st.text())
def test_whatever_is_typed_gets_an_answer(typed: str) -> None:
    check = check_vin(typed)
    assert check.status in VinStatus
    assert (check.status == "malformed") == (len(check.vin) != 17 or not set(check.vin) <= set(MARKS))


@given(frames, st.integers(0, 16), st.sampled_from("IOQ"))
def test_a_suggestion_is_well_formed_and_says_what_was_meant(frame: str, at: int, wrong: str) -> None:
    check = check_vin(frame[:at] + wrong + frame[at + 1 :])
    assert check.status == "malformed"
    assert check.suggestion == frame[:at] + {"I": "1", "O": "0", "Q": "0"}[wrong] + frame[at + 1 :]
    assert check.model_years == ()


@given(frames)
def test_a_well_formed_vin_gets_no_suggestion(frame: str) -> None:
    assert check_vin(frame).suggestion is None


@pytest.mark.parametrize(
    ("mark", "years"),
    [("A", (1980, 2010)), ("Y", (2000, 2030)), ("9", (2009, 2039)), ("U", ()), ("Z", ()), ("0", ())],
)
def test_the_tenth_mark_names_two_years_or_none(mark: str, years: tuple[int, ...]) -> None:
    assert check_vin(GOOD[:9] + mark + GOOD[10:]).model_years == years


def test_it_is_read_as_it_was_meant() -> None:
    assert check_vin(" 0tb1-mzw00\u00a0a7yw\u201124hu\n").vin == GOOD


def test_only_one_market_is_held_to_the_check_digit() -> None:
    wrong = GOOD[:-1] + "1"
    assert check_vin(wrong).status == check_vin(wrong, "north_america").status == "check_digit_wrong"
    assert check_vin(wrong, "europe").status == check_vin(wrong, "").status == "not_checkable"


@given(frames)
def test_the_working_of_a_check_digit_ends_in_it(frame: str) -> None:
    worked = check_sum(frame)
    assert sum(term.value * term.weight for term in worked.terms) == worked.total
    assert worked.total % 11 == worked.remainder
    right = frame[:8] + worked.digit + frame[9:]
    assert check_vin(right).status == "valid" and check_sum(right).total == worked.total
